package rampwright.app.usecase;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import rampwright.acquisition.file.AtomicFile;
import rampwright.acquisition.record.RecordedTrial;
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

/** Watches assets unattended: every start becomes a trial with its figures in its asset folder. */
public final class WatchPlant {
  private final DevicePorts ports;
  private final AnalyzeTraces analyze;

  public WatchPlant(DevicePorts ports, AnalyzeTraces analyze) {
    this.ports = ports;
    this.analyze = analyze;
  }

  /** A watch that can be run once, and stopped from another thread. */
  public static final class Watch {
    private final WatchEngine engine;

    private Watch(WatchEngine engine) {
      this.engine = engine;
    }

    /** Watches until it is stopped; then everything recorded is whole. */
    public void run() throws InterruptedException {
      engine.run();
    }

    /** Tells it to stop; does not wait. */
    public void stop() {
      engine.stop();
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
    WatchListener listener =
        new WatchListener() {
          private boolean broken;

          @Override
          public String recorded(Station station, RecordedTrial trial) {
            return figures(trial.folder());
          }

          @Override
          public void status(WatchStatus status) {
            try {
              AtomicFile.write(
                  plan.status(), DeviceJson.status(status).getBytes(StandardCharsets.UTF_8));
              broken = false;
            } catch (IOException e) {
              if (!broken) {
                broken = true;
                log.say("the status " + plan.status() + " cannot be written: " + e);
              }
            }
          }
        };
    return new Watch(
        new WatchEngine(
            plan.stations(), plan.limits(), ports.links(), ports.time(), log, listener));
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
