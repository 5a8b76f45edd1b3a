package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The program as a process of its own: exit code, streams, and what it loads. */
class LauncherTest {
  @TempDir private Path folder;
  private String out = "";
  private String err = "";

  private int run(List<String> javaOptions, String... words)
      throws IOException, InterruptedException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(javaOptions);
    command.addAll(
        List.of("-cp", System.getProperty("java.class.path"), "rampwright.app.Launcher"));
    command.addAll(List.of(words));
    Path results = folder.resolve("out");
    Path talk = folder.resolve("err");
    Process process =
        new ProcessBuilder(command)
            .redirectOutput(results.toFile())
            .redirectError(talk.toFile())
            .start();
    assertThat(process.waitFor(60, TimeUnit.SECONDS)).as("it ends").isTrue();
    out = Files.readString(results, StandardCharsets.UTF_8);
    err = Files.readString(talk, StandardCharsets.UTF_8);
    return process.exitValue();
  }

  @Test
  void theExitCodeLeavesTheProcessAndTalkIsUtf8() throws Exception {
    int exit =
        run(List.of("-Dfile.encoding=US-ASCII"), "analyze", folder.resolve("Förderer.csv") + "");
    assertThat(exit).isEqualTo(6);
    assertThat(out).isEmpty();
    assertThat(err).contains("there is no such file or folder");
  }

  @Test
  void helpLoadsNoneOfTheHeavyLibraries() throws Exception {
    assertThat(run(List.of("-Xlog:class+load:file=" + folder.resolve("loaded")), "--help"))
        .isZero();
    assertThat(out).contains("Commands:");
    String loaded =
        Files.readAllLines(folder.resolve("loaded")).stream()
            .filter(
                Pattern.compile(
                        " (tech\\.tablesaw|org\\.knowm|org\\.tomlj|org\\.antlr|com\\.fasterxml"
                            + "|de\\.siegmar|java\\.awt|org\\.slf4j|com\\.ghgande)\\.")
                    .asPredicate())
            .collect(Collectors.joining("\n"));
    assertThat(loaded).isEmpty();
  }

  @Test
  void aSingleTraceLoadsNeitherTablesNorWindows() throws Exception {
    Path trace = Files.writeString(folder.resolve("x.csv"), "time_s,i1_A\n0,1\n1,1\n");
    run(
        List.of("-Xlog:class+load:file=" + folder.resolve("loaded")),
        "analyze",
        trace.toString(),
        "--json");
    String loaded =
        Files.readAllLines(folder.resolve("loaded")).stream()
            .filter(
                Pattern.compile(" (tech\\.tablesaw|org\\.knowm|java\\.awt|org\\.antlr)\\.")
                    .asPredicate())
            .collect(Collectors.joining("\n"));
    assertThat(loaded).isEmpty();
  }
}
