package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/** Which analog and status channels become which channels of a trace, and on which side. */
class ComtradeChannelsTest extends ComtradeMadeRecords {
  @Test
  void secondaryValuesBecomePrimaryByTheRatioUnlessWantedOtherwise() throws Exception {
    Path file =
        simple("1,IA,A,,kA,0.001,0,0,-32767,32767,600,5,S", "1,0,10\n2,1000,20\n3,2000,0\n");
    assertThat(values(read(file), ChannelName.I1)[0]).isEqualTo(10 * 600 / 5.0, within(EXACT));
    Trace secondary =
        ComtradeReader.read(file, new ReadOptions(ColumnMapping.NONE, TraceKind.RMS, true));
    assertThat(values(secondary, ChannelName.I1)[1]).isEqualTo(20, within(EXACT));
    assertThat(secondary.declaredKind()).isEqualTo(TraceKind.RMS);
    Path primary = simple("1,IA,A,,A,1,0,0,-32767,32767,600,5,P", "1,0,120\n2,1000,20\n3,2000,0\n");
    assertThat(values(read(primary), ChannelName.I1)[0]).isEqualTo(120);
    assertThat(
            values(
                ComtradeReader.read(primary, new ReadOptions(ColumnMapping.NONE, null, true)),
                ChannelName.I1)[0])
        .isEqualTo(1, within(EXACT));
  }

  @Test
  void secondaryValuesWithoutARatioAreAnError() throws Exception {
    Path file = simple("1,IA,A,,A,1,0,0,-32767,32767,0,0,S", "1,0,10\n2,1000,20\n3,2000,0\n");
    assertThat(problem(file)).hasMessageContaining("no usable transformer ratio");
    ColumnRule rule = new ColumnRule("IA", null, null, 2.0, 1.0);
    assertThat(values(read(file, "i1", rule), ChannelName.I1)).containsExactly(21, 41, 1);
  }

  @Test
  void phasesAreTakenFromThePhaseFieldElseFromTheName() throws Exception {
    String analog =
        """
        1,x,L1,,A,1,0,0,-1,1,1,1,P
        2,y,S,,A,1,0,0,-1,1,1,1,P
        3,I_L3 main,,,A,1,0,0,-1,1,1,1,P
        4,3I0,N,,A,1,0,0,-1,1,1,1,P
        5,Uab,,,V,1,0,0,-1,1,1,1,P
        6,volts,B-C,,kV,1,0,0,-1,1,1,1,P
        7,UL3-L1,,,V,1,0,0,-1,1,1,1,P
        8,n,,,1/min,1,0,0,-1,1,1,1,P""";
    Trace trace =
        read(simple(analog, "1,0,1,2,3,4,5,6,7,8\n2,1000,1,2,3,4,5,6,7,8\n3,2000,1,2,3,4,5,6,7,8"));
    assertThat(trace.names())
        .containsExactly(
            ChannelName.I1,
            ChannelName.I2,
            ChannelName.I3,
            ChannelName.V12,
            ChannelName.V23,
            ChannelName.V31,
            ChannelName.SPEED);
    assertThat(values(trace, ChannelName.I3)[0]).isEqualTo(3);
    assertThat(values(trace, ChannelName.V23)[0]).isEqualTo(6000);
    assertThat(values(trace, ChannelName.SPEED)[0]).isEqualTo(8);
    assertThat(trace.provenance().understood())
        .anyMatch(line -> line.contains("left out") && line.contains("3I0"));
  }

  @Test
  void digitsThatMayBeSequenceComponentsAreNotPhases() throws Exception {
    String analog =
        "1,I1,,,A,1,0,0,-1,1,1,1,P\n2,I2,,,A,1,0,0,-1,1,1,1,P\n3,I0,,,A,1,0,0,-1,1,1,1,P";
    Path file = simple(analog, "1,0,1,2,3\n2,1000,1,2,3\n3,2000,1,2,3\n");
    assertThat(problem(file)).hasMessageContaining("no channel is plainly a phase current");
    Path full = simple(analog.replace("I0", "I3"), "1,0,1,2,3\n2,1000,1,2,3\n3,2000,1,2,3\n");
    assertThat(read(full).names()).containsAll(ChannelName.CURRENTS);
  }

  @ParameterizedTest
  @CsvSource({
    "Uab, A, V, v12",
    "Ua2, '', V, v1",
    "VBN, '', V, v2",
    "UL12, '', V, v12",
    "U L2-L3, '', V, v23",
    "V_ST, '', kV, v23",
    "bus U31, '', V, v31",
    "Uba, '', V, ''",
    "UAS, '', V, ''",
    "Strom L2, '', A, i2",
    "Current phase C, '', A, i3",
    "bay 4_Ib, '', A, i2",
    "3I0, '', A, ''",
    "anything, T, A, i3",
    "anything, RS, V, v12",
    "anything, N, A, ''",
    "M, '', kNm, torque",
    "p, '', kPa, pressure",
    "P, '', MW, power",
    "S, '', VA, ''",
    "f, '', Hz, ''"
  })
  void nameFieldAndUnitTellTheChannel(String id, String phase, String unit, String key)
      throws Exception {
    String analog =
        "1,x,A,,A,1,0,0,-1,1,1,1,P\n2," + id + "," + phase + ",," + unit + ",1,0,0,-1,1,1,1,P";
    Path file = simple(analog, "1,0,1,2\n2,1000,1,2\n3,2000,1,2\n");
    assertThat(read(file).names().stream().filter(name -> name != ChannelName.I1))
        .map(ChannelName::key)
        .isEqualTo(key.isEmpty() ? List.of() : List.of(key));
  }

  @Test
  void oneCurrentWithoutAPhaseIsTaken() throws Exception {
    String analog = "1,Motor current,,,A,1,0,0,-1,1,1,1,P\n2,I earth,,,A,1,0,0,-1,1,1,1,P";
    Trace trace = read(simple(analog, "1,0,1,2\n2,1000,1,2\n3,2000,1,2\n"));
    assertThat(values(trace, ChannelName.I1)).containsExactly(1, 1, 1);
  }

  @Test
  void severalSetsAreAnErrorUntilTheCurrentsAreNamed() throws Exception {
    String analog =
        """
        1,Ia,A,bay 1,A,1,0,0,-1,1,1,1,P
        2,Ia,A,bay 2,A,1,0,0,-1,1,1,1,P
        3,Ua,A,bar 1,V,1,0,0,-1,1,1,1,P
        4,Ua2,A,bar 2,V,1,0,0,-1,1,1,1,P""";
    Path file = simple(analog, "1,0,1,2,3,4\n2,1000,1,2,3,4\n3,2000,1,2,3,4\n");
    assertThat(problem(file))
        .hasMessageContaining("currents and phase voltages")
        .hasMessageContaining("1 \"Ia\" of bay 1 [A], 2 \"Ia\" of bay 2 [A]")
        .hasMessageContaining("i1 = { index = 1 }");
    Trace trace = read(file, "i1", new ColumnRule(null, 2, null, null, null));
    assertThat(trace.names()).containsExactly(ChannelName.I1);
    assertThat(values(trace, ChannelName.I1)[0]).isEqualTo(2);
    assertThat(trace.provenance().warnings())
        .anyMatch(line -> line.contains("more than one candidate for phase voltages, none taken"));
    assertThatThrownBy(() -> read(file, "i1", new ColumnRule("ia", null, null, null, null)))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("more than one channel is named \"ia\"");
  }

  @Test
  void statusChannelServesAsRunOnlyWhenNamed() throws Exception {
    String config =
        "plant,recorder,1999\n2,1A,1D\n"
            + IA
            + "\n1,Start,,,0\n50\n1\n1000,2\n"
            + DATES
            + "ASCII\n1\n";
    Path file = files(config, "1,0,2,0\n2,1000,4,1\n");
    assertThat(read(file).has(ChannelName.RUN)).isFalse();
    Trace named = read(file, "run", new ColumnRule("start", null, null, null, null));
    assertThat(values(named, ChannelName.RUN)).containsExactly(0, 1);
    Trace turned = read(file, "run", new ColumnRule(null, 1, null, -1.0, 1.0));
    assertThat(values(turned, ChannelName.RUN)).containsExactly(1, 0);
  }

  @Test
  void mappingErrorsNameTheRemedy() throws Exception {
    Path file = simple("1,IA,A,,V,0.5,0,0,-1,1,1,1,P", "1,0,2\n2,1000,4\n3,2000,6\n");
    assertThatThrownBy(() -> read(file, "i1", new ColumnRule("IA", null, null, null, null)))
        .hasMessageContaining("is in \"V\", which is no unit of i1 (A); give unit, or scale");
    assertThatThrownBy(() -> read(file, "i1", new ColumnRule("IB", null, null, null, null)))
        .hasMessageContaining("no channel is named \"IB\"")
        .hasMessageContaining("1 \"IA\" [V]");
    assertThatThrownBy(() -> read(file, "i1", new ColumnRule(null, 9, null, null, null)))
        .hasMessageContaining("no analog channel 9");
    assertThatThrownBy(() -> read(file, "i7", new ColumnRule(null, 1, null, null, null)))
        .hasMessageContaining("\"i7\"");
    Trace trace = read(file, "i1", new ColumnRule(null, 1, "kA", null, null));
    assertThat(values(trace, ChannelName.I1)).containsExactly(1000, 2000, 3000);
  }
}
