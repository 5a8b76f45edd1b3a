package rampwright.app.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.heat.HeatPiece;
import rampwright.app.advice.Advice;
import rampwright.app.asset.AssetFolders;
import rampwright.app.asset.MachineSheet;
import rampwright.app.result.HeatResult;
import rampwright.app.usecase.AdviseAsset;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** The heat account in one line, under what other commands say of an asset folder. */
final class HeatLine {
  private HeatLine() {}

  /** The line for what was named, where that is one asset folder or a trial in one. */
  static void print(Screen screen, Services services, List<Path> named) {
    line(screen, account(screen, services, named), "Heat account: ");
  }

  /** The line for a start that is advised. */
  static void print(Screen screen, Services services, Path folder, AdviseAsset.Advised advised) {
    line(screen, account(screen, services, folder, advised), "Heat of the advised trial: ");
  }

  /** The account of what was named; null where that is no asset, or it cannot be had. */
  static @Nullable HeatResult account(Screen screen, Services services, List<Path> named) {
    Path folder = named.size() == 1 ? assetFolder(named.get(0)) : null;
    return folder == null ? null : look(screen, services, folder, List.of());
  }

  /** The account with the start to come as an advice predicts it; null where it cannot be had. */
  static @Nullable HeatResult account(
      Screen screen, Services services, Path folder, AdviseAsset.Advised advised) {
    return look(screen, services, folder, expected(advised));
  }

  private static @Nullable HeatResult look(
      Screen screen, Services services, Path folder, List<HeatPiece> expected) {
    try {
      return services.keepHeat().look(folder, expected);
    } catch (InputProblem | UsageProblem e) {
      screen.say("heat account: " + e.getMessage());
      return null;
    }
  }

  private static void line(Screen screen, @Nullable HeatResult result, String head) {
    if (result != null) {
      screen.prose("", head + HeatText.line(result));
    }
    screen.flush();
  }

  private static @Nullable Path assetFolder(Path named) {
    if (!Files.isDirectory(named)) {
      return null;
    }
    if (AssetFolders.isAssetFolder(named)) {
      return named;
    }
    Path asset = AssetFolders.assetOf(named);
    return asset == null ? null : asset.getParent();
  }

  /** The predicted start at the hot end of its range; empty where the model gives none. */
  static List<HeatPiece> expected(AdviseAsset.Advised advised) {
    Advice advice = advised.advice();
    Advice.Range i2t = advice.predicted().get("i2t_ratio_s");
    Advice.Range time = advice.predicted().get("start_time_s");
    if (i2t == null || time == null || !(time.high() > 0) || !(i2t.high() >= 0)) {
      return List.of();
    }
    double square = i2t.high() / time.high();
    double unseen =
        MachineSheet.unseenShare(advised.asset().asset()).applyAsDouble(Math.sqrt(square));
    double windings = square * (1 + unseen);
    return List.of(new HeatPiece(time.high(), HeatPiece.State.SLIP, windings, windings));
  }
}
