package rampwright.acquisition.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.acquisition.device.Await;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.device.LinePort;
import rampwright.acquisition.device.Links;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.device.RegisterPort;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.record.TrialSession;
import rampwright.analysis.trace.Trace;

/** What must not go wrong in a watch of months: between recordings, at its begin and at its end. */
class WatchTroubleTest {
  /** Readings are 20 ms apart. */
  private static final long STEP_NS = 20_000_000;

  /** Two readings after a recording that began at 1 s, s. */
  private static final double NEXT_S = 1 + WatchStations.LONGEST_S + 0.04;

  @TempDir private Path folder;
  private final List<String> said = new CopyOnWriteArrayList<>();
  private final List<Path> told = new CopyOnWriteArrayList<>();
  private final RealTime time = new RealTime();
  private final RotatingLog log = new RotatingLog(null, 1000, 1, time, said::add);

  /** Devices that answer nothing, and take their time over it. */
  private static final class Dead implements Links {
    @Override
    public RegisterPort registers(Link link) {
      return new RegisterPort() {
        @Override
        public Answer read(int unit, int function, int address, int count, int timeoutMs)
            throws DeviceFault {
          try {
            TimeUnit.MILLISECONDS.sleep(400);
          } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
          }
          throw new DeviceFault(FaultKind.NO_ANSWER, "dead");
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

  private final List<StationKeeper> keepers = new ArrayList<>();
  private final List<TrialSession> open = new ArrayList<>();

  private StationKeeper keeper(Station station) {
    keepers.add(new StationKeeper(station, new Dead(), time, log, 1_000_000_000L));
    return keepers.get(keepers.size() - 1);
  }

  /** Journals write as long as nobody ends them. */
  @AfterEach
  void end() throws Exception {
    keepers.forEach(keeper -> open.addAll(keeper.end()));
    for (TrialSession session : open) {
      if (session.hasBegun()) {
        session.finish();
      } else {
        session.discard();
      }
    }
  }

  private WatchListener listener(UnaryOperator<String> about) {
    return new WatchListener() {
      @Override
      public String recorded(Station station, Path trial) {
        told.add(trial);
        return about.apply(station.name());
      }

      @Override
      public void status(WatchStatus status) {}
    };
  }

  /** Readings from one instant to another, of so many amperes. */
  private static void feed(StationKeeper keeper, double fromS, double toS, double currentA) {
    for (long k = Math.round(fromS * 50); k < Math.round(toS * 50); k++) {
      keeper.take(
          new DeviceEvent.Reading(
              0,
              0,
              k * STEP_NS,
              1,
              1,
              1,
              new int[] {0},
              new double[] {currentA},
              currentA > 0 ? "015E" : "0000"));
    }
  }

  /** A recording that has begun and ended. */
  private TrialSession ended(StationKeeper keeper) {
    feed(keeper, 0, 1, 0);
    feed(keeper, 1, 3, 350);
    TrialSession session = keeper.takeEnded();
    assertThat(session).isNotNull();
    return session;
  }

  /** The first recording ends by its longest time at 2.5 s. */
  @Test
  void aStartRightAfterARecordingIsRecordedToo() throws Exception {
    StationKeeper keeper = keeper(WatchStations.of(folder, "a"));
    feed(keeper, 0, 1, 0);
    feed(keeper, 1, 2, 350);
    feed(keeper, 2, NEXT_S, 0);
    feed(keeper, NEXT_S, 3, 350);
    assertThat(keeper.status().phase()).isEqualTo("recording");
  }

  /** One that ended by itself and has not been fetched, and the one under way; each once. */
  @Test
  void atTheEndEveryRecordingIsHandedOverOnce() throws Exception {
    StationKeeper keeper = keeper(WatchStations.of(folder, "a"));
    feed(keeper, 0, 1, 0);
    feed(keeper, 1, 2, 350);
    feed(keeper, 2, NEXT_S, 0);
    feed(keeper, NEXT_S, 3, 350);
    open.addAll(keeper.end());
    keepers.clear();
    assertThat(open).hasSize(2).doesNotHaveDuplicates().allMatch(TrialSession::hasBegun);
  }

  @Test
  void whatTheDiskDoesNotTakeIsTriedAgainAndSaidOnce() throws Exception {
    StationKeeper keeper = keeper(WatchStations.of(folder, "a"));
    Finisher finisher = new Finisher(log, listener(name -> "seen"));
    Path trials = keeper.station().plan().trials();
    Files.createDirectories(folder.resolve("a"));
    // Where the folder should be is a file: nothing can be written.
    Files.writeString(trials, "");
    finisher.finish(keeper, ended(keeper));
    Await.until(
        () -> said.stream().anyMatch(line -> line.contains("could not be made whole")), said);
    finisher.tryAgain();
    finisher.tryAgain();
    Files.delete(trials);
    finisher.close();
    assertThat(finisher.recorded()).isEqualTo(1);
    assertThat(said.stream().filter(line -> line.contains("could not be made whole"))).hasSize(1);
    assertThat(told).hasSize(1);
    assertThat(told.get(0).resolve("trace.csv")).exists();
    assertThat(said).anyMatch(line -> line.endsWith("a: seen"));
  }

  @Test
  void aDefectWithOneTrialDoesNotEndTheWatch() throws Exception {
    StationKeeper bad = keeper(WatchStations.of(folder, "bad"));
    StationKeeper good = keeper(WatchStations.of(folder, "good"));
    Finisher finisher =
        new Finisher(
            log,
            listener(
                name -> {
                  if (name.equals("bad")) {
                    throw new IllegalStateException("oops");
                  }
                  return "";
                }));
    finisher.finish(bad, ended(bad));
    finisher.finish(good, ended(good));
    finisher.close();
    assertThat(finisher.recorded()).isEqualTo(2);
    assertThat(said).anyMatch(line -> line.contains("bad: a defect of this program"));
  }

  /** A power cut leaves a journal, or a trace of which nothing has been made. */
  @Test
  void whatAnEarlierWatchLeftIsMadeWholeAndHandedOver() throws Exception {
    StationKeeper keeper = keeper(WatchStations.of(folder, "a"));
    Path trials = keeper.station().plan().trials();
    feed(keeper, 0, 1, 0);
    feed(keeper, 1, 1.6, 350);
    Await.until(() -> journal(trials) != null, said);
    TimeUnit.MILLISECONDS.sleep(200);
    Path live = journal(trials);
    Path cut = Files.createDirectories(trials.resolve("20260101T000000Z"));
    Files.copy(live, cut.resolve("readings.journal"));
    Path traceOnly = trial(trials, "20260102T000000Z");
    Path whole = trial(trials, "20260103T000000Z");
    Files.writeString(whole.resolve("figures.json"), "{}");
    Finisher finisher = new Finisher(log, listener(name -> ""));
    finisher.recover(keeper);
    finisher.close();
    assertThat(told).containsExactly(cut, traceOnly);
    assertThat(said).anyMatch(line -> line.contains("a recording that was cut short is recovered"));
    assertThat(live).as("what is being written is left alone").exists();
  }

  private static Path journal(Path trials) {
    if (!Files.isDirectory(trials)) {
      return null;
    }
    try (Stream<Path> found = Files.walk(trials)) {
      return found.filter(file -> file.endsWith("readings.journal")).findFirst().orElse(null);
    } catch (IOException e) {
      return null;
    }
  }

  private static Path trial(Path trials, String name) throws Exception {
    Path made = Files.createDirectories(trials.resolve(name));
    Files.writeString(
        made.resolve("trace.csv"), "# " + DiskKeeper.MARK + "\ntime_s,i1_A\n0,1\n1,2\n");
    return made;
  }

  private static long runUntilSaid(WatchEngine engine, BooleanSupplier enough) throws Exception {
    Thread runner =
        new Thread(
            () -> {
              try {
                engine.run();
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
            });
    runner.start();
    while (!enough.getAsBoolean()) {
      TimeUnit.MILLISECONDS.sleep(10);
    }
    long asked = System.nanoTime();
    engine.stop();
    runner.join(60_000);
    return TimeUnit.NANOSECONDS.toMillis(System.nanoTime() - asked);
  }

  @Test
  void theOldestOfAllAssetsMakesRoomFirst() throws Exception {
    for (String one :
        List.of("b/20260101", "a/20260105", "a/20260102", "b/20260103", "b/20260104")) {
      Path made =
          trial(
              folder.resolve(one.substring(0, 1)).resolve("trials"), one.substring(2) + "T000000Z");
      Files.writeString(made.resolve("figures.json"), "{}");
    }
    WatchEngine engine =
        new WatchEngine(
            List.of(WatchStations.of(folder, "a"), WatchStations.of(folder, "b")),
            new WatchLimits(Long.MAX_VALUE, Long.MAX_VALUE, 1),
            new Dead(),
            time,
            log,
            listener(name -> ""));
    runUntilSaid(
        engine,
        () -> said.stream().anyMatch(line -> line.contains("no trial of the watch may be")));
    List<String> removed = new ArrayList<>();
    for (String line : said) {
      if (line.contains("removed the oldest")) {
        removed.add(line.substring(line.length() - 16, line.length() - 8));
      }
    }
    assertThat(removed).containsExactly("20260101", "20260102", "20260103");
    assertThat(folder.resolve("a/trials/20260105T000000Z/trace.csv")).exists();
    assertThat(folder.resolve("b/trials/20260104T000000Z/trace.csv")).exists();
  }

  /** One after the other, thirty devices that take 0.4 s each would be waited for some 6 s. */
  @Test
  void deadDevicesAreNotWaitedForOneAfterTheOther() throws Exception {
    List<Station> stations = new ArrayList<>();
    for (int k : IntStream.range(0, 30).toArray()) {
      stations.add(WatchStations.of(folder, "m" + k));
    }
    WatchEngine engine =
        new WatchEngine(
            stations, new WatchLimits(1, 1, 1), new Dead(), time, log, listener(name -> ""));
    long tookMs =
        runUntilSaid(
            engine, () -> said.stream().filter(line -> line.contains("dead")).count() >= 30);
    assertThat(tookMs).isLessThan(4000);
  }
}
