package rampwright.exam.sample;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tomlj.Toml;
import org.tomlj.TomlParseResult;

class SampleTracesTest {
  /**
   * The shipped files at RMS level are what the generator makes. Two lines in a hundred of a trace
   * or truth file may differ: sines and powers may differ in the last bit from one machine to
   * another, and that may tip a rounding.
   */
  @Test
  void theShippedFilesAreThoseOfTheGenerator(@TempDir Path made) throws Exception {
    Path shipped = shipped();
    assumeTrue(Files.isDirectory(shipped), "sample-traces is not beside the modules");
    SampleTraces.write(made, false);
    for (Path file : files(made)) {
      Path other = shipped.resolve(made.relativize(file).toString());
      if (file.toString().endsWith(".toml")) {
        assertThat(other).as(other.toString()).exists().hasSameTextualContentAs(file);
      } else {
        List<String> ours = Files.readAllLines(file);
        List<String> theirs = Files.readAllLines(other);
        assertThat(theirs).as(other.toString()).hasSameSizeAs(ours);
        int same = 0;
        for (int n = 0; n < ours.size(); n++) {
          same += ours.get(n).equals(theirs.get(n)) ? 1 : 0;
        }
        assertThat(same).as(other.toString()).isGreaterThanOrEqualTo(ours.size() * 98 / 100);
      }
    }
  }

  @Test
  void everySampleIsMarkedAsInvented() throws Exception {
    Path shipped = shipped();
    assumeTrue(Files.isDirectory(shipped), "sample-traces is not beside the modules");
    List<Path> traces =
        files(shipped).stream().filter(f -> f.toString().endsWith("trace.csv")).toList();
    assertThat(traces).hasSizeGreaterThanOrEqualTo(12);
    for (Path trace : traces) {
      assertThat(Files.readAllLines(trace).get(0)).startsWith("# invented, computed by");
    }
  }

  @Test
  void assetAndSettingsFilesAreSoundToml(@TempDir Path made) throws Exception {
    SampleTraces.write(made, false);
    for (Path file : files(made)) {
      if (file.toString().endsWith(".toml")) {
        TomlParseResult parsed = Toml.parse(file);
        assertThat(parsed.errors()).as(file.toString()).isEmpty();
        if (file.endsWith("settings.toml")) {
          assertThat(parsed.getOffsetDateTime("trial.at")).isNotNull();
        } else {
          assertThat(parsed.getDouble("motor.winding_resistance_ohm")).isBetween(0.001, 2.0);
          assertThat(parsed.getArray("envelope.corridor")).isNotNull();
        }
      }
    }
  }

  private static Path shipped() {
    return Path.of("..", "sample-traces");
  }

  private static List<Path> files(Path folder) throws Exception {
    try (Stream<Path> walk = Files.walk(folder)) {
      return walk.filter(Files::isRegularFile).sorted().toList();
    }
  }
}
