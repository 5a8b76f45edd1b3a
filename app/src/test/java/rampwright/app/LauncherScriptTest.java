package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The script that starts the program, with a stand-in for {@code java} that notes its words. */
class LauncherScriptTest {
  private static final Path SCRIPT = Path.of("bin", "rampwright").toAbsolutePath();
  private static final long PATIENCE_S = 60;

  @TempDir private Path folder;

  @BeforeEach
  void standIn() throws IOException {
    assumeTrue(Files.isExecutable(Path.of("/bin/sh")), "no shell");
    Path java = Files.createDirectories(folder.resolve("home/bin")).resolve("java");
    Files.writeString(
        java,
        """
        #!/bin/sh
        part=
        for word in "$@"; do
          case $word in
            -XX:DumpLoadedClassList=*) echo a/Class >"${word#*=}" ;;
            -XX:SharedArchiveFile=*) part=${word#*=} ;;
            -Xshare:dump) sleep 3 ; dump=yes ;;
          esac
        done
        if [ -n "${dump:-}" ]; then
          echo archive >"$part"
        fi
        echo "$*" >>"$SAID"
        """);
    Files.setPosixFilePermissions(java, PosixFilePermissions.fromString("rwxr-xr-x"));
    Files.writeString(folder.resolve("some.jar"), "jar");
  }

  private List<String> start(String... words) throws Exception {
    Files.deleteIfExists(folder.resolve("said"));
    List<String> command = new ArrayList<>(List.of("/bin/sh", SCRIPT.toString()));
    command.addAll(Arrays.asList(words));
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().put("JAVA_HOME", folder.resolve("home").toString());
    builder.environment().put("RAMPWRIGHT_JAR", folder.resolve("some.jar").toString());
    builder.environment().put("XDG_CACHE_HOME", folder.resolve("cache").toString());
    builder.environment().put("SAID", folder.resolve("said").toString());
    Process process = builder.inheritIO().start();
    assertThat(process.waitFor(PATIENCE_S, TimeUnit.SECONDS)).isTrue();
    assertThat(process.exitValue()).isZero();
    return Files.readAllLines(folder.resolve("said"));
  }

  private List<Path> kept() throws IOException {
    Path cache = folder.resolve("cache/rampwright");
    if (!Files.isDirectory(cache)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(cache)) {
      return files.filter(file -> file.toString().endsWith(".jsa")).toList();
    }
  }

  private boolean isLocked() throws IOException {
    try (Stream<Path> files = Files.list(folder.resolve("cache/rampwright"))) {
      return files.anyMatch(file -> file.toString().endsWith(".lock"));
    }
  }

  private void untilKept() throws Exception {
    for (int i = 0; i < 10 * PATIENCE_S && (kept().isEmpty() || isLocked()); i++) {
      TimeUnit.MILLISECONDS.sleep(100);
    }
    assertThat(kept()).hasSize(1);
    assertThat(isLocked()).isFalse();
  }

  private static String run(List<String> said, String command) {
    return said.stream().filter(line -> line.endsWith(command)).findFirst().orElseThrow();
  }

  @Test
  void theFirstRunDoesNotWaitForTheArchiveAndTheNextUsesIt() throws Exception {
    assertThat(run(start("advise", "pump"), "advise pump"))
        .doesNotContain("SharedArchiveFile")
        .contains("-XX:TieredStopAtLevel=1");
    assertThat(kept()).as("still being made").isEmpty();
    // a second one meanwhile does not make another
    assertThat(start("--version")).noneMatch(line -> line.contains("SharedClassListFile"));
    untilKept();
    assertThat(start("advise", "pump"))
        .singleElement()
        .asString()
        .contains("-XX:SharedArchiveFile=" + kept().get(0));
  }

  @Test
  void longWorkIsCompiledAndHasRoom() throws Exception {
    assertThat(run(start("trend", "--all"), "trend --all"))
        .contains("-Xmn64m")
        .doesNotContain("TieredStopAtLevel");
    Path large = folder.resolve("a b.csv");
    Files.write(large, new byte[17_000_000]);
    assertThat(run(start("analyze", large.toString()), "analyze " + large))
        .contains("-Xmn8m")
        .doesNotContain("TieredStopAtLevel");
    Files.write(large, new byte[17_000]);
    assertThat(run(start("analyze", "--json", large.toString()), "analyze --json " + large))
        .contains("-XX:TieredStopAtLevel=1");
    untilKept();
  }

  /** The script and the program by itself name the same commands, each in its own way. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "advise", "predict", "ready", "heat", "demo", "analyze", "compare", "chart", "report",
        "trend", "logbook", "convert", "record", "watch", "bench", "probe", "schema", "--help"
      })
  void shortWorkIsTheSameWithAndWithoutTheScript(String command) throws Exception {
    // no archive is made, which would be waited for
    Files.writeString(folder.resolve("cache"), "no folder");
    String single = "TieredStopAtLevel=1";
    boolean alone =
        Relaunch.words("java", List.of("-jar", "some.jar", command), command).stream()
            .anyMatch(words -> words.contains("-XX:" + single));
    assertThat(run(start(command), "some.jar " + command).contains(single)).isEqualTo(alone);
  }

  @Test
  void aLockLeftBehindIsBroken() throws Exception {
    start("--version");
    untilKept();
    Path archive = kept().get(0);
    Path lock = archive.resolveSibling(archive.getFileName().toString().replace("-2.jsa", ".lock"));
    Files.delete(archive);
    Files.createDirectory(lock);
    start("--version");
    assertThat(lock).isDirectory();
    Files.setLastModifiedTime(lock, FileTime.from(Instant.now().minus(Duration.ofMinutes(30))));
    start("--version");
    untilKept();
  }

  @Test
  void withoutAPlaceForTheArchiveItStartsAsEver() throws Exception {
    Files.writeString(folder.resolve("cache"), "no folder");
    assertThat(start("advise", "pump"))
        .singleElement()
        .asString()
        .doesNotContain("SharedArchiveFile")
        .endsWith("-jar " + folder.resolve("some.jar") + " advise pump");
  }
}
