package rampwright.app.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.app.CommandRun;

/** What people read fits a screen of 100 columns; only a path may be longer. */
class ScreenWidthTest {
  private static final String SAMPLES = "../sample-traces";

  @ParameterizedTest
  @ValueSource(
      strings = {
        "analyze ../sample-traces --no-keep",
        "analyze ../sample-traces --no-keep --details --how",
        "compare ../sample-traces",
        "compare ../sample-traces/drying-fan/trials/20260316T071500Z/trace.csv"
            + " ../sample-traces/drying-fan/trials/20260317T071000Z/trace.csv",
        "advise ../sample-traces/brine-pump",
        "--help",
        "analyze --help",
        "compare --help",
        "convert --help",
        "chart --help",
        "advise --help",
        "predict --help",
        "demo --help"
      })
  void linesFit(String command) {
    assumeTrue(Files.isDirectory(Path.of(SAMPLES)), "sample-traces is not beside the modules");
    CommandRun.Answer answer = CommandRun.run((Object[]) command.split(" ", -1));
    assertThat(answer.out()).isNotEmpty();
    assertThat(answer.out().lines().filter(line -> !line.contains(SAMPLES)))
        .allSatisfy(
            line -> assertThat(line.codePointCount(0, line.length())).isLessThanOrEqualTo(100));
  }

  @Test
  void columnsComeFromTheEnvironmentElseTheUsualOnes() {
    assertThat(Screen.columns("72", true)).isEqualTo(72);
    assertThat(Screen.columns(" 120 ", false)).isEqualTo(120);
    assertThat(Screen.columns("wide", true)).isEqualTo(Screen.USUAL_WIDTH);
    assertThat(Screen.columns(null, false)).isEqualTo(Screen.USUAL_WIDTH);
  }

  /** Talk is broken between words for a person; what a script reads stays one line. */
  @Test
  void talkIsBrokenBetweenWordsWhereAPersonWatches() {
    String text = "mind: " + "settings are not known ".repeat(6).strip();
    StringWriter watched = new StringWriter();
    new Screen(new StringWriter(), watched, true, 60).say(text);
    assertThat(watched.toString().lines()).allMatch(line -> line.length() <= 60).hasSize(3);
    assertThat(watched.toString().replaceAll("\\s+", " ").strip()).isEqualTo(text);
    StringWriter indented = new StringWriter();
    new Screen(new StringWriter(), indented, true, 60).say("  - " + text);
    assertThat(indented.toString()).startsWith("  - mind: ").contains("\n      ");
    StringWriter script = new StringWriter();
    new Screen(new StringWriter(), script, false, 60).say(text);
    assertThat(script.toString()).isEqualTo(text + "\n");
  }
}
