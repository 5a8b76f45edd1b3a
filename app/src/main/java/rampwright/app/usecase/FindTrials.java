package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.app.asset.AssetFolders;
import rampwright.app.asset.TrialFolder;

/**
 * From what a person names (traces, trial folders, asset folders, a folder of asset folders) to the
 * trials meant. What cannot be found becomes a trial with a problem, so that the others go on.
 */
final class FindTrials {
  private final InputChoice choice;
  private final boolean keepFigures;

  FindTrials(InputChoice choice, boolean keepFigures) {
    this.choice = choice;
    this.keepFigures = keepFigures;
  }

  List<TrialJob> in(List<Path> named) {
    List<TrialJob> jobs = new ArrayList<>();
    for (Path path : named) {
      try {
        if (Files.isDirectory(path)) {
          folder(path, jobs);
        } else if (Files.exists(path)) {
          jobs.add(loose(path));
        } else {
          jobs.add(
              TrialJob.broken(
                  path.toString(), path + ": there is no such file or folder; check the path"));
        }
      } catch (IOException e) {
        jobs.add(broken(path, InputProblem.of(e, path)));
      }
    }
    return jobs;
  }

  /** The trials of an asset folder, one beside the sheet too; none where it has none yet. */
  static List<TrialJob> ofAsset(Path folder) throws InputProblem {
    List<TrialJob> jobs = new ArrayList<>();
    try {
      new FindTrials(InputChoice.DEFAULT, false).trialsOf(folder, jobs);
    } catch (IOException e) {
      throw InputProblem.of(e, folder.resolve(AssetFolders.TRIALS));
    }
    return jobs;
  }

  /** Whether what was named stands for one trace. */
  static boolean isSingle(List<Path> named) {
    return named.size() == 1
        && (!Files.isDirectory(named.get(0))
            || (!AssetFolders.isAssetFolder(named.get(0))
                && !Files.isDirectory(named.get(0).resolve(AssetFolders.TRIALS))
                && hasTrial(named.get(0))));
  }

  private static boolean hasTrial(Path folder) {
    try {
      return AssetFolders.trial(folder).trace() != null;
    } catch (IOException e) {
      return false;
    }
  }

  private void folder(Path folder, List<TrialJob> jobs) throws IOException {
    if (AssetFolders.isAssetFolder(folder)) {
      assetFolder(folder, jobs);
      return;
    }
    TrialFolder trial = AssetFolders.trial(folder);
    if (trial.trace() != null || trial.settings() != null) {
      addGuarded(folder, AssetFolders.assetOf(folder), jobs);
      return;
    }
    List<Path> assets;
    try (Stream<Path> entries = Files.list(folder)) {
      assets = entries.filter(AssetFolders::isAssetFolder).sorted().toList();
    }
    for (Path asset : assets) {
      assetFolder(asset, jobs);
    }
    if (assets.isEmpty()) {
      jobs.add(
          TrialJob.broken(
              folder.toString(),
              folder
                  + ": is neither an asset folder (with asset.toml), nor a trial folder (with trace.csv"
                  + " or settings.toml), nor a folder of asset folders; name trace files one by one"));
    }
  }

  private void assetFolder(Path folder, List<TrialJob> jobs) throws IOException {
    int before = jobs.size();
    trialsOf(folder, jobs);
    if (jobs.size() == before) {
      jobs.add(
          TrialJob.broken(
              folder.toString(),
              folder + ": has no trials yet; put each into a folder of its own under trials"));
    }
  }

  private void trialsOf(Path folder, List<TrialJob> jobs) throws IOException {
    Path asset = folder.resolve(AssetFolders.ASSET);
    try {
      if (AssetFolders.trial(folder).trace() != null) {
        addGuarded(folder, asset, jobs);
      }
    } catch (IOException e) {
      // What lies beside the sheet is at fault; the trials in folders of their own go on.
      jobs.add(broken(folder, InputProblem.of(e, folder)));
    }
    Path trials = folder.resolve(AssetFolders.TRIALS);
    if (Files.isDirectory(trials)) {
      List<Path> folders;
      try (Stream<Path> entries = Files.list(trials)) {
        folders = entries.filter(Files::isDirectory).sorted().toList();
      }
      for (Path trial : folders) {
        addGuarded(trial, asset, jobs);
      }
    }
  }

  /**
   * One trial's folder; a fault of it is its own. A folder with nothing of a trial is passed over.
   */
  private void addGuarded(Path folder, @Nullable Path assetBeside, List<TrialJob> jobs) {
    try {
      TrialFolder trial = AssetFolders.trial(folder);
      Path trace = trial.trace();
      if (trace == null && trial.settings() == null) {
        return;
      }
      if (trace == null && Files.exists(folder.resolve(AssetFolders.JOURNAL))) {
        // Being recorded, or cut short: the next recording of the asset makes it whole.
        return;
      }
      Path shown = trace == null ? folder.resolve(AssetFolders.SETTINGS) : trace;
      jobs.add(
          new TrialJob(
              shown.toString(),
              trace,
              assetFor(shown, assetBeside),
              choice.settings() == null ? trial.settings() : choice.settings(),
              keepFigures && trace != null ? folder.resolve(AssetFolders.FIGURES) : null,
              null));
    } catch (IOException e) {
      jobs.add(broken(folder, InputProblem.of(e, folder)));
    }
  }

  /**
   * A trace named by itself. One that lies in a trial's folder under the name a trial's trace has
   * is that trial's; its figures are not kept, since nobody named the folder.
   */
  private TrialJob loose(Path file) {
    Path parent = file.toAbsolutePath().getParent();
    boolean ofTrial = String.valueOf(file.getFileName()).startsWith("trace.");
    Path settings = null;
    Path assetBeside = null;
    if (ofTrial && parent != null) {
      Path beside = parent.resolve(AssetFolders.SETTINGS);
      settings = Files.isRegularFile(beside) ? beside : null;
      assetBeside = AssetFolders.assetOf(parent);
    }
    return new TrialJob(
        file.toString(),
        file,
        assetFor(file, assetBeside),
        choice.settings() == null ? settings : choice.settings(),
        null,
        null);
  }

  private @Nullable Path assetFor(Path trace, @Nullable Path beside) {
    Path listed = choice.assetOfFile().get(trace.toAbsolutePath().normalize());
    Path chosen = listed != null ? listed : choice.asset() != null ? choice.asset() : beside;
    return chosen != null && Files.isDirectory(chosen)
        ? chosen.resolve(AssetFolders.ASSET)
        : chosen;
  }

  private static TrialJob broken(Path path, InputProblem problem) {
    return TrialJob.broken(path.toString(), String.valueOf(problem.getMessage()));
  }
}
