package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.asset.Examples;
import rampwright.app.cli.ExitCode;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.PostgresServer;

/**
 * Imports as processes of their own: killed (SIGKILL) at random instants, several at once, on a
 * disk that fills up. A kill of the process says nothing of a loss of power; there the store's own
 * synchronous writes have to do.
 */
class LogbookProcessTest {
  private static final String ASSET = "BP-2";
  private static final int TRIALS = 200;
  private static final int KILLS_OF_FILE = 12;
  private static final int KILLS_OF_SERVER = 6;

  /** A machine with much else to do may take this long for one import. */
  private static final long PATIENCE_S = 300;

  @TempDir private Path folder;

  private static List<String> java(Object... words) {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx200m",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Launcher.class.getName()));
    Arrays.stream(words).map(Object::toString).forEach(command::add);
    return command;
  }

  private Process start(Map<String, String> environment, List<String> command) throws IOException {
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().remove("RAMPWRIGHT_LOGBOOK");
    builder.environment().putAll(environment);
    builder.redirectErrorStream(true).redirectOutput(folder.resolve("said.txt").toFile());
    return builder.start();
  }

  private String run(Map<String, String> environment, int exit, List<String> command)
      throws Exception {
    Process process = start(environment, command);
    assertThat(process.waitFor(PATIENCE_S, TimeUnit.SECONDS)).isTrue();
    String said = Files.readString(folder.resolve("said.txt"));
    assertThat(process.exitValue()).as(said).isEqualTo(exit);
    return said;
  }

  /** An asset folder with as many trials, each a start of its own. */
  private Path plant(int trials) throws IOException {
    Path asset = Files.createDirectories(folder.resolve("plant"));
    Files.writeString(asset.resolve("asset.toml"), Examples.ASSET);
    for (int k = 0; k < trials; k++) {
      String name =
          String.format(Locale.ROOT, "202601%02dT%02d%02d00Z", 1 + k / 50, k % 50 / 5, k % 5);
      trial(Files.createDirectories(asset.resolve("trials").resolve(name)), k);
    }
    return asset;
  }

  private static void trial(Path trial, int k) throws IOException {
    Random noise = new Random(k);
    StringBuilder text = new StringBuilder("time_s,i1_A,speed_rpm\n");
    for (int i = 0; i < 300; i++) {
      double t = i / 20.0;
      boolean flows = t >= 1;
      boolean up = t >= 9;
      double current = !flows ? 0 : up ? 130 : 480 + k % 7;
      double speed = !flows ? 0 : up ? 1485 : 1485 * (t - 1) / 8;
      text.append(
          String.format(
              Locale.ROOT,
              "%.3f,%.2f,%.1f%n",
              t,
              current * (1 + 0.002 * noise.nextGaussian()),
              speed));
    }
    Files.writeString(trial.resolve("trace.csv"), text);
  }

  /** What a store is asked in this test. */
  private record Store(String where, Map<String, String> environment) {
    long entries() throws Exception {
      try (Logbook book = open()) {
        assertThat(book.verify().damaged()).isEmpty();
        assertThat(book.starts(ASSET)).hasSize((int) book.size());
        return book.size();
      }
    }

    Logbook open() throws Exception {
      return Logbook.open(where, environment::get, Instant::now);
    }
  }

  /** One whole import, which tells how long there is to end one in. */
  private long wholeMs(Store store, Path plant) throws Exception {
    long from = System.nanoTime();
    run(store.environment(), ExitCode.DONE, imported(store, plant));
    return (System.nanoTime() - from) / 1_000_000;
  }

  private static List<String> imported(Store store, Path plant) {
    return java("logbook", "import", plant, "--logbook", store.where(), "--json");
  }

  /**
   * Ends imports at instants spread over the time one enters, so that a fast machine is hit within
   * as well as a slow one; a store that got full makes room for the next.
   */
  private void killAtRandom(Callable<Store> stores, Path plant, int kills) throws Exception {
    Random random = new Random(kills);
    int wholeMs = (int) Math.max(200, wholeMs(stores.call(), plant));
    Store store = stores.call();
    long before = 0;
    int killed = 0;
    int within = 0;
    for (int run = 0; killed < kills; run++) {
      assertThat(run).as("imports begun for %d kills", kills).isLessThan(10 * kills);
      Process process = start(store.environment(), imported(store, plant));
      boolean ended =
          process.waitFor(
              2 * wholeMs / 5 + random.nextInt(7 * wholeMs / 10), TimeUnit.MILLISECONDS);
      if (!ended) {
        process.destroyForcibly().waitFor();
        killed++;
      }
      long entries = store.entries();
      assertThat(entries).as("what was entered stays").isGreaterThanOrEqualTo(before);
      within += !ended && entries > 0 && entries < TRIALS ? 1 : 0;
      before = entries;
      if (entries == TRIALS && killed < kills) {
        store = stores.call();
        before = 0;
      }
    }
    assertThat(within).as("kills that left an import half done").isPositive();
    String said = run(store.environment(), ExitCode.DONE, imported(store, plant));
    assertThat(store.entries()).as(said).isEqualTo(TRIALS);
  }

  @Test
  void killedAtRandomInstantsAFileIsWholeAndTheImportGoesOn() throws Exception {
    AtomicInteger next = new AtomicInteger();
    killAtRandom(
        () -> new Store(folder.resolve("l" + next.getAndIncrement() + ".db").toString(), Map.of()),
        plant(TRIALS),
        KILLS_OF_FILE);
  }

  @Test
  void killedAtRandomInstantsASharedLogbookIsWhole() throws Exception {
    killAtRandom(
        () -> new Store(PostgresServer.database(), Map.of("PGUSER", "postgres")),
        plant(TRIALS),
        KILLS_OF_SERVER);
  }

  @Test
  void severalProgramsEnterTheSameStartsOnce() throws Exception {
    Path plant = plant(TRIALS);
    for (Store store :
        List.of(
            new Store(folder.resolve("l.db").toString(), Map.of()),
            new Store(PostgresServer.database(), Map.of("PGUSER", "postgres")))) {
      List<Process> programs = new ArrayList<>();
      for (int i = 0; i < 3; i++) {
        programs.add(
            start(
                store.environment(), java("logbook", "import", plant, "--logbook", store.where())));
      }
      for (Process program : programs) {
        assertThat(program.waitFor(PATIENCE_S, TimeUnit.SECONDS)).isTrue();
        assertThat(program.exitValue())
            .as(Files.readString(folder.resolve("said.txt")))
            .isEqualTo(ExitCode.DONE);
      }
      assertThat(store.entries()).isEqualTo(TRIALS);
    }
  }

  @Test
  void aPasswordFileLetsOneIn() throws Exception {
    String where = PostgresServer.database();
    String role = PostgresServer.roleWithPassword("fuer:uns\\allein");
    Path file = folder.resolve("pass");
    Files.writeString(file, "127.0.0.1:*:*:" + role + ":fuer\\:uns\\\\allein\n");
    file.toFile().setReadable(false, false);
    file.toFile().setReadable(true, true);
    file.toFile().setWritable(false, false);
    file.toFile().setWritable(true, true);
    Map<String, String> environment = Map.of("PGUSER", role, "PGPASSFILE", file.toString());
    run(environment, ExitCode.DONE, java("logbook", "verify", "--logbook", where));
    Files.writeString(file, "127.0.0.1:*:*:" + role + ":falsch\n");
    assertThat(run(environment, ExitCode.DATA, java("logbook", "verify", "--logbook", where)))
        .contains("does not let you in")
        .doesNotContain("falsch");
  }

  /** A small memory disk in a name space of its own, so that nothing else is touched. */
  @Test
  void aFullDiskLosesNothingAndIsSaid() throws Exception {
    Path plant = plant(TRIALS);
    Path disk = Files.createDirectory(folder.resolve("disk"));
    String mount = "mount -t tmpfs -o size=800k none " + disk;
    Process probe = new ProcessBuilder("unshare", "-rm", "sh", "-c", mount).start();
    assumeTrue(probe.waitFor() == 0, "no memory disk can be mounted on this machine");
    String book = disk.resolve("l.db").toString();
    String again = quoted(java("logbook", "import", plant, "--logbook", book, "--json"));
    String verify = quoted(java("logbook", "verify", "--logbook", book));
    String script =
        String.join(
            "\n",
            mount + " || exit 90",
            again,
            "echo FIRST $?",
            "rm -f " + disk + "/none",
            verify,
            "echo VERIFIED $?",
            "mount -o remount,size=50m " + disk + " || exit 91",
            again,
            "echo SECOND $?",
            verify,
            "echo VERIFIED $?");
    String said = run(Map.of(), 0, List.of("unshare", "-rm", "sh", "-c", script));
    assertThat(said).contains("the disk is full; this part was not entered").contains("FIRST 6");
    assertThat(said.split("VERIFIED 0", -1)).as(said).hasSize(3);
    assertThat(said).contains("SECOND 0").contains(TRIALS + " entries");
    assertThat(said).doesNotContain("Exception");
  }

  private static String quoted(List<String> command) {
    StringBuilder line = new StringBuilder();
    command.forEach(word -> line.append('\'').append(word).append("' "));
    return line.toString();
  }
}
