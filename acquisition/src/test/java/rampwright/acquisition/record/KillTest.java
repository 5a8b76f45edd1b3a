package rampwright.acquisition.record;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.acquisition.file.ReadOptions;
import rampwright.acquisition.file.TraceFiles;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;

/**
 * A recording process is killed (SIGKILL) at random instants; what it had handed over more than 250
 * ms before must be in valid trials. A few instants here; {@link #main} for many. A kill of the
 * process says nothing of a loss of power, which forced writes are for.
 */
class KillTest {
  /** What may be lost. */
  private static final long MOST_LOST_NS = TimeUnit.MILLISECONDS.toNanos(250);

  private static final int INSTANTS = 3;

  @TempDir private Path folder;
  private long worstLostNs;

  @Test
  void whateverTheInstantOnlyTheLastQuarterOfASecondIsLost() throws Exception {
    killAtRandom(folder, INSTANTS, 20260314);
  }

  private void killAtRandom(Path into, int instants, long seed) throws Exception {
    Random random = new Random(seed);
    for (int i = 0; i < instants; i++) {
      kill(into.resolve("k" + i), 50 + random.nextInt(3200));
    }
  }

  /** Many instants: folder, how many, seed. */
  public static void main(String[] args) throws Exception {
    KillTest test = new KillTest();
    test.killAtRandom(Path.of(args[0]), Integer.parseInt(args[1]), Long.parseLong(args[2]));
    System.out.printf(
        Locale.ROOT, "%s kills, lost at most %.0f ms%n", args[1], test.worstLostNs * 1e-6);
  }

  private void kill(Path trials, int afterMs) throws Exception {
    Files.createDirectories(trials);
    Process rig =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx128m",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("java.class.path"),
                KillRig.class.getName(),
                trials.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    List<String> said = new ArrayList<>();
    try (BufferedReader out =
        new BufferedReader(
            new InputStreamReader(rig.getInputStream(), StandardCharsets.US_ASCII))) {
      assertThat(out.readLine()).isEqualTo("ready");
      Thread killer =
          new Thread(
              () -> {
                try {
                  TimeUnit.MILLISECONDS.sleep(afterMs);
                } catch (InterruptedException e) {
                  throw new AssertionError(e);
                }
                // By its handle: the process object would close what it said last.
                rig.toHandle().destroyForcibly();
              });
      killer.start();
      for (String line = out.readLine(); line != null; line = out.readLine()) {
        said.add(line);
      }
      killer.join();
    }
    rig.waitFor();
    List<String> done = Recovery.run(trials, true).said();
    check(trials, said, "killed after " + afterMs + " ms; " + done);
  }

  private void check(Path trials, List<String> said, String how) throws Exception {
    Set<Integer> had = new HashSet<>();
    try (Stream<Path> entries = Files.list(trials)) {
      for (Path trial : entries.toList()) {
        assertThat(trial.getFileName().toString()).as(how).doesNotStartWith(".armed");
        assertThat(trial.resolve("readings.journal")).as(how).doesNotExist();
        Trace trace = TraceFiles.read(trial.resolve("trace.csv"), ReadOptions.DEFAULT);
        Samples numbers = trace.channel(ChannelName.POWER);
        assertThat(numbers).as(how).isNotNull();
        for (int i = 0; numbers != null && i < trace.size(); i++) {
          had.add((int) numbers.at(i));
          assertThat(i == 0 || numbers.at(i) == numbers.at(i - 1) + 1).as("%s: hole", how).isTrue();
        }
      }
    }
    List<long[]> open = new ArrayList<>();
    long lastNs = Long.MIN_VALUE;
    boolean begun = false;
    for (String line : said) {
      String[] words = line.split(" ");
      switch (words[0]) {
        case "armed" -> {
          open.clear();
          begun = false;
        }
        case "begun" -> begun = true;
        case "r" -> {
          // The last line may be cut by the kill.
          if (words.length == 3 && words[2].length() == lengthOf(open)) {
            lastNs = Long.parseLong(words[2]);
            open.add(new long[] {Long.parseLong(words[1]), lastNs});
          }
        }
        default -> {
          // A trial that was finished has everything.
          assertThat(open).as(how).isNotEmpty();
          assertThat(had).as(how).contains((int) open.get(open.size() - 1)[0]);
          mustHave(had, open, lastNs, how);
          open.clear();
        }
      }
    }
    if (!begun) {
      long from = lastNs - Math.round(KillRig.PRE_S * 1e9);
      open.removeIf(reading -> reading[1] < from);
    }
    mustHave(had, open, lastNs, how);
  }

  private static int lengthOf(List<long[]> open) {
    return open.isEmpty()
        ? Long.toString(System.nanoTime()).length()
        : Long.toString(open.get(0)[1]).length();
  }

  private void mustHave(Set<Integer> had, List<long[]> readings, long lastNs, String how) {
    for (long[] reading : readings) {
      boolean there = had.contains((int) reading[0]);
      if (reading[1] <= lastNs - MOST_LOST_NS) {
        // Readings before the buffer's reach are not part of a trial.
        boolean reach =
            readings.stream().anyMatch(r -> r[0] < reading[0] && had.contains((int) r[0]));
        assertThat(there || !reach)
            .as(
                "%s: reading %d, %d ms before the end",
                how, reading[0], (lastNs - reading[1]) / 1_000_000)
            .isTrue();
      }
    }
    for (int i = readings.size() - 1; i >= 0 && !had.contains((int) readings.get(i)[0]); i--) {
      worstLostNs = Math.max(worstLostNs, lastNs - readings.get(i)[1]);
    }
    long old = readings.stream().filter(r -> r[1] <= lastNs - MOST_LOST_NS).count();
    boolean any = readings.stream().anyMatch(r -> had.contains((int) r[0]));
    assertThat(any || old == 0).as("%s: nothing recovered of %d readings", how, old).isTrue();
  }
}
