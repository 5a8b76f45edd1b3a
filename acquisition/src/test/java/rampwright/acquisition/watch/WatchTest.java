package rampwright.acquisition.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.acquisition.device.Await;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.device.LinePort;
import rampwright.acquisition.device.Links;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.device.RegisterPort;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.analysis.trace.Trace;

/**
 * Watching: start after start, a device that comes and goes, set clocks, logs, room on the disk.
 */
class WatchTest {
  @TempDir private Path folder;
  private final List<String> said = new CopyOnWriteArrayList<>();

  /** The machine's clocks, the one on the wall set forward at will. */
  private static final class SetTime implements Timekeeper {
    private final RealTime real = new RealTime();
    private volatile long forwardS;

    @Override
    public long nanos() {
      return real.nanos();
    }

    @Override
    public Instant utc() {
      return real.utc().plusSeconds(forwardS);
    }
  }

  /** A motor that starts every few seconds, and a cable that can be pulled. */
  private static final class Plant implements Links {
    private final Timekeeper time;
    private volatile boolean pulled;

    Plant(Timekeeper time) {
      this.time = time;
    }

    @Override
    public RegisterPort registers(Link link) {
      return new RegisterPort() {
        @Override
        public Answer read(int unit, int function, int address, int count, int timeoutMs)
            throws DeviceFault {
          if (pulled) {
            throw new DeviceFault(FaultKind.UNREACHABLE, "nobody listens there");
          }
          long now = time.nanos();
          // 1 s at rest, 1 s of 350 A; a trial ends 1 s after its begin by its longest time
          boolean flowing = now / 1_000_000_000L % 3 == 0;
          return new Answer(new int[] {flowing ? 350 : 0}, now, time.nanos());
        }

        @Override
        public void close() {}
      };
    }

    @Override
    public LinePort lines(Link.Lines link) {
      throw new AssertionError();
    }

    @Override
    public Trace replay(ChannelMap map, Link.Replay link) {
      throw new AssertionError();
    }
  }

  @Test
  void startAfterStartIsRecordedThroughPulledCablesAndSetClocks() throws Exception {
    SetTime time = new SetTime();
    Plant plant = new Plant(time);
    List<Path> trials = new CopyOnWriteArrayList<>();
    List<WatchStatus> statuses = new CopyOnWriteArrayList<>();
    RotatingLog log = new RotatingLog(null, 1000, 1, time, said::add);
    WatchEngine engine =
        new WatchEngine(
            List.of(WatchStations.of(folder, "a"), WatchStations.of(folder, "b")),
            new WatchLimits(1, 1, 50),
            plant,
            time,
            log,
            new WatchListener() {
              @Override
              public String recorded(Station station, Path trial) {
                trials.add(trial);
                return "";
              }

              @Override
              public void status(WatchStatus status) {
                statuses.add(status);
              }
            });
    Thread runner =
        new Thread(
            () -> {
              try {
                engine.run();
              } catch (InterruptedException e) {
                said.add("interrupted");
              }
            });
    runner.start();
    Await.until(() -> trials.size() >= 2, said);
    plant.pulled = true;
    Await.until(
        () -> said.stream().filter(l -> l.contains("nobody listens there")).count() >= 2, said);
    time.forwardS = 3600;
    plant.pulled = false;
    Await.until(() -> said.stream().filter(l -> l.endsWith("is read again")).count() >= 2, said);
    int before = trials.size();
    Await.until(() -> trials.size() >= before + 2, said);
    Await.until(() -> said.stream().anyMatch(l -> l.contains("clock was set by ")), said);
    engine.stop();
    runner.join(60_000);
    assertThat(said).anyMatch(l -> l.endsWith("stopped; " + trials.size() + " trials recorded"));
    assertThat(trials).as("each is handed over once").doesNotHaveDuplicates();
    for (Path trial : trials) {
      assertThat(trial.resolve("trace.csv")).exists();
    }
    // Trials after the clock was set are named by it.
    assertThat(trials.get(trials.size() - 1).getFileName().toString())
        .isGreaterThan(trials.get(0).getFileName().toString());
    assertThat(statuses.get(statuses.size() - 1).state()).isEqualTo("ended");
    assertThat(statuses.get(statuses.size() - 1).stations()).hasSize(2);
  }

  @Test
  void theLogNeverTakesMoreThanItMay() throws Exception {
    Path file = folder.resolve("w.log");
    RotatingLog log = new RotatingLog(file, 2000, 3, new RealTime(), line -> {});
    for (int i = 0; i < 1000; i++) {
      log.say("line " + i + " \u001b[31m" + "x".repeat(50));
    }
    long all = 0;
    List<String> names = new ArrayList<>();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path one : files.sorted().toList()) {
        all += Files.size(one);
        names.add(one.getFileName().toString());
      }
    }
    assertThat(names).containsExactly("w.log", "w.log.1", "w.log.2", "w.log.3");
    assertThat(all).isLessThan(4 * 2100);
    assertThat(Files.readString(file)).contains("line 999").doesNotContain("\u001b");
    assertThat(log.newest()).hasSize(20);
  }

  private Path trial(Path trials, String name, String head) throws Exception {
    Path made = Files.createDirectories(trials.resolve(name));
    Files.writeString(made.resolve("trace.csv"), head + "time_s,i1_A\n0,1\n1,2\n");
    Files.writeString(made.resolve("settings.toml"), "");
    return made;
  }

  @Test
  void roomIsMadeOfTheOldestOfTheWatchAndOfNothingElse() throws Exception {
    String ours = "# " + DiskKeeper.MARK + "\n# began\n";
    Path trials = folder.resolve("trials");
    trial(trials, "20260101T000000Z", "# a person's\n");
    Path edited = trial(trials, "20260102T000000Z", ours);
    Files.setLastModifiedTime(
        edited.resolve("settings.toml"), FileTime.from(Instant.now().plusSeconds(3600)));
    Path noted = trial(trials, "20260103T000000Z", ours);
    Files.writeString(noted.resolve("remarks.txt"), "look at this");
    Path oldest = trial(trials, "20260104T000000Z", ours);
    Path next = trial(trials, "20260105T000000Z", ours);
    trial(trials, "20260106T000000Z", ours);
    Files.createDirectories(trials.resolve("20250101T000000Z"));
    assertThat(DiskKeeper.oldest(trials, 1)).isEqualTo(oldest);
    DiskKeeper.remove(oldest);
    assertThat(oldest).doesNotExist();
    assertThat(DiskKeeper.oldest(trials, 1)).isEqualTo(next);
    assertThat(DiskKeeper.oldest(trials, 2)).as("the newest two are kept").isNull();
    assertThat(DiskKeeper.oldest(folder.resolve("none"), 1)).isNull();
  }
}
