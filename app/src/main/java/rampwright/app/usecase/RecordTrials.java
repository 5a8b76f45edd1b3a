package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Future;
import org.jspecify.annotations.Nullable;
import rampwright.app.asset.AssetFolders;
import rampwright.app.asset.TrialFile;
import rampwright.app.asset.TrialSettings;
import rampwright.app.report.ReportTrial;
import rampwright.app.report.Seal;
import rampwright.app.report.SealedFile;
import rampwright.app.report.SettingRow;
import rampwright.app.report.TrialCurves;
import rampwright.app.result.Entry;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;

/**
 * The trials of a record, in order of time. One after the other, each trace let go before the next
 * is read; one that cannot be read is in the record with why.
 */
final class RecordTrials {
  private final Path folder;
  private final TrialReader reader;
  private final ExecutorService pool;

  RecordTrials(Path folder, TrialReader reader, ExecutorService pool) {
    this.folder = folder.toAbsolutePath().normalize();
    this.reader = reader;
    this.pool = pool;
  }

  private record Found(
      TrialJob job, Entry entry, List<TrialCurves> curves, TrialDates.@Nullable Date date) {
    @Nullable Instant at() {
      return date == null ? null : date.at();
    }

    TrialSettings settings() {
      if (entry instanceof TrialResult result) {
        return result.trial().settings();
      }
      return entry instanceof NotedTrial noted ? noted.trial().settings() : TrialSettings.NONE;
    }
  }

  List<ReportTrial> of(List<TrialJob> jobs, @Nullable Seal seal, Progress progress)
      throws InterruptedException {
    progress.begun(jobs.size());
    List<Found> found = new ArrayList<>();
    try {
      HeatFindings heat = new HeatFindings();
      for (TrialJob job : jobs) {
        Found one = guarded(job);
        if (one.entry() instanceof TrialResult result) {
          heat.note(found.size(), job, result);
        }
        found.add(one);
        progress.done(job.shown(), one.entry() instanceof FailedTrial);
      }
      heat.results()
          .forEach(
              (k, result) -> {
                Found one = found.get(k);
                found.set(k, new Found(one.job(), result, one.curves(), one.date()));
              });
    } finally {
      progress.ended();
    }
    found.sort(Comparator.comparing(Found::at, Comparator.nullsLast(Comparator.naturalOrder())));
    return told(found, seal);
  }

  private List<ReportTrial> told(List<Found> found, @Nullable Seal seal) {
    List<ReportTrial> trials = new ArrayList<>();
    TrialSettings before = null;
    for (Found one : found) {
      String name = HeatGathering.nameOf(one.job());
      TrialSettings settings = one.settings();
      TrialDates.Date date = one.date();
      trials.add(
          new ReportTrial(
              name,
              one.at(),
              date == null ? "nothing tells when" : date.datedBy(),
              one.entry(),
              settings.isEmpty() ? List.of() : SettingRow.of(settings, before),
              one.curves(),
              files(one.job(), seal)));
      before = settings.isEmpty() ? before : settings;
    }
    return trials;
  }

  private List<SealedFile> files(TrialJob job, @Nullable Seal seal) {
    Path shown = Path.of(job.shown()).toAbsolutePath().normalize();
    // A trial that could not even be looked into is shown by its folder.
    Path of = Files.isDirectory(shown) ? shown.resolve(AssetFolders.SETTINGS) : shown;
    if (seal == null || !of.startsWith(folder)) {
      return List.of();
    }
    String path = SealFolder.path(folder, of);
    String under = path.substring(0, path.lastIndexOf('/') + 1);
    List<SealedFile> files = new ArrayList<>();
    for (SealedFile file : seal.files()) {
      String rest = file.path().startsWith(under) ? file.path().substring(under.length()) : "/";
      if (rest.indexOf('/') < 0 && (!under.isEmpty() || isOfTrial(rest))) {
        files.add(file);
      }
    }
    return files;
  }

  /** Beside the sheet there lie files that are no trial's. */
  private static boolean isOfTrial(String name) {
    return name.equals(AssetFolders.SETTINGS) || name.startsWith("trace.");
  }

  /** What came of one trial; whatever goes wrong with it is in its place. */
  private Found guarded(TrialJob job) throws InterruptedException {
    Future<Found> pending = pool.submit(() -> one(job));
    try {
      return pending.get();
    } catch (ExecutionException e) {
      Throwable cause = e.getCause();
      String why =
          cause instanceof InputProblem
              ? String.valueOf(cause.getMessage())
              : cause instanceof OutOfMemoryError
                  ? job.shown() + ": needs more memory than there is; start java with a larger -Xmx"
                  : job.shown() + ": a defect of this program stopped it: " + cause;
      return new Found(job, new FailedTrial(job.shown(), why), List.of(), declared(job));
    } catch (InterruptedException e) {
      pending.cancel(true);
      throw e;
    }
  }

  private Found one(TrialJob job) throws InputProblem {
    String problem = job.problem();
    if (problem != null) {
      throw new InputProblem(problem);
    }
    Path trace = job.trace();
    if (trace == null) {
      NotedTrial noted = reader.readNoted(job);
      return new Found(job, noted, List.of(), declared(job));
    }
    TrialReader.Read read = reader.read(job, trace);
    TrialDates.Date date = TrialDates.declared(HeatGathering.nameOf(job), read.result().trial());
    if (date == null) {
      date = TrialDates.ofTrace(read.trace());
    }
    if (date == null) {
      date = ofFile(trace, read.analyzed().figures().durationS());
    }
    return new Found(job, read.result(), TrialCurves.of(read.analyzed(), read.motor()), date);
  }

  private TrialDates.@Nullable Date declared(TrialJob job) {
    TrialFile file = TrialFile.NONE;
    try {
      file = reader.trialFile(job.settingsFile());
    } catch (InputProblem e) {
      // Its folder's name may still tell; why the file cannot be read is in the trial's place.
      file = TrialFile.NONE;
    }
    TrialDates.Date date = TrialDates.declared(HeatGathering.nameOf(job), file);
    Path trace = job.trace();
    return date == null && trace != null ? ofFile(trace, 0) : date;
  }

  private static TrialDates.@Nullable Date ofFile(Path trace, double lastsS) {
    try {
      return Files.exists(trace) ? TrialDates.ofFile(trace, lastsS) : null;
    } catch (IOException e) {
      return null;
    }
  }
}
