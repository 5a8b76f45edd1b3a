package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.io.OutputStream;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.jar.Attributes;
import java.util.jar.JarOutputStream;
import java.util.jar.Manifest;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** When and how a command is run in a Java machine of its own. */
class RelaunchTest {
  private static final String JAVA =
      Path.of(System.getProperty("java.home"), "bin", "java").toString();

  @TempDir private Path folder;

  private static Optional<List<String>> words(String... args) {
    List<String> given = new ArrayList<>(List.of("-jar", "some.jar"));
    given.addAll(Arrays.asList(args));
    return Relaunch.words("java", given, args);
  }

  @Test
  void shortWorkIsNotCompiledThoroughly() {
    assertThat(words("advise", "plant", "--json"))
        .hasValueSatisfying(
            all ->
                assertThat(all)
                    .contains("-XX:TieredStopAtLevel=1")
                    .endsWith("-jar", "some.jar", "advise", "plant", "--json")
                    .startsWith("java"));
    assertThat(words("trend", "--all"))
        .hasValueSatisfying(all -> assertThat(all).doesNotContain("-XX:TieredStopAtLevel=1"));
    assertThat(words("watch", "plant.toml")).isEmpty();
    assertThat(words("--help")).isEmpty();
  }

  @Test
  void wordsForTheMachineAreLeftAlone() {
    String[] args = {"advise", "plant"};
    assertThat(Relaunch.words("java", List.of("-Xmx1g", "-jar", "a.jar", "advise", "plant"), args))
        .isEmpty();
    assertThat(Relaunch.words("java", List.of("-cp", "a.jar", "Main", "advise", "plant"), args))
        .isEmpty();
    assertThat(Relaunch.words("java", List.of(), args)).as("not told").isEmpty();
  }

  /** Long work pays for thorough compiling: what is to be read tells how long. */
  @Test
  void largeFilesStayWhereTheyAre() throws IOException {
    Path plant = Files.createDirectories(folder.resolve("plant/trials"));
    assertThat(words("analyze", plant.getParent() + "")).isPresent();
    try (RandomAccessFile large = new RandomAccessFile(plant.resolve("a.csv").toFile(), "rw")) {
      large.setLength(17_000_000);
    }
    assertThat(words("analyze", plant.getParent() + "")).isEmpty();
    assertThat(words("advise", plant.getParent() + ""))
        .as("simulates most of its time")
        .isPresent();
    try (RandomAccessFile packed = new RandomAccessFile(plant.resolve("a.csv").toFile(), "rw")) {
      packed.setLength(3_000_000);
    }
    assertThat(words("analyze", plant.getParent() + "")).isPresent();
    Files.move(plant.resolve("a.csv"), plant.resolve("a.csv.gz"));
    assertThat(words("analyze", plant.getParent() + "")).as("eight times that").isEmpty();
  }

  /** Ten links that lead back, ten deep, would be ten thousand million folders. */
  @Test
  @Timeout(20)
  void linksThatLeadBackAreNotFollowed() throws IOException {
    Path plant = Files.createDirectories(folder.resolve("plant"));
    for (int i = 0; i < 10; i++) {
      try {
        Files.createSymbolicLink(plant.resolve("back" + i), plant);
      } catch (UnsupportedOperationException noLinks) {
        assumeTrue(false, "no links here");
      }
    }
    assertThat(words("analyze", plant + "")).isPresent();
  }

  private Process start(String... args) throws IOException {
    Manifest manifest = new Manifest();
    Attributes main = manifest.getMainAttributes();
    main.put(Attributes.Name.MANIFEST_VERSION, "1.0");
    main.put(Attributes.Name.MAIN_CLASS, "rampwright.app.Launcher");
    main.put(
        Attributes.Name.CLASS_PATH,
        Arrays.stream(System.getProperty("java.class.path").split(File.pathSeparator))
            .map(part -> Path.of(part).toUri().toString())
            .collect(Collectors.joining(" ")));
    Path jar = folder.resolve("thin.jar");
    try (OutputStream out = Files.newOutputStream(jar)) {
      new JarOutputStream(out, manifest).close();
    }
    List<String> command = new ArrayList<>(List.of(JAVA, "-jar", jar.toString()));
    command.addAll(Arrays.asList(args));
    ProcessBuilder builder = new ProcessBuilder(command);
    builder
        .environment()
        .keySet()
        .removeAll(List.of("JDK_JAVA_OPTIONS", "JAVA_TOOL_OPTIONS", "_JAVA_OPTIONS"));
    return builder.redirectErrorStream(true).start();
  }

  @BeforeEach
  void needsToBeTold() {
    assumeTrue(
        ProcessHandle.current().info().arguments().isPresent(),
        "this system does not tell a program its own words");
  }

  @Test
  void answerAndExitCodeComeFromTheOtherMachine() throws Exception {
    Process process = start("heat", folder.resolve("nowhere").toString());
    List<String> machines = new ArrayList<>();
    while (process.isAlive()) {
      process
          .descendants()
          .map(child -> String.join(" ", child.info().arguments().orElse(new String[0])))
          .forEach(machines::add);
      Thread.sleep(2);
    }
    String said = new String(process.getInputStream().readAllBytes(), "UTF-8");
    assertThat(process.exitValue()).as(said).isEqualTo(2);
    assertThat(said).contains("nowhere");
    assertThat(machines).anyMatch(words -> words.startsWith("-XX:TieredStopAtLevel=1"));
  }

  /** Killed kindly, it takes the other with it: nothing goes on unseen. */
  @Test
  void whoEndsTheOneEndsTheOther() throws Exception {
    Path samples = Path.of("..", "sample-traces", "brine-pump");
    assumeTrue(Files.isDirectory(samples), "sample-traces is not beside the modules");
    Process process = start("advise", samples.toAbsolutePath().toString());
    List<ProcessHandle> others = List.of();
    while (process.isAlive() && others.isEmpty()) {
      others = process.descendants().toList();
      Thread.sleep(2);
    }
    assertThat(others).isNotEmpty();
    process.destroy();
    assertThat(process.waitFor(20, TimeUnit.SECONDS)).isTrue();
    for (ProcessHandle other : others) {
      other.onExit().get(20, TimeUnit.SECONDS);
    }
  }
}
