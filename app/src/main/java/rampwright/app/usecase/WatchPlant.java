package rampwright.app.usecase;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.AtomicFile;
import rampwright.acquisition.watch.RotatingLog;
import rampwright.acquisition.watch.Station;
import rampwright.acquisition.watch.WatchEngine;
import rampwright.acquisition.watch.WatchListener;
import rampwright.acquisition.watch.WatchStatus;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.quantity.Measured;
import rampwright.app.json.DeviceJson;
import rampwright.app.result.Batch;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.TrialResult;

/**
 * Watches assets unattended: every start becomes a trial with its figures in its asset folder, and
 * an entry in the logbook.
 */
public final class WatchPlant {
  private static final Duration FIRST_WAIT = Duration.ofSeconds(10);

  private final DevicePorts ports;
  private final AnalyzeTraces analyze;
  private final LogTrial logTrial;
  private final LogbookUse logbooks;

  public WatchPlant(
      DevicePorts ports, AnalyzeTraces analyze, LogTrial logTrial, LogbookUse logbooks) {
    this.ports = ports;
    this.analyze = analyze;
    this.logTrial = logTrial;
    this.logbooks = logbooks;
  }

  /** A watch that can be run once, and stopped from another thread. */
  public static final class Watch {
    private final WatchEngine engine;
    private final Listener listener;

    private Watch(WatchEngine engine, Listener listener) {
      this.engine = engine;
      this.listener = listener;
    }

    /**
     * Watches until it is stopped; then everything recorded is whole.
     *
     * @throws UsageProblem when another watch keeps the same status file
     */
    public void run() throws InterruptedException, UsageProblem, InputProblem {
      Path status = listener.plan.status();
      Path mark = status.resolveSibling(status.getFileName() + ".lock");
      // The lock goes with the process, however that ends; the file may stay.
      try (FileChannel channel =
              FileChannel.open(mark, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
          FileLock lock = lock(channel)) {
        if (lock == null) {
          throw new UsageProblem(
              "another watch is at work here and keeps "
                  + status
                  + "; stop it first, or give this one a status_file of its own");
        }
        watch();
      } catch (IOException e) {
        throw InputProblem.of(e, mark);
      }
    }

    private static @Nullable FileLock lock(FileChannel channel) throws IOException {
      try {
        return channel.tryLock();
      } catch (OverlappingFileLockException e) {
        return null;
      }
    }

    private void watch() throws InterruptedException {
      LogQueue queue = listener.open();
      try {
        engine.run();
      } finally {
        if (queue != null) {
          queue.close();
        }
      }
    }

    /** Tells it to stop; does not wait. */
    public void stop() {
      engine.stop();
    }

    /** How it stands, as in its status file; null before the first look. */
    public @Nullable WatchStatus status() {
      return listener.latest;
    }
  }

  /**
   * Reads and checks everything; opens no device.
   *
   * @param file what is watched
   * @param talk gets every line of the log
   */
  public Watch prepare(Path file, Consumer<String> talk) throws InputProblem, UsageProblem {
    WatchFiles.Plan plan = WatchFiles.read(file);
    RotatingLog log =
        new RotatingLog(plan.log(), plan.logBytes(), plan.logKeep(), ports.time(), talk);
    Listener listener = new Listener(plan, log);
    return new Watch(
        new WatchEngine(plan.stations(), plan.limits(), ports.links(), ports.time(), log, listener),
        listener);
  }

  /** Makes of a trial what there is to make of it, and keeps the status file. */
  private final class Listener implements WatchListener {
    private final WatchFiles.Plan plan;
    private final RotatingLog log;
    private final @Nullable String logbook;
    private volatile @Nullable LogQueue queue;
    private volatile @Nullable WatchStatus latest;
    private boolean broken;

    Listener(WatchFiles.Plan plan, RotatingLog log) {
      this.plan = plan;
      this.log = log;
      String named = plan.logbook();
      this.logbook = named != null && named.isEmpty() ? null : logbooks.where(named, plan.base());
    }

    /** Begins to enter, with what earlier recordings left marked; null without a logbook. */
    @Nullable LogQueue open() {
      if (logbook == null) {
        return null;
      }
      LogQueue opened = new LogQueue(trial -> logTrial.log(trial, logbook), log::say, FIRST_WAIT);
      queue = opened;
      plan.stations().forEach(station -> opened.pickUp(folder(station)));
      return opened;
    }

    private Path folder(Station station) {
      Path folder = station.plan().trials().getParent();
      return folder == null ? Path.of("") : folder;
    }

    @Override
    public String recorded(Station station, Path trial) {
      LogQueue open = queue;
      if (open != null) {
        // Before anything else: should the power fail, the mark tells what is to be done.
        LogTrial.mark(trial, "it has just been recorded");
      }
      String line = figures(trial);
      if (open != null) {
        open.offer(trial);
      }
      return line;
    }

    @Override
    public void status(WatchStatus status) {
      latest = status;
      try {
        AtomicFile.write(plan.status(), DeviceJson.status(status).getBytes(StandardCharsets.UTF_8));
        broken = false;
      } catch (IOException e) {
        if (!broken) {
          broken = true;
          log.say("the status " + plan.status() + " cannot be written: " + e);
        }
      }
    }
  }

  private String figures(Path trial) {
    try {
      Batch batch = analyze.run(List.of(trial), InputChoice.DEFAULT, true, Progress.NONE);
      for (FailedTrial failed : batch.failures()) {
        return "not analysed: " + failed.error();
      }
      StringBuilder text = new StringBuilder();
      for (TrialResult result : batch.results()) {
        for (StartRecord start : result.figures().starts()) {
          Measured took = start.figures().get("start_time_s");
          text.append(text.isEmpty() ? "" : "; ").append(start.outcome().key());
          Double startS = took == null ? null : took.value();
          if (startS != null) {
            text.append(String.format(Locale.ROOT, ", start time %.2f s", startS));
          }
        }
      }
      return text.toString();
    } catch (UsageProblem e) {
      return "not analysed: " + e.getMessage();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return "not analysed: the watch was stopped";
    }
  }
}
