package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.ColumnMapping;
import rampwright.acquisition.file.ReadContext;
import rampwright.acquisition.file.TraceFileException;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.analysis.figure.AnalysisOptions;
import rampwright.analysis.figure.AnalyzedTrace;
import rampwright.analysis.figure.CurrentLimit;
import rampwright.analysis.figure.ImpossibleCorrectionException;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.figure.SpeedModel;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.Thresholds;
import rampwright.analysis.fit.FittedSpeedModel;
import rampwright.analysis.heat.HeatTrace;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;
import rampwright.app.advice.ParallelBatch;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.AssetFiles;
import rampwright.app.asset.MachineSheet;
import rampwright.app.asset.Motor;
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
    return read(job, tracePath, true);
  }

  /** The same; {@code modelled}: whether a model may date full speed where speed is missing. */
  Read read(TrialJob job, Path tracePath, boolean modelled) throws InputProblem {
    AssetFile asset = asset(job.assetFile());
    TrialFile trial = trialFile(job.settingsFile());
    Trace trace = trace(tracePath, columnsFor(trial), readContext(asset));
    TrialNotes notes = trial.notes();
    MotorContext motor = asset == null ? MotorContext.UNKNOWN : asset.asset().context();
    TraceChecks.demand(trace, choice.kind(), motor);
    AnalysisOptions options =
        new AnalysisOptions(
            notes.corrected(), notes.correctionReason(), Thresholds.DEFAULT, limit(asset, trial));
    SpeedModel model = modelled ? speedModel(asset, trial, trace) : SpeedModel.NONE;
    AnalyzedTrace analyzed;
    try {
      analyzed = analyzer.analyze(trace, motor, options, model);
    } catch (ImpossibleCorrectionException e) {
      Path settings = job.settingsFile();
      throw InputProblem.of(e, settings == null ? tracePath : settings);
    }
    Envelope envelope = asset == null ? Envelope.NONE : asset.asset().envelope();
    List<Verdict> verdicts = new ArrayList<>();
    if (!envelope.isEmpty()) {
      for (StartRecord start : analyzed.figures().starts()) {
        verdicts.add(Judge.judge(envelope, start, analyzed.track(), motor));
      }
    }
    Double ratedA = motor.ratedCurrentA();
    TrialResult result =
        new TrialResult(
            job.shown(),
            TraceFacts.of(trace),
            asset,
            trial,
            analyzed.figures(),
            verdicts,
            toolVersion,
            remarks(asset, trial, TraceChecks.unlikely(analyzed, motor)),
            ratedA == null ? null : HeatTrace.of(analyzed, ratedA, unseenShare(asset)));
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

  /**
   * The current limit the trial was made with, in the trace's own current, which in the line of a
   * starter inside a delta lacks what circulates; null when not noted.
   */
  private static @Nullable CurrentLimit limit(@Nullable AssetFile asset, TrialFile trial) {
    if (asset == null) {
      return null;
    }
    Double ratio = trial.settings().limitOverMotor(asset.asset().motor(), asset.asset().starter());
    Double rampUpS = trial.settings().rampUpS();
    Double ratedA = asset.asset().context().ratedCurrentA();
    return ratio == null || rampUpS == null || ratedA == null
        ? null
        : new CurrentLimit(MachineSheet.measuredRatio(asset.asset(), ratio) * ratedA, rampUpS);
  }

  /**
   * A model for a trace without speed whose settings are known; none where it would not be asked.
   */
  private static SpeedModel speedModel(@Nullable AssetFile asset, TrialFile trial, Trace trace) {
    if (asset == null || trace.has(ChannelName.SPEED)) {
      return SpeedModel.NONE;
    }
    if (!asset.asset().motor().isPlateOfOneMotor()) {
      // A machine fitted to a plate that contradicts itself dates full speed with false certainty;
      // the sheet's warning tells of the plate.
      return SpeedModel.NONE;
    }
    try {
      StarterSettings settings = MachineSheet.settings(trial.settings(), asset.asset());
      return settings == null
          ? SpeedModel.NONE
          : new FittedSpeedModel(MachineSheet.data(asset.asset()), settings, new ParallelBatch());
    } catch (IllegalArgumentException notAMachine) {
      // The sheet's numbers make no machine; the current has to do, and its rule says so.
      return SpeedModel.NONE;
    }
  }

  private static DoubleUnaryOperator unseenShare(@Nullable AssetFile asset) {
    return asset == null ? ratio -> 0 : MachineSheet.unseenShare(asset.asset());
  }

  private static ReadContext readContext(@Nullable AssetFile asset) {
    if (asset == null) {
      return ReadContext.NONE;
    }
    Motor motor = asset.asset().motor();
    double watts = 1000 * motor.ratedPowerKw();
    return new ReadContext(
        motor.ratedSpeedRpm(),
        asset.asset().context().ratedCurrentA(),
        motor.ratedVoltageV(),
        watts / (motor.ratedSpeedRpm() * 2 * Math.PI / 60),
        watts,
        Math.max(1, (int) Math.floor(60 * motor.ratedFrequencyHz() / motor.ratedSpeedRpm())),
        null);
  }

  /** The trace alone. */
  Trace trace(Path path, ColumnMapping mapping) throws InputProblem {
    return trace(path, mapping, ReadContext.NONE);
  }

  private Trace trace(Path path, ColumnMapping mapping, ReadContext context) throws InputProblem {
    try {
      return door.read(
          new TraceFileDoor.ReadRequest(path, mapping, choice.kind(), choice.secondary(), context));
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

  private static List<String> remarks(
      @Nullable AssetFile asset, TrialFile trial, List<String> ofTrace) {
    List<String> remarks = new ArrayList<>(ofTrace);
    if (asset != null) {
      asset.warnings().forEach(warning -> remarks.add(asset.path() + ": " + warning));
    }
    remarks.addAll(trial.warnings());
    return remarks;
  }
}
