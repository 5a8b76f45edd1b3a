package rampwright.app.usecase;

import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.AssetFit;
import rampwright.analysis.machine.StarterSettings;
import rampwright.app.asset.AssetFolders;
import rampwright.app.asset.MachineSheet;
import rampwright.app.asset.TrialFile;
import rampwright.app.ready.Readiness;

/** Whether an asset is ready for a start with given settings. */
public final class CheckReadiness {
  private final TraceFileDoor door;
  private final Analyzer analyzer;
  private final String toolVersion;

  public CheckReadiness(TraceFileDoor door, Analyzer analyzer, String toolVersion) {
    this.door = door;
    this.analyzer = analyzer;
    this.toolVersion = toolVersion;
  }

  /**
   * Looks at an asset folder.
   *
   * @param settingsFile the settings meant; null for {@code settings.toml} beside the asset file,
   *     or else the last trial's
   */
  public Readiness run(Path folder, @Nullable Path settingsFile) throws InputProblem, UsageProblem {
    AdviseAsset.Evidence evidence = new AdviseAsset(door, analyzer, toolVersion).evidence(folder);
    Path beside = folder.resolve(AssetFolders.SETTINGS);
    Path chosen = settingsFile != null ? settingsFile : Files.isRegularFile(beside) ? beside : null;
    StarterSettings settings = evidence.present();
    String from = settings == null ? "" : "the last trial";
    if (chosen != null) {
      TrialReader reader = new TrialReader(door, analyzer, toolVersion, InputChoice.DEFAULT);
      TrialFile file = reader.trialFile(chosen);
      try {
        settings = MachineSheet.settings(file.settings(), evidence.asset().asset());
      } catch (IllegalArgumentException e) {
        throw new InputProblem(chosen + ": " + e.getMessage());
      }
      if (settings == null) {
        throw new UsageProblem(
            chosen
                + ": too little to look at; give control, current_limit_ratio, ramp_up_s, and"
                + " initial_torque_pct or initial_voltage_pct");
      }
      from = chosen.toString();
    }
    return Readiness.of(
        new Readiness.Question(
            evidence.asset(),
            AssetFit.fit(evidence.data(), evidence.trials()),
            evidence.trials().size(),
            settings,
            from,
            evidence.lineVoltages()));
  }
}
