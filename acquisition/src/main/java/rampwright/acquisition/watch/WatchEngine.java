package rampwright.acquisition.watch;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.Links;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.record.TrialSession;

/** Records every start of every station until it is told to stop. */
public final class WatchEngine {
  /** Note at the head of every trace it records, by which it knows its own. */
  public static final String MARK = DiskKeeper.MARK;

  /** How long a dead device is left alone; longer than while a person waits for a start. */
  private static final long MOST_DELAY_NS = TimeUnit.SECONDS.toNanos(10);

  private static final int STEP_MS = 100;
  private static final long LOOK_NS = TimeUnit.SECONDS.toNanos(5);

  /** Every half minute: making a trial takes work, and a full disk stays full for a while. */
  private static final int TRY_EVERY_LOOKS = 6;

  /** A clock that moves by more than this against the monotonic one was set. */
  private static final Duration CLOCK_SET = Duration.ofSeconds(2);

  private final List<StationKeeper> keepers = new ArrayList<>();
  private final WatchLimits limits;
  private final Timekeeper time;
  private final RotatingLog log;
  private final WatchListener listener;
  private final Finisher finisher;
  private volatile boolean stopped;

  private Instant clockBase = Instant.EPOCH;
  private int looks;
  private boolean saidFull;
  private boolean saidNoRoom;

  /** A watch; nothing is opened yet. */
  public WatchEngine(
      List<Station> stations,
      WatchLimits limits,
      Links links,
      Timekeeper time,
      RotatingLog log,
      WatchListener listener) {
    this.limits = limits;
    this.time = time;
    this.log = log;
    this.listener = listener;
    this.finisher = new Finisher(log, listener);
    for (Station station : stations) {
      keepers.add(new StationKeeper(station, links, time, log, MOST_DELAY_NS));
    }
  }

  /** Tells it to stop; {@link #run} returns once everything is whole. */
  public void stop() {
    stopped = true;
  }

  /** Watches until it is stopped. */
  public void run() throws InterruptedException {
    Instant since = time.utc();
    log.say("watching " + keepers.size() + (keepers.size() == 1 ? " asset" : " assets"));
    for (StationKeeper keeper : keepers) {
      finisher.recover(keeper);
      keeper.start();
    }
    clockBase = time.utc().minusNanos(time.nanos());
    long lookNs = time.nanos() - LOOK_NS;
    while (!stopped) {
      for (StationKeeper keeper : keepers) {
        for (TrialSession ended = keeper.takeEnded(); ended != null; ended = keeper.takeEnded()) {
          finisher.finish(keeper, ended);
        }
      }
      if (time.nanos() - lookNs >= LOOK_NS) {
        lookNs = time.nanos();
        lookAround();
        if (++looks % TRY_EVERY_LOOKS == 0) {
          finisher.tryAgain();
        }
        listener.status(status(since, "watching"));
      }
      TimeUnit.MILLISECONDS.sleep(STEP_MS);
    }
    log.say("asked to stop");
    // All at once: a hundred dead devices must not be waited for one after the other.
    keepers.forEach(StationKeeper::askToStop);
    for (StationKeeper keeper : keepers) {
      keeper.end().forEach(session -> finisher.finish(keeper, session));
    }
    finisher.close();
    log.say("stopped; " + finisher.recorded() + " trials recorded");
    listener.status(status(since, "ended"));
  }

  private void lookAround() {
    Instant base = time.utc().minusNanos(time.nanos());
    Duration moved = Duration.between(clockBase, base);
    if (moved.abs().compareTo(CLOCK_SET) > 0) {
      log.say(
          "the machine's clock was set by "
              + moved.toMillis() / 1000.0
              + " s; readings are dated by another one and go on as they were");
    }
    clockBase = base;
    long free = free();
    if (free < 0) {
      return;
    }
    boolean low = free < limits.warnBytes();
    if (low && !saidFull) {
      log.say(
          "the disk has "
              + mib(free)
              + " left; below "
              + mib(limits.leastBytes())
              + " the oldest trials of the watch are removed; make room");
    }
    saidFull = low;
    if (free < limits.leastBytes()) {
      makeRoom();
    } else {
      saidNoRoom = false;
    }
  }

  private void makeRoom() {
    try {
      Path oldest = oldest();
      while (oldest != null) {
        DiskKeeper.remove(oldest);
        log.say("the disk is nearly full: removed the oldest trial of the watch, " + oldest);
        oldest = oldest();
      }
    } catch (IOException e) {
      log.say("no room could be made: " + e);
    }
    if (free() < limits.leastBytes() && !saidNoRoom) {
      saidNoRoom = true;
      log.say(
          "the disk is nearly full and no trial of the watch may be removed; the newest "
              + limits.keepNewest()
              + " of each asset and what people touched are kept; make room");
    }
  }

  /** The oldest trial that may go, of all assets on a disk without room; null when none may. */
  private @Nullable Path oldest() throws IOException {
    Path oldest = null;
    for (StationKeeper keeper : keepers) {
      Path trials = keeper.station().plan().trials();
      Path one =
          DiskKeeper.free(trials) < limits.leastBytes()
              ? DiskKeeper.oldest(trials, limits.keepNewest())
              : null;
      if (one != null
          && (oldest == null || one.getFileName().compareTo(oldest.getFileName()) < 0)) {
        oldest = one;
      }
    }
    return oldest;
  }

  private long free() {
    long least = Long.MAX_VALUE;
    for (StationKeeper keeper : keepers) {
      least = Math.min(least, DiskKeeper.free(keeper.station().plan().trials()));
    }
    return least;
  }

  private static String mib(long bytes) {
    return (bytes >> 20) + " MiB";
  }

  private WatchStatus status(Instant since, String state) {
    return new WatchStatus(
        time.utc(),
        since,
        state,
        free(),
        finisher.recorded(),
        keepers.stream().map(StationKeeper::status).toList(),
        log.newest());
  }
}
