package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.Map;
import java.util.Objects;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;

/**
 * Recordings and samples nobody here made, read in place, against the values their sources publish.
 * Source of each is named at the test; "published" means by the source's own tests or notes.
 */
class ComtradeOpenDataReferenceTest {
  /** Products of an integer and a printed factor, both exact: only the last bit may differ. */
  private static final double EXACT = 1e-12;

  private static final double PRINTED_TO_0_001 = 0.0005;

  private static ComtradeFile open(String name) throws TraceFileException {
    return ComtradeFile.open(ComtradeOpenData.file(name));
  }

  private static Samples channel(Trace trace, ChannelName name) {
    Samples samples = trace.channel(name);
    assertThat(samples).as(name.key()).isNotNull();
    return Objects.requireNonNull(samples);
  }

  // Sample of the 2013 edition as circulated with an MIT-licensed reader; its identity with the
  // printed annex of IEEE C37.111-2013 is not confirmed.
  @Test
  void sampleOf2013HasItsPublishedValues() throws TraceFileException {
    ComtradeFile sample = open("reference/comtrade_2013_sample.cfg");
    ComtradeConfig config = sample.config();
    assertThat(config.station()).isEqualTo("SMARTSTATION");
    assertThat(config.device()).isEqualTo("IED123");
    assertThat(config.edition()).isEqualTo(ComtradeEdition.E2013);
    assertThat(config.lineFrequencyHz()).isEqualTo(60);
    assertThat(config.utcOffsetMinutes()).isEqualTo(-330);
    assertThat(config.firstSample()).isEqualTo(LocalDateTime.parse("2011-01-12T05:55:30.075011"));
    assertThat(config.trigger()).isEqualTo(LocalDateTime.parse("2011-01-12T05:55:30.078261"));
    double[] ia = sample.analog(0);
    assertThat(ia).hasSize(40);
    assertThat(ia[0]).isEqualTo(-9.39605712890625, within(EXACT));
    assertThat(ia[7]).isEqualTo(30.92156982421875, within(EXACT));
    // First changes of status: 51N at record 11, 51A and 51B at record 14, 51C never.
    assertThat(firstChange(sample.status(3))).isEqualTo(11);
    assertThat(firstChange(sample.status(0))).isEqualTo(14);
    assertThat(firstChange(sample.status(1))).isEqualTo(14);
    assertThat(firstChange(sample.status(2))).isEqualTo(0);
    assertThat(sample.warnings()).isEmpty();
  }

  @Test
  void sampleOf2013BecomesATraceOnEitherSideOfItsTransformers() throws TraceFileException {
    Path file = ComtradeOpenData.file("reference/comtrade_2013_sample.dat");
    Trace secondary = ComtradeReader.read(file, new ReadOptions(ColumnMapping.NONE, null, true));
    assertThat(secondary.names()).containsExactly(ChannelName.I1, ChannelName.I2, ChannelName.I3);
    assertThat(channel(secondary, ChannelName.I1).at(0))
        .isEqualTo(-9.39605712890625, within(EXACT));
    assertThat(secondary.time()).isInstanceOf(EvenTime.class);
    // 1200 Hz: 833.33 us, beginning at the first record's stamp of 72500 us.
    assertThat(secondary.time().typicalStepS()).isEqualTo(833.33e-6, within(0.005e-6));
    assertThat(secondary.time().atS(0)).isEqualTo(0.0725, within(EXACT));
    // Ratio 933 : 1, values marked secondary.
    Trace primary = ComtradeReader.read(file, ReadOptions.DEFAULT);
    assertThat(channel(primary, ChannelName.I1).at(7))
        .isEqualTo(933 * 30.92156982421875, within(1e-9));
    // First sample 05:55:30.075011 at UTC-5:30, 72.5 ms after time 0.
    assertThat(primary.provenance().startUtc()).isEqualTo("2011-01-12T11:25:30.002511Z");
  }

  private static int firstChange(double[] states) {
    return IntStream.range(0, states.length)
            .filter(i -> states[i] != states[0])
            .findFirst()
            .orElse(-1)
        + 1;
  }

  // github.com/dparrini/python-comtrade fd8a60f, tests/sample_files (MIT), and its tests.
  @Test
  void singleFileInAsciiHasThePublishedHeadAndTheValuesOfItsTwin() throws TraceFileException {
    ComtradeFile single = open("open-data/comtrade-a-python/sample_ascii.cff");
    assertThat(single.config().station()).isEqualTo("SMARTSTATION");
    assertThat(single.config().device()).isEqualTo("IED123");
    assertThat(single.config().edition().year()).isEqualTo("2013");
    assertThat(single.config().analogs()).hasSize(4);
    assertThat(single.config().statuses()).hasSize(4);
    assertThat(single.config().lineFrequencyHz()).isEqualTo(60);
    assertThat(single.config().encoding()).isEqualTo(ComtradeEncoding.ASCII);
    assertThat(single.header()).isBlank();
    assertThat(single.information()).isBlank();
    ComtradeFile twin = open("open-data/comtrade-a-python/sample_ascii.cfg");
    for (int i = 0; i < 4; i++) {
      assertThat(single.analog(i)).hasSize(40).containsExactly(twin.analog(i));
      assertThat(single.status(i)).containsExactly(twin.status(i));
    }
  }

  @Test
  void missingMarksInAsciiAreNoNumbers() throws TraceFileException {
    ComtradeFile whole = open("open-data/comtrade-a-python/sample_ascii.cfg");
    ComtradeFile gaps =
        ComtradeFile.open(
            ComtradeOpenData.file("open-data/comtrade-a-python/sample_ascii.cfg"),
            ComtradeOpenData.file("open-data/comtrade-a-python/sample_ascii_missing.dat"));
    // The marks stand in records 2 to 5 of channels 1 to 4; everything else is the same.
    for (int channel = 0; channel < 4; channel++) {
      double[] expected = whole.analog(channel);
      expected[channel + 1] = Double.NaN;
      assertThat(gaps.analog(channel)).containsExactly(expected);
    }
  }

  @Test
  void textEncodingsAreTold() throws TraceFileException {
    Path data = ComtradeOpenData.file("open-data/comtrade-a-python/sample_ascii.dat");
    ComtradeFile utf8 =
        ComtradeFile.open(
            ComtradeOpenData.file("open-data/comtrade-a-python/sample_ascii_utf-8.cfg"), data);
    assertThat(utf8.config().station())
        .isEqualTo("SMARTSTATION testing text encoding: hgvcj\ud130\ud30c\ud06c387");
    ComtradeFile latin = open("open-data/comtrade-a-python/sample_iso8859-1.cfg");
    assertThat(latin.config().station()).isEqualTo("Esta\u00e7\u00e3o de Medi\u00e7\u00e3o");
    assertThat(latin.config().device()).isEqualTo("Oscil\u00f3grafo");
    ComtradeFile sub =
        ComtradeFile.open(
            ComtradeOpenData.file("open-data/comtrade-a-python/sample_sub_char.cfg"), data);
    assertThat(sub.config().utcOffsetMinutes()).isEqualTo(-330);
    assertThat(sub.warnings()).isEmpty();
    assertThat(sub.analog(0)).containsExactly(latin.analog(0));
  }

  @Test
  void binaryHasItsPublishedValues() throws TraceFileException {
    ComtradeFile record = open("open-data/comtrade-a-python/sample_bin.cfg");
    assertThat(record.config().edition()).isEqualTo(ComtradeEdition.E1999);
    assertThat(record.analog(0)[3]).isEqualTo(-23425 * 0.000361849, within(EXACT));
    // First record, bytes 6d 9e: -24979 x 0.000361849 kV.
    assertThat(record.analog(0)[0]).isEqualTo(-9.03863, within(0.000005));
    double sum = 0;
    for (int i = 0; i < 4; i++) {
      sum += record.analog(i)[0];
    }
    assertThat(sum).isEqualTo(0, within(0.05));
    // Its stamps are all 0: the rate rules.
    double[] times = record.timesS();
    assertThat(times).hasSize(5);
    for (int i = 1; i < times.length; i++) {
      assertThat(times[i] - times[i - 1]).isEqualTo(1 / 15360.0, within(EXACT));
    }
  }

  @Test
  void missingMarksInBinaryAreNoNumbers() throws TraceFileException {
    ComtradeFile gaps =
        ComtradeFile.open(
            ComtradeOpenData.file("open-data/comtrade-a-python/sample_bin.cfg"),
            ComtradeOpenData.file("open-data/comtrade-a-python/sample_bin_missing.dat"));
    for (int channel = 0; channel < 4; channel++) {
      double[] values = gaps.analog(channel);
      for (int i = 0; i < values.length; i++) {
        assertThat(Double.isNaN(values[i])).isEqualTo(i == channel);
      }
    }
  }

  @Test
  void latinBinaryKeepsItsRateWhateverItsStampsSay() throws TraceFileException {
    ComtradeFile record = open("open-data/comtrade-a-python/sample_iso8859-1_bin.cfg");
    double[] times = record.timesS();
    assertThat(times).hasSize(40);
    assertThat(times[1] - times[0]).isEqualTo(1 / 1200.0, within(EXACT));
    assertThat(times[39] - times[0]).isEqualTo(39 / 1200.0, within(EXACT));
  }

  @Test
  void singleFileInFloatsHasThePublishedHead() throws TraceFileException {
    ComtradeFile record = open("open-data/comtrade-a-python/sample_float32.cff");
    assertThat(record.config().station()).isEqualTo("EXAMPLE");
    assertThat(record.config().device()).isEqualTo("example");
    assertThat(record.config().analogs()).hasSize(1);
    assertThat(record.config().statuses()).hasSize(1);
    assertThat(record.config().encoding()).isEqualTo(ComtradeEncoding.FLOAT32);
    // Published: 4 lines of HDR and 1 of INF.
    assertThat(record.header().lines()).hasSize(4);
    assertThat(record.information().lines()).hasSize(1);
    assertThat(record.analog(0)).hasSize(301);
    assertThat(record.config().promisedSamples()).isEqualTo(301);
    // Nanosecond dates, yet stamps of 0, 10, 20 at 100 Hz: they contradict the rate, which rules.
    assertThat(record.config().nanoseconds()).isTrue();
    assertThat(record.timesS()[300]).isEqualTo(3.0, within(EXACT));
  }

  // github.com/zhangsonggui/comtrade-io fb042bb, tests/data (MIT).
  @Test
  void recordOf1991WithSeveralStretchesKeepsItsPauses() throws TraceFileException {
    ComtradeFile record = open("open-data/comtrade-f-io/ascii_1991.cfg");
    ComtradeConfig config = record.config();
    assertThat(config.edition()).isEqualTo(ComtradeEdition.E1991);
    assertThat(config.analogs()).hasSize(24);
    assertThat(config.statuses()).hasSize(37);
    assertThat(config.rates()).hasSize(8).allMatch(rate -> rate.rateHz() == 1200);
    // Month first: 09/17/15.
    assertThat(config.firstSample()).isEqualTo(LocalDateTime.parse("2015-09-17T10:52:52.987545"));
    double[] times = record.timesS();
    double[] stamps = record.stampsS();
    assertThat(times).hasSize(2131);
    assertThat(stamps[0]).isEqualTo(-0.0775, within(EXACT));
    // No instant is further from its stamp than the stamps' own rounding of one step in a stretch.
    for (int i = 0; i < times.length; i++) {
      assertThat(times[i]).isEqualTo(stamps[i], within(0.5 / 1200));
    }
    assertThat(times[2130]).isEqualTo(17.258333, within(0.5 / 1200));
    assertThat(record.warnings()).isEmpty();
  }

  @Test
  void recordOf1991HasSeveralCurrentSetsAndSaysSo() {
    // Outside of what may throw: where the record is absent the test is skipped, not failed.
    Path record = ComtradeOpenData.file("open-data/comtrade-f-io/ascii_1991.cfg");
    assertThatThrownBy(() -> ComtradeReader.read(record, ReadOptions.DEFAULT))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("more than one candidate for currents")
        .hasMessageContaining("\"Ia1\"")
        .hasMessageContaining("\"Ia2\"")
        .hasMessageContaining("[columns]\ni1 = { index = 1 }");
  }

  @Test
  void singleFileWithOddSectionHeadsHasItsPublishedChannels() throws TraceFileException {
    ComtradeFile record = open("open-data/comtrade-f-io/ascii_cff_2013.cff");
    assertThat(record.config().station()).isEqualTo("GHBZ");
    assertThat(record.config().analogs()).hasSize(96);
    assertThat(record.config().statuses()).hasSize(192);
    assertThat(record.config().edition()).isEqualTo(ComtradeEdition.E2013);
    assertThat(record.config().analogs().get(0).id()).isEqualTo("220kV\u6bcd\u7ebf_Ua");
    // The text ends after 186 of the 45600 records; those are used, and it is said.
    ColumnMapping columns =
        new ColumnMapping(
            Map.of(
                "i1", new ColumnRule(null, 17, null, null, null),
                "i2", new ColumnRule(null, 18, null, null, null),
                "i3", new ColumnRule(null, 19, null, null, null)));
    Trace trace = ComtradeReader.read(record, new ReadOptions(columns, null, false));
    assertThat(trace.size()).isEqualTo(186);
    assertThat(trace.provenance().warnings())
        .anyMatch(line -> line.contains("promises 45600 samples, the data hold 186"));
    assertThat(trace.time().typicalStepS()).isEqualTo(100e-6, within(EXACT));
  }

  // github.com/zhangsonggui/comtradeOfPython b828e5d, tests/data/xtz (Mulan PSL v2), unit tests.
  @Test
  void substationRecordHasItsPublishedValues() throws TraceFileException {
    ComtradeFile record = open("open-data/comtrade-h-py3comtrade/xtz.cfg");
    ComtradeConfig config = record.config();
    assertThat(config.station()).isEqualTo("xtz");
    assertThat(config.edition().year()).isEqualTo("1999");
    assertThat(config.encoding()).isEqualTo(ComtradeEncoding.BINARY);
    assertThat(config.analogs()).hasSize(48);
    assertThat(config.statuses()).hasSize(96);
    assertThat(config.firstSample()).isEqualTo(LocalDateTime.parse("2023-05-12T19:45:25.603838"));
    assertThat(config.trigger()).isEqualTo(LocalDateTime.parse("2023-05-12T19:45:25.803774"));
    double[] ua = record.analog(0);
    assertThat(ua).hasSize(3077);
    assertThat(ua[0]).isEqualTo(-84.691, within(PRINTED_TO_0_001));
    assertThat(ua[602]).isEqualTo(65.465, within(PRINTED_TO_0_001));
    assertThat(ua[1282]).isEqualTo(85.316, within(PRINTED_TO_0_001));
    double[] an11 = record.analog(10);
    assertThat(an11[0]).isEqualTo(0.136, within(PRINTED_TO_0_001));
    assertThat(an11[600]).isEqualTo(0.327, within(PRINTED_TO_0_001));
    assertThat(an11[1281]).isEqualTo(0.682, within(PRINTED_TO_0_001));
    assertThat(record.stored(2)[4]).isEqualTo(7940);
    int changing = 0;
    for (int i = 0; i < 96; i++) {
      double[] states = record.status(i);
      assertThat(states[0]).isIn(0.0, 1.0);
      changing += firstChange(states) > 0 ? 1 : 0;
    }
    assertThat(changing).isEqualTo(12);
    assertThat(record.status(0)[0]).isEqualTo(0);
    assertThat(config.rates().get(0).rateHz() / config.lineFrequencyHz()).isEqualTo(64);
  }

  @Test
  void substationRecordLeavesItsSlowStretchesOutOfATrace() throws TraceFileException {
    ColumnMapping columns =
        new ColumnMapping(
            Map.of(
                "i1", new ColumnRule(null, 9, null, null, null),
                "i2", new ColumnRule(null, 10, null, null, null),
                "i3", new ColumnRule(null, 11, null, null, null),
                "v1", new ColumnRule(null, 1, null, null, null)));
    Trace trace =
        ComtradeReader.read(
            ComtradeOpenData.file("open-data/comtrade-h-py3comtrade/xtz.dat"),
            new ReadOptions(columns, null, true));
    // 3200 Hz to sample 1280 and from 1317 to 2788; 50 Hz, one sample a cycle, between and after.
    assertThat(trace.size()).isEqualTo(1280 + 2788 - 1316);
    assertThat(trace.provenance().warnings())
        .anyMatch(line -> line.contains("325 of 3077 samples"));
    // The stretch between lasts 36 steps of 20 ms (stamps: 399496 us to 1119578 us).
    assertThat(trace.time().atS(1280) - trace.time().atS(1279))
        .isEqualTo(1.119578 - 0.399496, within(0.001));
    // One-cycle RMS of 60.19 V in quiet (derived once with another program, a cross-check).
    Samples ua = channel(trace, ChannelName.V1);
    double squares = 0;
    for (int i = 0; i < 64; i++) {
      squares += ua.at(i) * ua.at(i);
    }
    assertThat(Math.sqrt(squares / 64)).isEqualTo(60.19, within(0.05));
    assertThat(trace.provenance().understood())
        .anyMatch(line -> line.contains("skew") && line.contains("not taken out"));
  }

  // github.com/Nazir/COMTRADE 9729bec, DB/test (MIT): 5 A injected, derived RMS as a cross-check.
  @Test
  void steadyRecordOf1991HasFiveAmperesInEachPhase() throws TraceFileException {
    Trace trace =
        ComtradeReader.read(
            ComtradeOpenData.file("open-data/comtrade-i-1991-ascii/test.cfg"), ReadOptions.DEFAULT);
    assertThat(trace.size()).isEqualTo(6000);
    assertThat(trace.time().typicalStepS()).isEqualTo(1e-3, within(EXACT));
    double[] expected = {5.0087, 5.0112, 5.0097};
    for (int phase = 0; phase < 3; phase++) {
      Samples samples = channel(trace, ChannelName.CURRENTS.get(phase));
      double squares = 0;
      for (int i = 0; i < samples.size(); i++) {
        squares += samples.at(i) * samples.at(i);
      }
      assertThat(Math.sqrt(squares / samples.size())).isEqualTo(expected[phase], within(0.00005));
    }
    assertThat(trace.provenance().warnings()).isEmpty();
    // Edition of 1991: month first, no zone, so no instant in UTC.
    assertThat(trace.provenance().startUtc()).isNull();
  }
}
