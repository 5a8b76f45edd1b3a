package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Trace;

/** Headers, preambles and repeated headers of other people's files. */
class CsvForeignHeadersTest {
  @TempDir Path folder;
  private CsvFiles files;

  @BeforeEach
  void files() {
    files = new CsvFiles(folder);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "sec",
        "secs",
        "Second",
        "Seconds",
        "Sek.",
        "Zeit",
        "temps",
        "tiempo",
        "tempo",
        "Zaman",
        "Time (sec.)",
        "t / s",
        "Zeit in s",
        "T[s]",
        "Laufzeit [s]",
        "temps \u00e9coul\u00e9 (s)",
        "Time - s",
        "Messzeit_s"
      })
  void secondsByAnyName(String header) throws Exception {
    Trace trace = files.read(header + ";Strom L1 [A]\n0,5;1\n0,6;2\n0,7;3\n");
    assertThat(CsvFiles.times(trace)).containsExactly(0.5, 0.6, 0.7);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Motorstrom Phase L1 | Spannung L1-L2 | Motordrehzahl [U/min] | Drehmoment | Wirkleistung",
        "Intensit\u00e9 L1 | Tension compos\u00e9e U12 | Vitesse moteur [tr/mn] | Couple | Puissance",
        "Intensidad L1 | Voltaje L1-L2 | Velocidad de giro [r.p.m.] | Par motor | Potencia activa",
        "Corrente fase R | Tensione R-S | Numero di giri [giri/1'] | Coppia | Potenza attiva",
        "Corrente R | Tens\u00e3o R-S | Rota\u00e7\u00e3o [RPM] | Bin\u00e1rio | Pot\u00eancia ativa",
        "Motorstroom fase 1 | Lijnspanning L1-L2 | Toerental [omw/min] | Koppel | Vermogen",
        "Pr\u0105d fazowy L1 | Napi\u0119cie mi\u0119dzyfazowe L1-L2 | Obroty [obr./min] | Moment | Moc",
        "Fasstr\u00f6m L1 | Huvudsp\u00e4nning L1-L2 | Varvtal [varv/min] | Vridmoment | Effekt",
        "Str\u00f8m L1 | Sp\u00e6nding L1-L2 | Omdrejningstal [o/min] | Moment | Aktiv effekt",
        "Str\u00f8m L1 | Spenning L1-L2 | Turtall [o/min] | Dreiemoment | Effekt",
        "Virta L1 | J\u00e4nnite L1-L2 | Py\u00f6rimisnopeus [r/min] | V\u00e4\u00e4nt\u00f6momentti | Teho",
        "Proud L1 | Nap\u011bt\u00ed L1-L2 | Ot\u00e1\u010dky [ot/min] | Moment | V\u00fdkon",
        "Ak\u0131m L1 | Gerilim L1-L2 | H\u0131z [d/dak] | Tork | P",
        "Ia | Uab | N [min\u207b\u00b9] | T | P"
      })
  void quantitiesInManyLanguages(
      String current, String voltage, String speed, String torque, String power) throws Exception {
    Trace trace =
        files.read(
            String.join(";", "t [s]", current + " [A]", voltage + " [V]", speed, torque + " [Nm]")
                + ";"
                + power
                + " [kW]\n0,5;1;2;3;4;5\n0,6;1;2;3;4;5\n0,7;1;2;3;4;5\n");
    assertThat(CsvFiles.values(trace, ChannelName.I1)[0]).isEqualTo(1);
    assertThat(CsvFiles.values(trace, ChannelName.V12)[0]).isEqualTo(2);
    assertThat(CsvFiles.values(trace, ChannelName.SPEED)[0]).isEqualTo(3);
    assertThat(CsvFiles.values(trace, ChannelName.TORQUE)[0]).isEqualTo(4);
    assertThat(CsvFiles.values(trace, ChannelName.POWER)[0]).isEqualTo(5000);
  }

  @Test
  void headersThatAreOnlyUnits() throws Exception {
    Trace trace = files.read("s,A,rpm\n0.5,1,10\n0.6,2,20\n");
    assertThat(trace.names()).containsExactlyInAnyOrder(ChannelName.I1, ChannelName.SPEED);
    assertThat(CsvFiles.times(trace)).containsExactly(0.5, 0.6);
  }

  @Test
  void unitsOfTheSameKindAreCandidatesByTheirPlace() {
    assertThat(files.message("[s];[A];[A]\n0,5;1;2\n0,6;1;2\n"))
        .startsWith("trace.csv line 1: 2 columns could be i1: 2 \"[A]\", 3 \"[A]\"; say which")
        .endsWith("[columns]\ni1 = { index = 2 }");
  }

  @ParameterizedTest
  @ValueSource(strings = {"Rotational frequency [Hz]", "Drehfrequenz (Hz)"})
  void rotationalFrequencyIsSpeed(String header) throws Exception {
    Trace trace = files.read("Time [s],Current L1 [A]," + header + "\n0,1,24.5\n1,1,24.6\n");
    assertThat(CsvFiles.values(trace, ChannelName.SPEED)[0]).isEqualTo(24.5 * 60);
    assertThat(trace.provenance().understood().toString()).contains("turns per second by its name");
  }

  @ParameterizedTest
  @ValueSource(strings = {"Speed [Hz]", "Drehzahl [Hz]", "Output frequency [Hz]"})
  void otherHertzMayBeElectricalAndAreLeftOut(String header) throws Exception {
    Trace trace = files.read("Time [s],Current L1 [A]," + header + "\n0,1,24.5\n1,1,24.6\n");
    assertThat(trace.has(ChannelName.SPEED)).isFalse();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Sample interval, 0.0001",
        "Rate: 10 kHz",
        "Sampling rate [Hz],10000",
        "Abtastrate: 10 kHz",
        "Sample Rate,10000,Hz",
        "Sampling Interval (ms): 0.1",
        "delta t = 1e-4 s",
        "Fr\u00e9quence d'\u00e9chantillonnage : 10 kHz",
        "Sample Period,100,us",
        "Samples per second: 10000",
        "10 kS/s is what we like\nSample rate: 10 kS/s"
      })
  void statedRatesSpaceCountedRows(String line) throws Exception {
    String preamble = "Recorder 7\n" + line + "\nBaud rate: 9600\nLine frequency: 50 Hz\n\n";
    Trace counted =
        files.read(preamble + "Sample,Current L1 [A]\n" + "1,5.5\n2,6.5\n3,7.5\n5,9.5\n6,9\n");
    assertThat(CsvFiles.times(counted))
        .usingComparatorWithPrecision(1e-12)
        .containsExactly(1e-4, 2e-4, 3e-4, 5e-4, 6e-4);
    Trace bare = files.read(preamble + "Current L1 [A],Speed [rpm]\n5.5,1\n6.5,2\n7.5,3\n");
    assertThat(((EvenTime) bare.time()).stepS()).isCloseTo(1e-4, within(Math.ulp(1e-4)));
    assertThat(bare.provenance().understood().get(1)).contains(line.substring(line.length() - 5));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Line frequency: 50 Hz",
        "Rate: 10",
        "Sample interval: 100",
        "Sample rate: 10,240 Hz",
        "Duration of sampling: 60 s",
        "High Frequency (Hz) = 2e+6",
        "Sample rate: 0 Hz"
      })
  void linesThatStateNoRateDoNot(String line) {
    assertThat(files.message(line + "\n\nSample,Current L1 [A]\n1,5.5\n2,6.5\n3,7.5\n"))
        .contains("no column tells the time")
        .contains("1 \"Sample\" seems to count rows");
  }

  @Test
  void statedRatesThatDifferAreCandidates() {
    assertThat(
            files.message(
                "Sample interval: 0.0001\nSample rate: 5000\n\nSample,Current L1 [A]\n1,5\n2,6\n"))
        .isEqualTo(
            "trace.csv: no column tells the time, and the lines above the table state different"
                + " rates: \"Sample interval: 0.0001\", \"Sample rate: 5000\"; say which in a"
                + " [columns] table (in settings.toml or with --columns FILE), for example:\n"
                + "[columns]\n"
                + "time = { rate_Hz = 10000 }\n"
                + "# or: time = { rate_Hz = 5000 }");
  }

  @Test
  void headersThatComeAgainAreCounted() throws Exception {
    String head = "Time [s],Current L1 [A],Speed [rpm]\n";
    Trace trace = files.read(head + "0,1,5\n1,2,6\n" + head + "2,3,7\n3,4,8\n");
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1, 2, 3, 4);
    assertThat(trace.provenance().warnings())
        .containsExactly(
            "1 header lines that come again, left out; the recorder may have begun anew; first at"
                + " line 4");
  }

  @Test
  void anotherHeaderInTheMiddleIsRefused() {
    // Read on, the speed would be taken for the current.
    assertThat(
            files.message(
                "Time [s],Current L1 [A],Speed [rpm]\n0,1,5\n1,2,6\n"
                    + "Time [s],Speed [rpm],Current L1 [A]\n2,7,3\n3,8,4\n"))
        .isEqualTo(
            "trace.csv line 4: another header begins here, with other columns than the one above the"
                + " first rows; the file holds several records: split it at this line");
  }

  @Test
  void headersPartedByWideBlanksKeepTheirWords() throws Exception {
    Trace trace = files.read("Time [s]   Current L1 [A]\n 0.5   1.5\n 0.6   2.5\n 0.7   3.5\n");
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1.5, 2.5, 3.5);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Zeit in s;Strom L1 in A;Drehzahl in 1/min",
        "Temps, s;Courant L1, A;Vitesse, tr/min",
        "\u0412\u0440\u0435\u043c\u044f, \u0441;\u0422\u043e\u043a L1, \u0410;"
            + "\u0421\u043a\u043e\u0440\u043e\u0441\u0442\u044c, \u043e\u0431/\u043c\u0438\u043d",
        "TIME s;IRMS_L1;SPD rpm"
      })
  void turnsAMinuteBehindAWordAndOtherAlphabets(String header) throws Exception {
    Trace trace = files.read(header + "\n0,5;1;1480\n0,6;2;1481\n0,7;3;1482\n");
    assertThat(CsvFiles.times(trace)).containsExactly(0.5, 0.6, 0.7);
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1, 2, 3);
    assertThat(CsvFiles.values(trace, ChannelName.SPEED)).containsExactly(1480, 1481, 1482);
  }

  @Test
  void blanksThatDoNotBreakALineAreBlanks() throws Exception {
    Trace trace =
        files.read("time\u00a0[s],I1\u00a0[A]\n\u00a00.5,\u00a01\u00a0\n0.6,\u202f2\n0.7,3\n");
    assertThat(CsvFiles.times(trace)).containsExactly(0.5, 0.6, 0.7);
    assertThat(CsvFiles.values(trace, ChannelName.I1)).containsExactly(1, 2, 3);
  }

  @Test
  void rowsFromTheNewestToTheOldestAndMixedLineEndsAreNamed() {
    assertThatThrownBy(() -> files.read("time_s,i1_A\n0.4,1\n0.3,2\n0.2,3\n0.1,4\n"))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("from the newest, 0.4 s, to the oldest")
        .hasMessageContaining("export them oldest first");
    assertThatThrownBy(
            () -> files.read("time_s,i1_A\r0.1,1\n0.2,2\r0.3,3\n0.4,1\r0.5,2\n0.6,2\r0.7,3\n"))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("carriage return alone");
  }
}
