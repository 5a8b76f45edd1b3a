package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.app.json.ResultSchemaValidator;

/**
 * CSV to COMTRADE and back: values within what each form of IEEE C37.111 can hold, times and
 * missing values kept.
 */
class ConvertRoundTripTest {
  /** A current with 25 dB between start and run, a line voltage and a run command. */
  private static final int ROWS = 600;

  /**
   * IEEE C37.111-1999, 8.4 (from memory): ASCII values are of at most six digits, 5 % over full
   * scale.
   */
  private static final double ASCII_STEPS = 99_998;

  /** 16 and 32 bits with their sign; the lowest value marks a missing one. */
  private static final double BINARY_STEPS = 65_534;

  private static final double BINARY32_STEPS = 4_294_967_294.0;

  /** A 32-bit float has 24 bits of fraction: half a unit in the last place. */
  private static final double FLOAT32_SHARE = Math.pow(2, -24);

  @TempDir private Path folder;

  private Path original() throws IOException {
    StringBuilder text = new StringBuilder("time_s,i1_A,v12_V,run\n");
    for (int i = 0; i < ROWS; i++) {
      double t = i * 0.001;
      double currentA = (i < 300 ? 412.3457 : 21.0981) * Math.sin(2 * Math.PI * 50 * t + 0.3);
      double voltageV = 565.685 * Math.cos(2 * Math.PI * 50 * t);
      String cell = i == 77 ? "" : String.format(Locale.ROOT, "%.6f", currentA);
      text.append(
          String.format(Locale.ROOT, "%.3f,%s,%.5f,%d%n", t, cell, voltageV, i < 400 ? 1 : 0));
    }
    return Files.writeString(folder.resolve("original.csv"), text);
  }

  private static List<double[]> rows(Path csv) throws IOException {
    List<double[]> rows = new ArrayList<>();
    for (String line : Files.readAllLines(csv)) {
      if (line.startsWith("#") || line.startsWith("time_s")) {
        continue;
      }
      String[] cells = line.split(",", -1);
      double[] row = new double[cells.length];
      for (int i = 0; i < row.length; i++) {
        row[i] = cells[i].isEmpty() ? Double.NaN : Double.parseDouble(cells[i]);
      }
      rows.add(row);
    }
    return rows;
  }

  @ParameterizedTest
  @CsvSource({
    "k.cfg, comtrade-ascii, 1991",
    "l.cfg, comtrade-binary, 1991",
    "a.cfg, comtrade-ascii, 1999",
    "b.cfg, comtrade-binary, 1999",
    "c.cfg, comtrade-ascii, 2013",
    "d.cfg, comtrade-binary, 2013",
    "e.cfg, comtrade-binary32, 2013",
    "f.cfg, comtrade-float32, 2013",
    "g.cff, comtrade-ascii, 2013",
    "h.cff, comtrade-binary, 2013",
    "i.cff, comtrade-binary32, 2013",
    "j.cff, comtrade-float32, 2013"
  })
  void valuesComeBackWithinTheFormsResolution(String name, String format, String edition)
      throws Exception {
    Path csv = original();
    Path record = folder.resolve(name);
    CommandRun.Answer there =
        CommandRun.run("convert", csv, record, "--format", format, "--edition", edition, "--json");
    assertThat(there.exit()).as(there.err()).isZero();
    assertThat(ResultSchemaValidator.problems(there.out())).isEmpty();
    assertThat(there.json().path("files")).hasSize(name.endsWith(".cfg") ? 2 : 1);
    there.json().path("files").forEach(file -> assertThat(Path.of(file.asText())).exists());
    Path again = folder.resolve("again.csv");
    CommandRun.Answer back = CommandRun.run("convert", record, again);
    assertThat(back.exit()).as(back.err()).isZero();

    assertThat(Files.readAllLines(again).stream().filter(l -> l.startsWith("time_s")).toList())
        .containsExactly("time_s,i1_A,v12_V,run");
    List<double[]> before = rows(csv);
    List<double[]> after = rows(again);
    assertThat(after).hasSameSizeAs(before);
    for (int i = 0; i < before.size(); i++) {
      double[] a = before.get(i);
      double[] b = after.get(i);
      // Stamps are whole microseconds or nanoseconds, or follow the rate.
      assertThat(b[0] - after.get(0)[0]).isCloseTo(a[0], offset(1e-6));
      assertThat(Double.isNaN(b[1])).as("row %d", i).isEqualTo(Double.isNaN(a[1]));
      if (!Double.isNaN(a[1])) {
        assertThat(b[1]).isCloseTo(a[1], offset(tolerance(format, a[1], 412.3457)));
      }
      assertThat(b[2]).isCloseTo(a[2], offset(tolerance(format, a[2], 565.685)));
      assertThat(b[3]).isEqualTo(a[3]);
    }
  }

  /** Half a step of the range from -peak to peak, and what the printing of CSV adds. */
  private static double tolerance(String format, double value, double peak) {
    double printed = 1e-9 * peak;
    return printed
        + switch (format) {
          case "comtrade-ascii" -> 2 * peak / ASCII_STEPS;
          case "comtrade-binary" -> 2 * peak / BINARY_STEPS;
          case "comtrade-binary32" -> 2 * peak / BINARY32_STEPS;
          default -> FLOAT32_SHARE * Math.abs(value);
        };
  }

  private static org.assertj.core.data.Offset<Double> offset(double by) {
    return org.assertj.core.data.Offset.offset(by);
  }

  @Test
  void figuresOfARecordAreThoseOfItsCsv() throws Exception {
    Path sample = Path.of("../sample-traces/brine-pump/trials/20260310T090500Z/trace.csv.gz");
    org.junit.jupiter.api.Assumptions.assumeTrue(Files.exists(sample), "samples are not here");
    Path record = folder.resolve("wave.cff");
    assertThat(CommandRun.run("convert", sample, record).exit()).isZero();
    var a = CommandRun.run("analyze", sample, "--json").json().path("starts").get(0);
    Path asset = sample.resolve("../../../asset.toml").normalize();
    var b =
        CommandRun.run(
                "analyze",
                record,
                "--asset",
                asset,
                "--settings",
                sample.resolveSibling("settings.toml"),
                "--json")
            .json()
            .path("starts")
            .get(0);
    for (String key : List.of("peak_current_A", "i2t_A2s", "voltage_dip_pct", "run_current_A")) {
      double value = a.path("figures").path(key).path("value").asDouble();
      assertThat(b.path("figures").path(key).path("value").asDouble())
          .as(key)
          .isCloseTo(value, offset(1e-4 * Math.abs(value)));
    }
  }

  @Test
  void formsThatAnEditionDoesNotHaveAreRefused() throws Exception {
    Path csv = original();
    CommandRun.Answer wide =
        CommandRun.run("convert", csv, folder.resolve("x.cfg"), "--edition", "1999");
    assertThat(wide.exit()).isEqualTo(2);
    assertThat(wide.err()).contains("comtrade-float32 came with the edition of 2013");
    CommandRun.Answer single =
        CommandRun.run(
            "convert",
            csv,
            folder.resolve("x.cff"),
            "--edition",
            "1999",
            "--format",
            "comtrade-ascii");
    assertThat(single.exit()).isEqualTo(2);
    assertThat(single.err()).contains("a single file (.cff) came with the edition of 2013");
    assertThat(CommandRun.run("convert", csv, folder.resolve("x.csv"), "--edition", "2013").exit())
        .isEqualTo(2);
    CommandRun.Answer old =
        CommandRun.run("convert", csv, folder.resolve("x.cfg"), "--edition", "1995");
    assertThat(old.exit()).isEqualTo(2);
    assertThat(old.err())
        .contains("'1995' is not an edition of COMTRADE; write 1991, 1999 or 2013");
    try (var files = Files.list(folder)) {
      assertThat(files).as("nothing is left behind").containsExactly(csv);
    }
  }
}
