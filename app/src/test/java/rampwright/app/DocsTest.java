package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringWriter;
import java.lang.reflect.Field;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.acquisition.toml.NumberKey;
import rampwright.app.asset.Load;
import rampwright.app.asset.Motor;
import rampwright.app.asset.Pipe;
import rampwright.app.asset.Starter;
import rampwright.app.asset.Supply;
import rampwright.app.asset.TrialSettings;
import rampwright.app.cli.Screen;
import rampwright.app.cli.Services;
import rampwright.app.cli.Terminal;
import rampwright.app.fixture.ToyAnalyzer;
import rampwright.app.fixture.ToyDoor;

/** The documents say what the program does. */
class DocsTest {
  private static final Path DOCS = Path.of("docs");

  private static String help(String... words) {
    StringWriter out = new StringWriter();
    Services services =
        new Services(
            new ToyDoor(),
            new ToyAnalyzer(),
            request -> {},
            (advised, target, size) -> {},
            (result, target, size) -> {},
            (readiness, target, size) -> {},
            into -> 0,
            "1",
            1,
            () -> Instant.EPOCH,
            name -> null);
    new Terminal(new Screen(out, out, false), services).run(words);
    return out.toString();
  }

  @ParameterizedTest
  @ValueSource(
      classes = {
        Motor.class,
        Starter.class,
        Load.class,
        Supply.class,
        Pipe.class,
        TrialSettings.class
      })
  void everyNumberIsDocumentedWithItsRange(Class<?> section) throws Exception {
    List<String> lines = Files.readAllLines(DOCS.resolve("files.md"));
    int keys = 0;
    for (Field field : section.getFields()) {
      if (field.getType() == NumberKey.class) {
        NumberKey key = (NumberKey) field.get(null);
        assertThat(lines)
            .anyMatch(line -> line.startsWith("| `" + key.name() + "` | " + key.range() + " |"));
        keys++;
      }
    }
    assertThat(keys).isPositive();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "demo",
        "analyze",
        "compare",
        "convert",
        "chart",
        "heat",
        "ready",
        "report",
        "probe",
        "record",
        "watch",
        "bench",
        "logbook",
        "trend",
        "schema",
        "completion"
      })
  void everyCommandAndOptionIsDocumented(String command) throws Exception {
    String text = Files.readString(DOCS.resolve("commands.md"));
    assertThat(text).contains("| `" + command);
    Matcher options = Pattern.compile("--[a-z-]+").matcher(help(command, "--help"));
    while (options.find()) {
      assertThat(text).contains(options.group());
    }
  }

  @ParameterizedTest
  @CsvSource({
    "rampwright.acquisition.map.MapKeys, maps.md",
    "rampwright.app.usecase.WatchFiles, watch.md"
  })
  void everyNumberOfMapsAndWatchFilesIsDocumented(String keys, String document) throws Exception {
    String text = Files.readString(Path.of("..", "acquisition", "docs", document));
    int found = 0;
    for (Field field : Class.forName(keys).getFields()) {
      if (field.getType() == NumberKey.class) {
        String name = ((NumberKey) field.get(null)).name();
        assertThat(text).containsPattern("(?m)(`" + name + "`|^ *" + name + " =)");
        found++;
      }
    }
    assertThat(found).isGreaterThan(5);
  }

  @Test
  void noCommandIsDocumentedThatIsNotThere() throws Exception {
    String text = Files.readString(DOCS.resolve("commands.md"));
    String commands = help("--help");
    Matcher rows =
        Pattern.compile("^\\| `([a-z]+)[ `]", Pattern.MULTILINE)
            .matcher(text.substring(0, text.indexOf("## Exit codes")));
    int found = 0;
    while (rows.find()) {
      assertThat(commands).contains("\n  " + rows.group(1) + " ");
      found++;
    }
    assertThat(found).isEqualTo(18);
  }
}
