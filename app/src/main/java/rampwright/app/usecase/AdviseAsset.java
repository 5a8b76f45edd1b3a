package rampwright.app.usecase;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.AssetData;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.StarterSettings;
import rampwright.app.advice.Advice;
import rampwright.app.advice.AdviceEngine;
import rampwright.app.advice.OtherDip;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.AssetFolders;
import rampwright.app.asset.MachineSheet;
import rampwright.app.asset.TrialFile;
import rampwright.app.envelope.Limit;

/** From an asset folder to advice on the next settings, or to what given settings would do. */
public final class AdviseAsset {
  private final TraceFileDoor door;
  private final Analyzer analyzer;
  private final String toolVersion;

  public AdviseAsset(TraceFileDoor door, Analyzer analyzer, String toolVersion) {
    this.door = door;
    this.analyzer = analyzer;
    this.toolVersion = toolVersion;
  }

  /**
   * Advice with what it rests on.
   *
   * @param asset the asset
   * @param advice the advice
   * @param present what was set in the last trial; null before the first
   * @param used the trials the model was fitted to
   * @param leftOut trials that were not used, each with its reason
   * @param last the last trial that was used, for an overlay; null before the first
   */
  public record Advised(
      AssetFile asset,
      Advice advice,
      @Nullable StarterSettings present,
      List<String> used,
      List<String> leftOut,
      TrialReader.@Nullable Read last) {
    /** The last trial for a picture. */
    public ChartRenderer.@Nullable Charted charted() {
      return last == null ? null : ChartTrials.charted(last);
    }

    /** The dip where it is not measured; nothing where the sheet has no cable. */
    public Optional<OtherDip> otherDip() {
      return OtherDip.of(
          advice, MachineSheet.path(asset.asset()), MachineSheet.measuresAtBusbar(asset.asset()));
    }

    /** What the envelope asks of a figure; null: nothing. */
    public @Nullable Limit limit(String key) {
      for (Limit limit : asset.asset().envelope().limits()) {
        if (limit.figure().key().equals(key)) {
          return limit;
        }
      }
      return null;
    }
  }

  /**
   * What an asset folder tells a model.
   *
   * @param asset the asset
   * @param data the sheet as the model takes it
   * @param trials what the trials observed
   * @param present what was set in the last trial; null before the first
   * @param lineVoltages line voltages before the last trial's start, V; empty where not measured
   * @param leftOut trials that were not used, each with its reason
   */
  record Evidence(
      AssetFile asset,
      AssetData data,
      List<TrialObservation> trials,
      @Nullable StarterSettings present,
      List<Double> lineVoltages,
      List<String> leftOut) {}

  /** What an asset folder tells a model, whether or not it has an envelope. */
  Evidence evidence(Path folder) throws InputProblem, UsageProblem {
    return gather(folder).evidence();
  }

  /** Advice on what to set next. */
  public Advised advise(Path folder) throws InputProblem, UsageProblem {
    Gathered gathered = gather(folder);
    return gathered.answer(AdviceEngine.advise(gathered.request()));
  }

  /** What the settings of a file would do. */
  public Advised predict(Path folder, Path settingsFile) throws InputProblem, UsageProblem {
    Gathered gathered = gather(folder);
    TrialReader reader = new TrialReader(door, analyzer, toolVersion, InputChoice.DEFAULT);
    TrialFile file = reader.trialFile(settingsFile);
    StarterSettings settings = MachineSheet.settings(file.settings(), gathered.asset().asset());
    if (settings == null) {
      throw new UsageProblem(
          settingsFile
              + ": too little to predict from; give control, current_limit_ratio, ramp_up_s, and"
              + " initial_torque_pct or initial_voltage_pct");
    }
    return gathered.answer(AdviceEngine.predict(gathered.request(), settings));
  }

  private Gathered gather(Path folder) throws InputProblem, UsageProblem {
    if (!Files.isDirectory(folder) || !AssetFolders.isAssetFolder(folder)) {
      throw new UsageProblem(folder + ": is no asset folder; name a folder that holds asset.toml");
    }
    TrialReader reader = new TrialReader(door, analyzer, toolVersion, InputChoice.DEFAULT);
    AssetFile asset = reader.asset(folder.resolve(AssetFolders.ASSET));
    if (asset == null) {
      throw new UsageProblem(folder + ": is no asset folder");
    }
    AssetData data;
    try {
      data = MachineSheet.data(asset.asset());
    } catch (IllegalArgumentException e) {
      throw new InputProblem(asset.path() + ": " + e.getMessage());
    }
    Gathered gathered = new Gathered(asset, data);
    List<TrialJob> jobs = FindTrials.ofAsset(folder);
    for (TrialJob job : jobs) {
      Path trace = job.trace();
      if (job.problem() != null || trace == null) {
        gathered.leaveOut(
            job.problem() != null
                ? job.problem()
                : job.shown() + ": noted by hand, no trace to fit");
        continue;
      }
      try {
        // Only the last trial is held against the envelope; a model's date of full speed costs
        // time.
        boolean judged = job.equals(jobs.get(jobs.size() - 1));
        gathered.add(job.shown(), reader.read(job, trace, judged));
      } catch (InputProblem e) {
        gathered.leaveOut(String.valueOf(e.getMessage()));
      }
    }
    return gathered;
  }
}
