package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.ListedTime;
import rampwright.analysis.trace.Trace;

/**
 * Recordings and exports that others made, read in place. Sources and licences are in the {@code
 * PROVENANCE.md} of each folder; expected cells were copied from the files by eye.
 */
class CsvOpenDataReferenceTest {
  private static final double RAD_PER_S = 60 / (2 * Math.PI);

  /** A cell times a scale is one rounding away from the product computed here. */
  private static final double ONE_ROUNDING = 1e-12;

  private static Path open(String folder, String file) {
    return CsvFiles.shared("open-data").resolve(folder).resolve(file);
  }

  private static Trace read(Path file, ColumnMapping columns) throws TraceFileException {
    return CsvTraceReader.read(file, columns, null);
  }

  private static String message(Path file) {
    return CsvFiles.message(file, ColumnMapping.NONE);
  }

  /** Asiderr/elesys: start of a wound-rotor motor, sensor volts, published scales. */
  @Test
  void woundRotorStart() throws Exception {
    Path file = open("wound-rotor-start", "start-1.csv");
    assertThat(message(file))
        .contains("columns are 1 \"Nr\", 2 \"t`s\", 3 \"Ch 00`V\"")
        .contains(
            "column 3 \"Ch 00`V\" is in V but does not say of what; a sensor's output needs a")
        .endsWith("[columns]\ni1 = { name = \"Ch 00`V\", scale = 100.0 }   # amperes per V");

    ColumnMapping mapping =
        new ColumnMapping(
            Map.of(
                "i1", CsvFiles.scaled("Ch 00", 23.81),
                "v1", CsvFiles.scaled("Ch 03", 325.71),
                "speed", CsvFiles.scaled("Ch 02", 3123)));
    Trace trace = read(file, mapping);
    assertThat(trace.time()).isEqualTo(new EvenTime(0, 0.00025, 6000));
    double[] i1 = CsvFiles.values(trace, ChannelName.I1);
    double peak = 0;
    int at = 0;
    for (int i = 0; i < i1.length; i++) {
      if (Math.abs(i1[i]) > peak) {
        peak = Math.abs(i1[i]);
        at = i;
      }
    }
    // Derived in the provenance: peak 124.75 A at 0.1378 s; half of the last digit printed.
    assertThat(peak).isCloseTo(124.75, within(0.005));
    assertThat(trace.time().atS(at)).isCloseTo(0.1378, within(0.00005));
    assertThat(CsvFiles.values(trace, ChannelName.SPEED)[0])
        .isCloseTo(-0.035645 * 3123, within(ONE_ROUNDING * 1000));
    assertThat(CsvFiles.values(trace, ChannelName.V1)[1])
        .isCloseTo(-0.004883 * 325.71, within(ONE_ROUNDING * 10));
  }

  @Test
  void directCurrentMachineStart() throws Exception {
    ColumnMapping mapping = CsvFiles.mapping("i1", CsvFiles.scaled("Ch 02`V", -98.88));
    Trace trace = read(open("wound-rotor-start", "dc-machine-start.csv"), mapping);
    assertThat(((EvenTime) trace.time()).stepS()).isEqualTo(0.0005);
    double[] armature = CsvFiles.values(trace, ChannelName.I1);
    double peak = java.util.Arrays.stream(armature).max().orElseThrow();
    // Derived in the provenance: 49.7 A.
    assertThat(peak).isCloseTo(49.7, within(0.05));
  }

  /** ibarram/ITSC: steady currents, no header, no time, 1 kHz. */
  @ParameterizedTest
  @CsvSource({
    "SC_HLT_001.csv, 2.0279, 1.8815, 2.0465",
    "SC_HLT_002.csv, 1.9714, 1.9582, 1.9761",
    "SC_A4_B0_C0_001.csv, 2.9411, 3.1014, 2.0646",
    "SC_A0_B4_C0_001.csv, 2.1084, 3.1525, 3.0945"
  })
  void steadyCurrentsWithoutHeader(String name, double a, double b, double c) throws Exception {
    Path file = open("induction-motor-steady-1khz", name);
    assertThat(message(file))
        .startsWith(name + ": has no header line, so that its 3 columns cannot be told apart")
        .endsWith(
            "[columns]\n"
                + "time = { rate_Hz = 1000 }   # no column rises like a time; rows per second\n"
                + "i1 = { index = 1, unit = \"A\" }");
    ColumnMapping mapping =
        new ColumnMapping(
            Map.of("i1", CsvFiles.at(1, "A"), "i2", CsvFiles.at(2, "A"), "i3", CsvFiles.at(3, "A")),
            1000.0);
    Trace trace = read(file, mapping);
    assertThat(trace.time()).isEqualTo(new EvenTime(0, 0.001, 1000));
    // RMS over all rows as derived in the provenance, half of the last digit printed.
    double[] expected = {a, b, c};
    for (int i = 0; i < 3; i++) {
      double square = 0;
      for (double value : CsvFiles.values(trace, ChannelName.CURRENTS.get(i))) {
        square += value * value / 1000;
      }
      assertThat(Math.sqrt(square)).isCloseTo(expected[i], within(0.00005));
    }
  }

  @Test
  void scopeWithQuotedPreamble() throws Exception {
    Path file = open("csv-scope-exports", "scope-1.csv");
    assertThat(message(file))
        .startsWith("scope-1.csv line 16: no column could be told to be a current")
        .contains("2 \"Voltage (V)\", 3 \"Voltage (V)\"");
    assertThat(CsvFiles.message(file, CsvFiles.mapping("v1", CsvFiles.named("Voltage (V)", null))))
        .contains("2 columns are named \"Voltage (V)\"; give index = 2 or another instead");
    Trace trace =
        read(
            file,
            new ColumnMapping(Map.of("v1", CsvFiles.at(2, null), "v2", CsvFiles.at(3, null))));
    assertThat(trace.size()).isEqualTo(8192);
    EvenTime time = (EvenTime) trace.time();
    assertThat(time.stepS()).isCloseTo(2e-9, within(1e-18));
    assertThat(CsvFiles.values(trace, ChannelName.V1)).startsWith(1.72, -4.52, -4.6, -0.04);
    assertThat(CsvFiles.values(trace, ChannelName.V2)).startsWith(9.92, 9.92, 9.92, 9.92, -0.24);
    assertThat(trace.provenance().notes()).contains("\"Number of Data points =\",8192,");
  }

  @Test
  void scopeWhoseTimeIsNamedX() throws Exception {
    Path file = open("csv-scope-exports", "scope-2.csv");
    assertThat(message(file))
        .startsWith("scope-2.csv: no column tells the time; columns are 1 \"X\", 2 \"CH 1 (V)\"");
    Trace trace =
        read(
            file,
            new ColumnMapping(
                Map.of("time", CsvFiles.named("X", "s"), "i1", CsvFiles.scaled("CH 1 (V)", 10))));
    // The rows are 10.01 us apart although the maker's settings say 2 us; the file counts.
    assertThat(((EvenTime) trace.time()).stepS()).isCloseTo(10.01e-6, within(0.001e-6));
    assertThat(CsvFiles.values(trace, ChannelName.I1)[0]).isCloseTo(80.8, within(1e-9));
  }

  @ParameterizedTest
  @CsvSource({
    "scope-3.csv, -5.9999998e-06, 4.4, 1.99e-8, 2.01e-8",
    "scope-4.csv, -3.5e-03, 1.6e-2, 5e-6, 5e-6",
    "scope-5.csv, -1.356e-03, 3.125e-2, 2e-6, 2e-6"
  })
  void scopesWithUnitRowOrCounter(
      String name, double startS, double first, double leastStepS, double mostStepS)
      throws Exception {
    Path file = open("csv-scope-exports", name);
    assertThat(message(file)).contains("\"CH1\" is in V but does not say of what");
    Trace trace = read(file, CsvFiles.mapping("v1", CsvFiles.named("CH1", null)));
    assertThat(trace.time().atS(0)).isCloseTo(startS, within(1e-8));
    assertThat(trace.time().typicalStepS())
        .isBetween(leastStepS * (1 - 1e-9), mostStepS * (1 + 1e-9));
    assertThat(CsvFiles.values(trace, ChannelName.V1)[0]).isEqualTo(first);
  }

  @Test
  void scopeWithValuesOnly() throws Exception {
    Path file = open("csv-scope-exports", "scope-6.csv");
    assertThat(message(file))
        .startsWith("scope-6.csv: has no header line, so that its one column cannot be told");
    Trace trace = read(file, new ColumnMapping(Map.of("v1", CsvFiles.at(1, "V")), 1e6));
    assertThat(CsvFiles.values(trace, ChannelName.V1)).startsWith(-0.031620555, 0, 0.015810277);
  }

  @Test
  void laboratoryExportWithTabsBehindTheCounter() throws Exception {
    Path file = open("csv-lab-exports", "lab-1.csv");
    assertThat(message(file)).contains("is in V but does not say of what");
    Trace trace = read(file, CsvFiles.mapping("v1", CsvFiles.named("Ch 00`V", null)));
    assertThat(((EvenTime) trace.time()).stepS()).isEqualTo(0.00025);
    assertThat(CsvFiles.values(trace, ChannelName.V1)).startsWith(1.118889, 1.000205, 0.877173);
  }

  @ParameterizedTest
  @ValueSource(strings = {"lab-4ch-side-by-side-1.csv", "lab-4ch-side-by-side-2.csv"})
  void fourScopesSideBySide(String name) throws Exception {
    Path file = open("csv-lab-exports", name);
    assertThat(message(file))
        .contains("has no header line, so that its 24 columns cannot be told apart")
        .endsWith(
            "[columns]\ntime = { index = 4, unit = \"s\" }\ni1 = { index = 5, unit = \"A\" }");
    Trace trace =
        read(
            file,
            new ColumnMapping(Map.of("time", CsvFiles.at(4, "s"), "v1", CsvFiles.at(17, "V"))));
    // The provenance counts 5199 line ends; the last of the 5200 rows has none.
    assertThat(trace.size()).isEqualTo(5200);
    assertThat(trace.time().atS(0)).isCloseTo(-200.00000298e-3, within(1e-7));
    assertThat(trace.time().typicalStepS()).isCloseTo(76.8e-6, within(0.1e-6));
    assertThat(CsvFiles.values(trace, ChannelName.V1)).startsWith(-80.000005662e-3);
  }

  @Test
  void openLoopStepInSpanish() throws Exception {
    Trace trace = read(open("dc-motor-open-loop-step", "step_response.csv"), ColumnMapping.NONE);
    assertThat(trace.time()).isEqualTo(new EvenTime(0.02, 0.02, 300));
    assertThat(trace.names()).containsExactly(ChannelName.SPEED);
    // Derived in the provenance: 7.27 rad/s at 2.06 s, 10.18 rad/s at 2.16 s.
    double[] speed = CsvFiles.values(trace, ChannelName.SPEED);
    assertThat(speed[102] / RAD_PER_S).isCloseTo(7.27, within(0.005));
    assertThat(speed[107] / RAD_PER_S).isCloseTo(10.18, within(0.005));
    assertThat(trace.provenance().warnings())
        .contains(
            "column 3 \"Voltaje (V)\" is left out: it does not say whether it is line to line (v12) or"
                + " line to neutral (v1)");
  }

  @Test
  void speedLoopWithSetpoint() throws Exception {
    Trace trace = read(open("dc-motor-speed-pid", "step_response.csv"), ColumnMapping.NONE);
    assertThat(trace.time().atS(0)).isEqualTo(0.01);
    assertThat(((EvenTime) trace.time()).stepS()).isEqualTo(0.01);
    double[] speed = CsvFiles.values(trace, ChannelName.SPEED);
    assertThat(speed).startsWith(0, 42, 120, 137, 120, 128, 111);
    // Published by the source for this run or its twin: mean of the steady half 94.0 or 93.1 rpm.
    double mean =
        java.util.Arrays.stream(speed, speed.length / 2, speed.length).average().orElseThrow();
    assertThat(mean).isBetween(93.0, 94.1);
  }

  @Test
  void brushlessBenchNamesBothSpeeds() throws Exception {
    Path file =
        open("bench-brushless-steps", "Motor_SO_V5__TimeConstant_Test_2023-12-13_130935.csv");
    assertThat(message(file))
        .contains(
            "2 columns could be speed: 13 \"Motor Electrical Speed (rad/s)\", 14 \"Motor Optical")
        .endsWith("[columns]\nspeed = { name = \"Motor Electrical Speed (rad/s)\" }");
    ColumnMapping mapping =
        CsvFiles.mapping("speed", CsvFiles.named("Motor Optical Speed (rad/s)", null));
    Trace trace = read(file, mapping);
    assertThat(trace.time()).isInstanceOf(ListedTime.class);
    // Derived in the provenance: largest inrush 41.93 A at 27.577 s, top speed 3265.7 rad/s.
    double[] current = CsvFiles.values(trace, ChannelName.I1);
    int peak = 0;
    for (int i = 0; i < current.length; i++) {
      peak = current[i] > current[peak] ? i : peak;
    }
    assertThat(current[peak]).isCloseTo(41.93, within(0.005));
    assertThat(trace.time().atS(peak)).isCloseTo(27.577, within(0.0005));
    double top =
        java.util.Arrays.stream(CsvFiles.values(trace, ChannelName.SPEED)).max().orElseThrow();
    assertThat(top / RAD_PER_S).isCloseTo(3265.7, within(0.05));
    assertThat(trace.provenance().warnings().toString()).contains("repeat the time stamp before");
  }

  @Test
  void brushlessStepsTableIsFlaggedForItsTimes() throws Exception {
    Path file =
        open("bench-brushless-steps", "Motor_Impulse_Micro__StepsTestV2_2024-02-06_131025.csv");
    ColumnMapping mapping =
        CsvFiles.mapping("speed", CsvFiles.named("Motor Electrical Speed (rad/s)", null));
    assertThat(read(file, mapping).provenance().warnings().toString())
        .contains("1 rows run back in time and were left out; first at line 3");
  }

  @ParameterizedTest
  @CsvSource({
    "MS_Decay_1.csv, 2648.8",
    "MS_Decay_2.csv, 2397.5",
    "MS_Decay_3.csv, 2438.3",
    "MS_Decay_4.csv, 2402.4"
  })
  void coastDownOfSpeedAlone(String name, double topRadPerS) throws Exception {
    Trace trace = read(open("bench-rotor-coastdown", name), ColumnMapping.NONE);
    double top =
        java.util.Arrays.stream(CsvFiles.values(trace, ChannelName.SPEED)).max().orElseThrow();
    // Derived in the provenance; half of the last digit printed.
    assertThat(top / RAD_PER_S).isCloseTo(topRadPerS, within(0.05));
    assertThat(trace.provenance().warnings())
        .contains("column 2 \"omega\" has no unit; read as rad/s");
  }

  /** Exports with no motor in them: each must say what is missing, not read something else. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "clevercsv_imdb.csv | no column tells the time; columns are 1 \"fn\"",
        "impedance_exampleDataAutolab.txt | has no header line",
        "impedance_exampleDataBioLogic.mpt | line 61: 2 columns could be i1: 8",
        "impedance_exampleDataCHInstruments.txt | no column tells the time; columns are 1 \"Freq/Hz\"",
        "impedance_exampleDataPowersuite.txt | no column tells the time; columns are 1 \"Frequency\"",
        "impedance_exampleDataZPlot.z | has no header line",
        "messytables_begrotingsanalyse-2011.csv | no column tells the time",
        "messytables_excel_pasting.csv | has no header line",
        "messytables_null.csv | has no header line, so that its 4 columns",
        "messytables_simple.csv | no column tells the time; columns are 1 \"date\"",
        "messytables_skip_initials.csv | holds no row of numbers, only 3 lines of text",
        "messytables_utf-16le_encoded.csv | no column tells the time; columns are 1 \"Organisation_code\"",
        "messytables_utf8bom.csv | holds no row of numbers, only 1 line of text (\"kitten,win\")",
        "messytables_weird_head_padding.csv | no column tells the time",
        "pvlib_CRNS0101-05-2019-AZ_Tucson_11_W.txt | has no header line, so that its 23 columns",
        "pvlib_CRN_with_problems.txt | has no header line, so that its 23 columns",
        "pvlib_cams_radiation_1min_verbose.csv | line 68: no column could be told to be a current",
        "pvlib_inverter_fit_snl_meas.csv | no column tells the time",
        "pvlib_pvgis_hourly_Timeseries_45.000_8.000_SA_30deg_0deg_2016_2016.csv | line 9: no column"
      })
  void exportsWithoutAMotorAreRefusedWithAReason(String name, String reason) {
    assertThat(message(open("csv-logger-exports", name)))
        .contains(reason)
        .doesNotContain("Exception");
  }

  @Test
  void intervalStampsAndSemicolonsReadOnceMapped() throws Exception {
    Path file = open("csv-logger-exports", "pvlib_cams_radiation_1min_verbose.csv");
    Trace trace = read(file, CsvFiles.mapping("power", CsvFiles.at(2, "W")));
    assertThat(((EvenTime) trace.time()).stepS()).isEqualTo(60);
    assertThat(CsvFiles.values(trace, ChannelName.POWER)).startsWith(18.0699, 18.0584, 18.0467);
  }

  @Test
  void everyPracticeTraceReads() throws Exception {
    int waveforms = 0;
    int readings = 0;
    try (var paths = Files.walk(CsvFiles.shared("practice"))) {
      for (Path path : paths.sorted().toList()) {
        String name = path.getFileName().toString();
        if (name.startsWith("trace.csv")) {
          Trace trace = read(path, ColumnMapping.NONE);
          assertThat(trace.names()).as(path.toString()).containsAll(ChannelName.CURRENTS);
          assertThat(trace.names()).containsAll(ChannelName.LINE_VOLTAGES);
          boolean even = trace.time() instanceof EvenTime;
          assertThat(even).as(path.toString()).isEqualTo(name.endsWith(".gz"));
          waveforms += even ? 1 : 0;
          readings += even ? 0 : 1;
        }
      }
    }
    assertThat(waveforms).isEqualTo(7);
    assertThat(readings).isEqualTo(36);
  }

  @Test
  void practiceTraceWithCommasAndKiloamperes() throws Exception {
    Path file = CsvFiles.shared("practice").resolve("wave-comma-kA").resolve("trace.csv.gz");
    Trace trace = read(file, ColumnMapping.NONE);
    assertThat(CsvFiles.values(trace, ChannelName.I1)[0]).isCloseTo(1.019228, within(ONE_ROUNDING));
    assertThat(CsvFiles.values(trace, ChannelName.V12)).startsWith(293.37, 325.255);
  }
}
