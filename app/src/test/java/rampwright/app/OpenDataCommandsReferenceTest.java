package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.app.fixture.SharedData;
import rampwright.app.json.ResultSchemaValidator;

/**
 * Recordings nobody here made, through the command line. Sources and licences are in the {@code
 * PROVENANCE.md} of each folder of the open data, which are read in place; "published" means by the
 * source itself, "derived" computed once with another program: a cross-check.
 */
class OpenDataCommandsReferenceTest {
  /** Half the last digit of the published 124.7 A; the derived 124.75 A has its own. */
  private static final double PRINTED_TO_0_1 = 0.051;

  private static final double PRINTED_TO_0_01 = 0.005;

  /** Half the last digit of RMS values printed to four decimals, in A. */
  private static final double PRINTED_TO_0_0001 = 0.00005;

  /** Half the last digit of instants printed to a tenth of a millisecond, in s. */
  private static final double PRINTED_TO_0_1_MS = 0.00005;

  @TempDir private Path folder;

  private static Path open(String name) {
    return SharedData.folder("open-data").resolve(name);
  }

  private Path columns(String... lines) throws IOException {
    return Files.writeString(
        folder.resolve("columns.toml"), "[columns]\n" + String.join("\n", lines) + "\n");
  }

  private static CommandRun.Answer valid(Object... words) {
    CommandRun.Answer answer = CommandRun.run(words);
    assertThat(ResultSchemaValidator.problems(answer.out())).as(answer.out()).isEmpty();
    return answer;
  }

  /**
   * Asiderr/elesys aebd466 (MIT): direct start of a wound-rotor motor, sensor volts, odd header;
   * scales as published in the source's analysis, the tachometer's by the frequency of the rotor
   * current (provenance).
   */
  @Test
  void theMeasuredStartHasItsPublishedCrestAndRunUpTime() throws Exception {
    Path columns =
        columns(
            "i1 = { name = \"Ch 00\", scale = 23.81 }",
            "v1 = { name = \"Ch 03\", scale = 325.71 }",
            "speed = { name = \"Ch 02\", scale = 3123 }");
    Path trace = open("wound-rotor-start/start-1.csv");
    JsonNode json = valid("analyze", trace, "--columns", columns, "--json").json();
    assertThat(json.path("trace").path("kind").asText()).isEqualTo("waveform");
    assertThat(json.path("trace").path("rate_hz").asDouble()).isEqualTo(4000);
    // Derived: 50.02 Hz.
    assertThat(json.path("trace").path("frequency_hz").asDouble())
        .isCloseTo(50.02, within(PRINTED_TO_0_01));
    assertThat(json.path("starts")).hasSize(1);
    JsonNode start = json.path("starts").get(0);
    assertThat(start.path("outcome").asText()).isEqualTo("completed");
    JsonNode crest = start.path("figures").path("crest_current_A");
    assertThat(crest.path("value").asDouble()).isCloseTo(124.7, within(PRINTED_TO_0_1));
    // Derived by a threshold: current on at 0.1313 s, voltage at 0.1310 s; a rising current crosses
    // a threshold up to two samples of 0.25 ms after it began.
    assertThat(start.path("instants").path("inception_s").asDouble())
        .isBetween(0.1313 - 2 * 0.00025 - PRINTED_TO_0_1_MS, 0.1313 + PRINTED_TO_0_1_MS);
    // Derived: steady 7.76 A over 0.5 to 1.5 s.
    JsonNode run = start.path("figures").path("run_current_A");
    assertThat(run.path("value").asDouble())
        .isCloseTo(7.76, within(2 * run.path("uncertainty").asDouble()));
    // The tachometer's ripple near full speed is taken for bad values, 16 of them; nothing else.
    assertThat(json.path("findings")).isEmpty();

    // Published run-up time 0.358 s, by the eye of its author: to where speed stays. Ours is to 95
    // % of settled speed, sooner by definition; the author's instant must lie between ours and the
    // speed's own end.
    double startTimeS = start.path("figures").path("start_time_s").path("value").asDouble();
    double inceptionS = start.path("instants").path("inception_s").asDouble();
    assertThat(startTimeS).isLessThan(0.358);
    double[] reached = new double[SHARES.length];
    shareReachedAtS(trace, reached);
    assertThat(startTimeS)
        .as("95 %% of settled speed, straight from the file")
        .isCloseTo(reached[0] - inceptionS, within(0.01));
    assertThat(0.358).isBetween(reached[1] - inceptionS, reached[2] - inceptionS);
  }

  private static final double[] SHARES = {0.95, 0.99, 0.999};

  /**
   * When a mean over one supply cycle of the tachometer first reaches shares of its last second.
   */
  private static void shareReachedAtS(Path trace, double[] reached) throws IOException {
    List<String> lines = Files.readAllLines(trace);
    double[] volts = new double[lines.size() - 1];
    for (int i = 0; i < volts.length; i++) {
      volts[i] = Double.parseDouble(lines.get(i + 1).split(",", -1)[4].strip());
    }
    double settled = 0;
    for (int i = volts.length - 4000; i < volts.length; i++) {
      settled += volts[i] / 4000;
    }
    double cycle = 0;
    int found = 0;
    for (int i = 0; i < volts.length && found < SHARES.length; i++) {
      cycle += volts[i] - (i >= 80 ? volts[i - 80] : 0);
      while (found < SHARES.length && i >= 600 && cycle / 80 >= SHARES[found] * settled) {
        reached[found++] = (i - 40) * 0.00025;
      }
    }
  }

  /** ibarram/ITSC f1056d0 (MIT): running motor, no header, no time, 1 kHz (published), 60 Hz. */
  @ParameterizedTest
  @CsvSource({
    "SC_HLT_001.csv, 2.0279, 1.8815, 2.0465",
    "SC_HLT_002.csv, 1.9714, 1.9582, 1.9761",
    "SC_A4_B0_C0_001.csv, 2.9411, 3.1014, 2.0646",
    "SC_A0_B4_C0_001.csv, 2.1084, 3.1525, 3.0945"
  })
  void steadyCurrentsShowNoStart(String name, double a, double b, double c) throws Exception {
    Path columns =
        columns(
            "time = { rate_Hz = 1000 }",
            "i1 = { index = 1, unit = \"A\" }",
            "i2 = { index = 2, unit = \"A\" }",
            "i3 = { index = 3, unit = \"A\" }");
    Path trace = open("induction-motor-steady-1khz/" + name);
    JsonNode json = valid("analyze", trace, "--columns", columns, "--json").json();
    assertThat(json.path("trace").path("kind").asText()).isEqualTo("waveform");
    assertThat(json.path("trace").path("frequency_hz").asDouble()).isCloseTo(60, within(0.5));
    assertNoStart(json);
    // RMS over the record (derived) against the median of one-cycle RMS: steady, so alike to 1 %.
    JsonNode run = json.path("starts").get(0).path("figures").path("run_current_A").path("phases");
    double[] expected = {a, b, c};
    for (int phase = 0; phase < 3; phase++) {
      assertThat(run.path("L" + (phase + 1)).asDouble())
          .isCloseTo(expected[phase], within(0.01 * expected[phase]));
    }
  }

  private static void assertNoStart(JsonNode json) {
    for (JsonNode start : json.path("starts")) {
      assertThat(start.path("outcome").asText()).isEqualTo("already running");
      assertThat(start.path("figures").path("start_time_s").path("value").isNull()).isTrue();
      assertThat(start.path("stop").isNull()).isTrue();
    }
    for (JsonNode finding : json.path("findings")) {
      assertThat(finding.path("code").asText()).isIn("unbalance");
    }
  }

  /** Nazir/COMTRADE 9729bec (MIT): 5 A injected, edition of 1991. */
  @Test
  void fiveInjectedAmperesAreFiveAndNoStart() {
    JsonNode json = valid("analyze", open("comtrade-i-1991-ascii/test.cfg"), "--json").json();
    assertThat(json.path("trace").path("samples").asInt()).isEqualTo(6000);
    assertNoStart(json);
    JsonNode run = json.path("starts").get(0).path("figures").path("run_current_A").path("phases");
    // Derived over the whole record; a median over the last second is as near as the noise lets.
    assertThat(run.path("L1").asDouble()).isCloseTo(5.0087, within(PRINTED_TO_0_01));
    assertThat(run.path("L2").asDouble()).isCloseTo(5.0112, within(PRINTED_TO_0_01));
    assertThat(run.path("L3").asDouble()).isCloseTo(5.0097, within(PRINTED_TO_0_01));
  }

  /**
   * Every COMTRADE record as canonical CSV: published numbers of channels and samples, first values
   * and rates. Sources: dparrini/python-comtrade fd8a60f, comtrade-io fb042bb, comtradeOfPython
   * b828e5d.
   */
  @ParameterizedTest
  @CsvSource({
    "comtrade-a-python/sample_ascii.cff, 40, 1200",
    "comtrade-a-python/sample_ascii.cfg, 40, 1200",
    "comtrade-a-python/sample_iso8859-1.cfg, 40, 1200",
    "comtrade-a-python/sample_iso8859-1_bin.cfg, 40, 1200",
    "comtrade-a-python/sample_bin.cfg, 5, 15360",
    "comtrade-a-python/sample_float32.cff, 301, 100",
    "comtrade-f-io/ascii_1991.cfg, 2131, 1200",
    "comtrade-f-io/ascii_cff_2013.cff, 186, 10000",
    "comtrade-h-py3comtrade/xtz.cfg, 2752, 3200",
    "comtrade-i-1991-ascii/test.cfg, 6000, 1000"
  })
  void everyComtradeRecordIsRead(String name, int samples, double rateHz) throws Exception {
    Path columns = columns(choice(name));
    Path csv = folder.resolve("out.csv");
    CommandRun.Answer answer =
        CommandRun.run("convert", open(name), csv, "--columns", columns, "--secondary");
    assertThat(answer.exit()).as(answer.err()).isZero();
    List<double[]> rows = rows(csv);
    assertThat(rows).hasSize(samples);
    assertThat(1 / (rows.get(1)[0] - rows.get(0)[0])).isCloseTo(rateHz, within(0.001 * rateHz));
    double first = rows.get(0)[1];
    switch (name.substring(name.indexOf('/') + 1)) {
      // Published: sample 4 of channel 1 is -23425 x 0.000361849 (kV), the phases sum to 0.
      case "sample_bin.cfg" ->
          assertThat(rows.get(3)[1]).isCloseTo(-23425 * 0.000361849, within(1e-9));
      // Published: channel 1 is -84.691 at 0, 65.465 at 602.
      case "xtz.cfg" -> {
        assertThat(rows.get(0)[2]).isCloseTo(-84.691, within(0.0005));
        assertThat(rows.get(602)[2]).isCloseTo(65.465, within(0.0005));
      }
      default -> assertThat(first).isFinite();
    }
  }

  /** Who is who where the record leaves it open: its message asks for it. */
  private static String[] choice(String name) {
    if (name.contains("sample_bin") || name.contains("float32")) {
      return new String[] {"i1 = { index = 1, scale = 1.0 }"};
    }
    if (name.contains("xtz")) {
      return new String[] {"i1 = { index = 9 }", "v1 = { index = 1 }"};
    }
    if (name.contains("cff_2013")) {
      return new String[] {"i1 = { index = 17 }", "v1 = { index = 1 }"};
    }
    return name.contains("ascii_1991")
        ? new String[] {"i1 = { index = 1 }", "v1 = { index = 5 }"}
        : new String[] {"i1 = { index = 1 }"};
  }

  private static List<double[]> rows(Path csv) throws IOException {
    List<double[]> rows = new ArrayList<>();
    for (String line : Files.readAllLines(csv)) {
      if (!line.startsWith("#") && !line.startsWith("time_s")) {
        String[] cells = line.split(",", -1);
        double[] row = new double[cells.length];
        for (int i = 0; i < row.length; i++) {
          row[i] = cells[i].isEmpty() ? Double.NaN : Double.parseDouble(cells[i]);
        }
        rows.add(row);
      }
    }
    return rows;
  }

  /** Records with speed alone say what is missing; they are no defect of the program. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "bench-rotor-coastdown/MS_Decay_1.csv",
        "dc-motor-open-loop-step/step_response.csv",
        "dc-motor-speed-pid/step_response.csv"
      })
  void speedAloneIsNotEnoughAndIsSaidSo(String name) {
    CommandRun.Answer answer = CommandRun.run("analyze", open(name));
    assertThat(answer.exit()).isEqualTo(6);
    assertThat(answer.err())
        .contains("no phase current among its channels", "speed", "[columns]")
        .doesNotContain("defect", "Exception");
  }

  /** Exports with no motor in them: a message with its remedy, never a defect and never figures. */
  @ParameterizedTest
  @ValueSource(strings = {"csv-logger-exports", "csv-scope-exports", "csv-lab-exports"})
  void messyExportsAreRefusedWithWhatToDo(String name) throws IOException {
    List<Path> files;
    try (var walk = Files.list(open(name))) {
      files = walk.filter(f -> !f.toString().endsWith(".md")).sorted().toList();
    }
    assertThat(files).isNotEmpty();
    for (Path file : files) {
      CommandRun.Answer answer = CommandRun.run("analyze", file);
      assertThat(answer.exit()).as("%s", file).isEqualTo(6);
      assertThat(answer.err())
          .as("%s", file)
          .contains(String.valueOf(file.getFileName()))
          .containsAnyOf("[columns]", "record or export it anew")
          .doesNotContain("defect", "Exception");
    }
    // A batch of them ends with a line for each.
    List<Object> words = new ArrayList<>(List.of("analyze"));
    words.addAll(files);
    CommandRun.Answer batch = CommandRun.run(words.toArray());
    assertThat(batch.exit()).isEqualTo(6);
    assertThat(batch.out()).contains(files.size() + " not read");
  }

  /**
   * bhabas/sar_simulation 37c025c (MIT): d.c. side of a battery-fed motor; derived largest inrush
   * 41.93 A at 27.577 s.
   */
  @Test
  void anUnevenBenchRecordKeepsItsPeak() throws Exception {
    Path columns =
        columns(
            "speed = { name = \"Motor Optical Speed (rad/s)\" }",
            "i1 = { name = \"Current (A)\" }");
    Path csv = folder.resolve("bench.csv");
    Path file = open("bench-brushless-steps/Motor_SO_V5__TimeConstant_Test_2023-12-13_130935.csv");
    assertThat(CommandRun.run("convert", file, csv, "--columns", columns).exit()).isZero();
    double[] peak = {0, 0};
    int current = List.of(header(csv).split(",", -1)).indexOf("i1_A");
    for (double[] row : rows(csv)) {
      if (row[current] > peak[1]) {
        peak = new double[] {row[0], row[current]};
      }
    }
    assertThat(peak[1]).isCloseTo(41.93, within(PRINTED_TO_0_01));
    assertThat(peak[0]).isCloseTo(27.577, within(0.0005));
  }

  private static String header(Path csv) throws IOException {
    return Files.readAllLines(csv).stream()
        .filter(line -> !line.startsWith("#"))
        .findFirst()
        .orElseThrow();
  }
}
