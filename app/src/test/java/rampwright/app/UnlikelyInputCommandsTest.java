package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.fixture.Workshop;
import rampwright.app.json.ResultSchemaValidator;

/** Traces that cannot be what they are said to be: a message with its remedy, no defect. */
class UnlikelyInputCommandsTest {
  @TempDir private Path folder;

  /** A start of 10 s at 25 readings a second: 480 A, then 128 A, in the unit the scale makes. */
  private Path start(String header, double scale) throws IOException {
    StringBuilder text = new StringBuilder(header).append('\n');
    for (int i = 0; i < 500; i++) {
      double t = i / 25.0;
      double currentA = t < 2 ? 0 : t < 10 ? 480 : 128;
      text.append(String.format(Locale.ROOT, "%.2f,%.6f%n", t, scale * currentA));
    }
    return Files.writeString(folder.resolve("trace.csv"), text);
  }

  private void assertRefused(CommandRun.Answer answer, String... words) {
    assertThat(answer.exit()).isEqualTo(6);
    assertThat(answer.err()).contains(words).doesNotContain("defect", "Exception");
  }

  @Test
  void voltagesAloneAreRefusedByNameByEveryCommandThatNeedsACurrent() throws Exception {
    Path trace =
        Files.writeString(
            folder.resolve("volts.csv"), "time_s,v12_V,v23_V\n0,400,400\n0.1,399,400\n0.2,0,0\n");
    assertRefused(
        CommandRun.run("analyze", trace), "volts.csv", "no phase current", "v12 v23", "[columns]");
    CommandRun.Answer json = CommandRun.run("analyze", trace, "--json");
    assertRefused(json, "no phase current");
    assertThat(ResultSchemaValidator.problems(json.out())).isEmpty();
    assertRefused(
        CommandRun.run("chart", trace, "-o", folder.resolve("x.png")), "no phase current");
    assertThat(CommandRun.run("convert", trace, folder.resolve("volts.cff")).exit())
        .as("converting needs no current")
        .isZero();
  }

  @Test
  void readingsCannotBeDeclaredAWaveform() throws Exception {
    Path trace = start("time_s,i1_A", 1);
    assertRefused(
        CommandRun.run("analyze", trace, "--kind", "waveform"),
        "cannot be a waveform: 25 values a second, a waveform of 50 Hz needs 400 at least",
        "leave out --kind waveform");
    assertThat(CommandRun.run("analyze", trace, "--kind", "rms").exit()).isZero();
  }

  @Test
  void aWaveformCannotBeDeclaredReadings() throws Exception {
    StringBuilder text = new StringBuilder("time_s,i1_A\n");
    for (int i = 0; i < 2000; i++) {
      text.append(String.format(Locale.ROOT, "%.4f,%.4f%n", i / 1e3, 100 * Math.sin(0.31 * i)));
    }
    Path trace = Files.writeString(folder.resolve("wave.csv"), text);
    assertRefused(
        CommandRun.run("analyze", trace, "--kind", "rms"),
        "i1 cannot be RMS readings: it goes down to -100 A");
    assertThat(CommandRun.run("analyze", trace).out()).contains("waveform");
  }

  @Test
  void aCurrentAThousandTimesOffAsksForItsUnit() throws Exception {
    Path pump = new Workshop(folder).asset("pump");
    String tooLarge = analysed(start("time_s,i1_A", 1000), pump);
    assertThat(tooLarge)
        .contains("mind: the largest current, 480000 A RMS, is 3000 times the rated 160 A")
        .contains("is the column in mA and was taken for A?", "unit = \"mA\"");
    assertThat(analysed(start("time_s,i1_A", 0.001), pump))
        .contains("the largest current is 0.48 A, the rated one 160 A", "unit = \"kA\"");
    assertThat(analysed(start("time_s,i1_kA", 0.001), pump)).doesNotContain("is the column in");
    assertThat(analysed(start("time_s,i1_A", 1), pump)).doesNotContain("is the column in");
  }

  @Test
  void aVoltageOffByTheRootOfThreeAsksWhatItsColumnsHold() throws Exception {
    Path pump = new Workshop(folder).asset("pump");
    assertThat(analysed(withVoltage("v1_V,v2_V,v3_V", 400), pump))
        .contains("mind: the voltage before the start, 692.8 V, is 1.732 times the supply 400 V")
        .contains("do the columns of v1 v2 v3 hold line-to-line values?");
    assertThat(analysed(withVoltage("v12_V,v23_V,v31_V", 231), pump))
        .contains("do the columns of v12 v23 v31 hold line-to-neutral values?");
    assertThat(analysed(withVoltage("v12_V,v23_V,v31_V", 400), pump))
        .doesNotContain("do the columns");
    assertThat(analysed(withVoltage("v1_V,v2_V,v3_V", 231), pump)).doesNotContain("do the columns");
  }

  private Path withVoltage(String names, double volts) throws Exception {
    List<String> rows = Files.readAllLines(start("time_s,i1_A", 1));
    StringBuilder text = new StringBuilder("time_s,i1_A," + names + "\n");
    for (String row : rows.subList(1, rows.size())) {
      text.append(row).append(("," + volts).repeat(3)).append('\n');
    }
    return Files.writeString(folder.resolve("volts-" + names.charAt(1) + volts + ".csv"), text);
  }

  private static String analysed(Path trace, Path asset) {
    CommandRun.Answer answer = CommandRun.run("analyze", trace, "--asset", asset);
    assertThat(answer.err()).isEmpty();
    // Lines are broken at the screen's edge.
    return answer.out().replaceAll("\\s+", " ");
  }
}
