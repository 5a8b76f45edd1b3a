package rampwright.app.usecase;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.locks.ReentrantLock;
import rampwright.acquisition.file.AtomicFile;
import rampwright.app.json.ResultJson;
import rampwright.app.result.Batch;
import rampwright.app.result.Entry;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.TrialResult;

/**
 * From traces and asset folders to figures, findings and verdicts. Trials are worked on side by
 * side; one that cannot be read does not stop the others.
 */
public final class AnalyzeTraces {
  /** Files larger than this are worked on one at a time, for the memory they take. */
  private static final long LARGE_BYTES = 48L << 20;

  /** A packed file counts as this many times its size. */
  private static final int PACKING = 6;

  private final TraceFileDoor door;
  private final Analyzer analyzer;
  private final String toolVersion;
  private final int threads;
  private final ReentrantLock largeFile = new ReentrantLock();

  /**
   * The use case.
   *
   * @param threads how many trials may be worked on at a time
   */
  public AnalyzeTraces(TraceFileDoor door, Analyzer analyzer, String toolVersion, int threads) {
    this.door = door;
    this.analyzer = analyzer;
    this.toolVersion = toolVersion;
    this.threads = threads;
  }

  /**
   * Analyses everything that was named.
   *
   * @param named traces, trial folders, asset folders
   * @param choice how they are to be read
   * @param keepFigures whether {@code figures.json} is written into trial folders
   * @throws UsageProblem when nothing was named
   * @throws InterruptedException when the work was cancelled; what was written is whole
   */
  public Batch run(List<Path> named, InputChoice choice, boolean keepFigures, Progress progress)
      throws UsageProblem, InterruptedException {
    if (named.isEmpty()) {
      throw new UsageProblem("nothing to analyse was named; name a trace or an asset folder");
    }
    List<TrialJob> jobs = new FindTrials(choice, keepFigures).in(named);
    TrialReader reader = new TrialReader(door, analyzer, toolVersion, choice);
    progress.begun(jobs.size());
    try {
      List<Entry> entries = new ArrayList<>();
      if (jobs.size() == 1) {
        entries.add(reported(reader, jobs.get(0), progress));
      } else {
        entries.addAll(sideBySide(reader, jobs, progress));
      }
      account(jobs, entries);
      return new Batch(entries, FindTrials.isSingle(named));
    } finally {
      progress.ended();
    }
  }

  /**
   * What comes of trials by themselves: no heat account, nothing kept beside them.
   *
   * @param progress is told of each trial only
   */
  List<Entry> entries(List<TrialJob> jobs, InputChoice choice, Progress progress)
      throws InterruptedException {
    return sideBySide(new TrialReader(door, analyzer, toolVersion, choice), jobs, progress);
  }

  String toolVersion() {
    return toolVersion;
  }

  /** Puts the account's findings in, and keeps what changed by it. */
  private static void account(List<TrialJob> jobs, List<Entry> entries) {
    HeatFindings heat = new HeatFindings();
    for (int k = 0; k < jobs.size(); k++) {
      if (entries.get(k) instanceof TrialResult result) {
        heat.note(k, jobs.get(k), result);
      }
    }
    heat.results().forEach((k, result) -> entries.set(k, keep(jobs.get(k), result)));
  }

  private List<Entry> sideBySide(TrialReader reader, List<TrialJob> jobs, Progress progress)
      throws InterruptedException {
    ExecutorService pool =
        Executors.newFixedThreadPool(
            Math.max(1, Math.min(threads, jobs.size())),
            task -> {
              Thread thread = new Thread(task, "trial");
              thread.setDaemon(true);
              return thread;
            });
    try {
      List<Future<Entry>> pending = new ArrayList<>();
      for (TrialJob job : jobs) {
        pending.add(pool.submit(() -> reported(reader, job, progress)));
      }
      List<Entry> entries = new ArrayList<>();
      for (int i = 0; i < pending.size(); i++) {
        entries.add(outcome(pending.get(i), jobs.get(i)));
      }
      return entries;
    } finally {
      pool.shutdownNow();
    }
  }

  private static Entry outcome(Future<Entry> pending, TrialJob job) throws InterruptedException {
    try {
      return pending.get();
    } catch (ExecutionException e) {
      Throwable cause = e.getCause();
      if (cause instanceof OutOfMemoryError) {
        return new FailedTrial(
            job.shown(),
            job.shown() + ": needs more memory than there is; start java with a larger -Xmx");
      }
      // A defect in one trial must not take the other results with it; it is named as one.
      return new FailedTrial(
          job.shown(), job.shown() + ": a defect of this program stopped it: " + cause);
    }
  }

  private Entry reported(TrialReader reader, TrialJob job, Progress progress) {
    boolean failed = true;
    try {
      Entry entry = one(reader, job);
      failed = entry instanceof FailedTrial;
      return entry;
    } finally {
      progress.done(job.shown(), failed);
    }
  }

  private Entry one(TrialReader reader, TrialJob job) {
    if (job.problem() != null) {
      return new FailedTrial(job.shown(), job.problem());
    }
    try {
      Path trace = job.trace();
      if (trace == null) {
        return reader.readNoted(job);
      }
      return keep(job, measured(reader, job, trace));
    } catch (InputProblem e) {
      return new FailedTrial(job.shown(), String.valueOf(e.getMessage()));
    }
  }

  private TrialResult measured(TrialReader reader, TrialJob job, Path trace) throws InputProblem {
    if (!isLarge(trace)) {
      return reader.read(job, trace).result();
    }
    largeFile.lock();
    try {
      return reader.read(job, trace).result();
    } finally {
      largeFile.unlock();
    }
  }

  private static boolean isLarge(Path trace) {
    try {
      boolean packed = trace.toString().toLowerCase(Locale.ROOT).endsWith(".gz");
      return Files.size(trace) * (packed ? PACKING : 1) > LARGE_BYTES;
    } catch (IOException e) {
      return false;
    }
  }

  private static TrialResult keep(TrialJob job, TrialResult result) {
    Path target = job.figuresTarget();
    if (target == null) {
      return result;
    }
    try {
      AtomicFile.write(target, ResultJson.trial(result).getBytes(StandardCharsets.UTF_8));
      return result;
    } catch (IOException e) {
      // The figures are there to be shown; only their copy is not.
      return result.withRemark("figures were not kept: " + InputProblem.of(e, target).getMessage());
    }
  }
}
