package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.ColumnMapping;
import rampwright.acquisition.file.TraceFileException;
import rampwright.analysis.figure.AnalysisOptions;
import rampwright.analysis.figure.AnalyzedTrace;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.Thresholds;
import rampwright.analysis.trace.Trace;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.AssetFiles;
import rampwright.app.asset.SeenByHand;
import rampwright.app.asset.TrialFile;
import rampwright.app.asset.TrialFiles;
import rampwright.app.asset.TrialNotes;
import rampwright.app.envelope.Envelope;
import rampwright.app.envelope.Judge;
import rampwright.app.envelope.Verdict;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TraceFacts;
import rampwright.app.result.TrialResult;
import rampwright.app.toml.TomlProblemsException;

/**
 * Reads one trial's files, has the trace analysed and holds it against the envelope. Files shared
 * by many trials are read once. Safe for several threads.
 */
final class TrialReader {
  private final TraceFileDoor door;
  private final Analyzer analyzer;
  private final String toolVersion;
  private final InputChoice choice;
  private final Map<Path, AssetFile> assets = new ConcurrentHashMap<>();
  private final Map<Path, ColumnMapping> columns = new ConcurrentHashMap<>();

  TrialReader(TraceFileDoor door, Analyzer analyzer, String toolVersion, InputChoice choice) {
    this.door = door;
    this.analyzer = analyzer;
    this.toolVersion = toolVersion;
    this.choice = choice;
  }

  /**
   * A trial with its samples still at hand.
   *
   * @param trace the samples
   * @param analyzed what was found, with the track
   * @param motor what the analysis knew of the motor
   * @param envelope what was asked
   * @param result what is kept
   */
  record Read(
      Trace trace,
      AnalyzedTrace analyzed,
      MotorContext motor,
      Envelope envelope,
      TrialResult result) {}

  /** A trial that has a trace. */
  Read read(TrialJob job, Path tracePath) throws InputProblem {
    AssetFile asset = asset(job.assetFile());
    TrialFile trial = trialFile(job.settingsFile());
    Trace trace = trace(tracePath, columnsFor(trial));
    TrialNotes notes = trial.notes();
    MotorContext motor = asset == null ? MotorContext.UNKNOWN : asset.asset().context();
    AnalyzedTrace analyzed =
        analyzer.analyze(
            trace,
            motor,
            new AnalysisOptions(notes.corrected(), notes.correctionReason(), Thresholds.DEFAULT));
    Envelope envelope = asset == null ? Envelope.NONE : asset.asset().envelope();
    List<Verdict> verdicts = new ArrayList<>();
    if (!envelope.isEmpty()) {
      for (StartRecord start : analyzed.figures().starts()) {
        verdicts.add(Judge.judge(envelope, start, analyzed.track(), motor));
      }
    }
    TrialResult result =
        new TrialResult(
            job.shown(),
            TraceFacts.of(trace),
            asset,
            trial,
            analyzed.figures(),
            verdicts,
            toolVersion,
            remarks(asset, trial));
    return new Read(trace, analyzed, motor, envelope, result);
  }

  /** A trial without a trace. */
  NotedTrial readNoted(TrialJob job) throws InputProblem {
    AssetFile asset = asset(job.assetFile());
    TrialFile trial = trialFile(job.settingsFile());
    SeenByHand seen = trial.seen();
    if (seen == null) {
      throw new InputProblem(
          job.shown()
              + ": the trial has no trace and nothing noted by hand; add trace.csv, or a [seen] table"
              + " with what was seen");
    }
    boolean judged = asset != null && !asset.asset().envelope().isEmpty();
    Verdict verdict =
        judged && asset != null ? Judge.judgeNoted(asset.asset().envelope(), seen.figures()) : null;
    return new NotedTrial(job.shown(), asset, trial, seen, verdict);
  }

  /** The trace alone. */
  Trace trace(Path path, ColumnMapping mapping) throws InputProblem {
    try {
      return door.read(
          new TraceFileDoor.ReadRequest(path, mapping, choice.kind(), choice.secondary()));
    } catch (TraceFileException e) {
      throw InputProblem.of(e);
    } catch (IOException e) {
      throw InputProblem.of(e, path);
    }
  }

  /** What a person says about the columns: the file chosen for it before the trial's own word. */
  ColumnMapping columnsFor(TrialFile trial) throws InputProblem {
    Path file = choice.columns();
    if (file == null) {
      return trial.columns();
    }
    ColumnMapping known = columns.get(file);
    if (known != null) {
      return known;
    }
    try {
      ColumnMapping mapping = TrialFiles.readColumns(file);
      columns.put(file, mapping);
      return mapping;
    } catch (TomlProblemsException e) {
      throw InputProblem.of(e);
    } catch (IOException e) {
      throw InputProblem.of(e, file);
    }
  }

  @Nullable AssetFile asset(@Nullable Path file) throws InputProblem {
    if (file == null) {
      return null;
    }
    AssetFile known = assets.get(file);
    if (known != null) {
      return known;
    }
    try {
      AssetFile read = AssetFiles.read(file);
      assets.put(file, read);
      return read;
    } catch (TomlProblemsException e) {
      throw InputProblem.of(e);
    } catch (IOException e) {
      throw InputProblem.of(e, file);
    }
  }

  TrialFile trialFile(@Nullable Path file) throws InputProblem {
    if (file == null) {
      return TrialFile.NONE;
    }
    try {
      return TrialFiles.read(file);
    } catch (TomlProblemsException e) {
      throw InputProblem.of(e);
    } catch (IOException e) {
      throw InputProblem.of(e, file);
    }
  }

  private static List<String> remarks(@Nullable AssetFile asset, TrialFile trial) {
    List<String> remarks = new ArrayList<>();
    if (asset != null) {
      asset.warnings().forEach(warning -> remarks.add(asset.path() + ": " + warning));
    }
    remarks.addAll(trial.warnings());
    return remarks;
  }
}
