package rampwright.acquisition.watch;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.LinkedHashSet;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import rampwright.acquisition.record.NoTraceException;
import rampwright.acquisition.record.RecordedTrial;
import rampwright.acquisition.record.Recovery;
import rampwright.acquisition.record.TrialSession;

/**
 * Makes trials of recordings that have ended, one after the other, in a thread of its own. What the
 * disk does not take stays in memory and is tried again.
 */
final class Finisher {
  /** Recordings kept in memory for want of room; a start of a minute takes about a megabyte. */
  static final int MOST_WAITING = 20;

  private static final int END_MIN = 1;

  private final RotatingLog log;
  private final WatchListener listener;
  private final AtomicLong recorded = new AtomicLong();
  private final ExecutorService thread =
      Executors.newSingleThreadExecutor(
          work -> {
            Thread made = new Thread(work, "finisher");
            made.setDaemon(true);
            return made;
          });

  /** Used by the thread alone. */
  private final Deque<Ended> waiting = new ArrayDeque<>();

  /** A recording that has ended and is not yet whole. */
  private static final class Ended {
    private final StationKeeper keeper;
    private final TrialSession session;
    private boolean told;

    Ended(StationKeeper keeper, TrialSession session) {
      this.keeper = keeper;
      this.session = session;
    }

    String name() {
      return keeper.station().name();
    }
  }

  Finisher(RotatingLog log, WatchListener listener) {
    this.log = log;
    this.listener = listener;
  }

  /** Trials made so far. */
  long recorded() {
    return recorded.get();
  }

  /** Makes what an earlier watch left: trials of journals, and what is said of those made. */
  void recover(StationKeeper keeper) {
    Path trials = keeper.station().plan().trials();
    try {
      Recovery.Recovered done = Recovery.run(trials, false);
      done.said().forEach(log::say);
      Set<Path> left = new LinkedHashSet<>(done.trials());
      // It may have ended between the trace and what is made of it.
      left.addAll(DiskKeeper.withoutFigures(trials));
      for (Path trial : left) {
        run(keeper, () -> about(keeper, trial));
      }
    } catch (IOException e) {
      log.say(trials + ": a recording that was cut short could not be recovered: " + e);
    }
  }

  /** Makes a trial of a recording that has ended. */
  void finish(StationKeeper keeper, TrialSession session) {
    run(keeper, () -> attempt(new Ended(keeper, session)));
  }

  /** Tries again what the disk did not take. */
  void tryAgain() {
    thread.execute(
        () -> {
          Iterator<Ended> left = new ArrayDeque<>(waiting).iterator();
          waiting.clear();
          left.forEachRemaining(this::attemptSafely);
        });
  }

  /** Ends once everything handed over has been tried. */
  void close() throws InterruptedException {
    tryAgain();
    thread.execute(
        () ->
            waiting.forEach(
                one ->
                    log.say(
                        one.name()
                            + ": a trial is not whole; its journal stays and is recovered when the"
                            + " watch begins again")));
    thread.shutdown();
    if (!thread.awaitTermination(END_MIN, TimeUnit.MINUTES)) {
      log.say(
          "not everything could be made whole in time; the rest is recovered at the next begin");
    }
  }

  private void run(StationKeeper keeper, Runnable work) {
    thread.execute(
        () -> {
          try {
            work.run();
          } catch (RuntimeException e) {
            // One odd trial must not end a watch of months.
            log.say(keeper.station().name() + ": a defect of this program: " + e);
          }
        });
  }

  private void attemptSafely(Ended one) {
    try {
      attempt(one);
    } catch (RuntimeException e) {
      log.say(one.name() + ": a defect of this program: " + e);
    }
  }

  private void attempt(Ended one) {
    String name = one.name();
    TrialSession session = one.session;
    try {
      if (!session.hasBegun()) {
        session.discard();
        return;
      }
      RecordedTrial trial = session.finish();
      recorded.incrementAndGet();
      one.keeper.recorded(trial);
      log.say(
          String.format(
              Locale.ROOT,
              "%s: recorded %s, %.1f s, ended: %s",
              name,
              trial.folder(),
              trial.lengthS(),
              trial.ended()));
      trial.remarks().forEach(remark -> log.say(name + ": " + remark));
      about(one.keeper, trial.folder());
    } catch (NoTraceException e) {
      log.say(name + ": " + e.getMessage());
    } catch (IOException e) {
      later(one, e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void later(Ended one, IOException e) {
    String name = one.name();
    if (!one.told) {
      one.told = true;
      log.say(
          name
              + ": a trial could not be made whole: "
              + e.getMessage()
              + "; it is kept in memory and tried again; make room");
    }
    waiting.addLast(one);
    if (waiting.size() > MOST_WAITING) {
      Ended oldest = waiting.removeFirst();
      log.say(
          oldest.name()
              + ": more than "
              + MOST_WAITING
              + " trials wait for room; of the oldest only what is in its journal is left");
    }
  }

  private void about(StationKeeper keeper, Path trial) {
    String line = listener.recorded(keeper.station(), trial);
    if (!line.isEmpty()) {
      log.say(keeper.station().name() + ": " + line);
    }
  }
}
