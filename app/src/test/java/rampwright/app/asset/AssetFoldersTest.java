package rampwright.app.asset;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class AssetFoldersTest {
  @TempDir private Path folder;

  @Test
  void aTrialFolderHoldsItsTraceAndSettings() throws Exception {
    Path trial = Files.createDirectories(folder.resolve("pump/trials/20260314T091205Z"));
    Path trace = Files.createFile(trial.resolve("trace.csv.gz"));
    Path settings = Files.createFile(trial.resolve("settings.toml"));
    Files.createFile(trial.resolve("notes.csv"));
    Files.createFile(trial.resolve("trace.png"));
    assertThat(AssetFolders.trial(trial))
        .isEqualTo(new TrialFolder(trial, "20260314T091205Z", trace, settings));
  }

  @Test
  void twoTracesInOneTrialAreRefusedByName() throws Exception {
    Files.createFile(folder.resolve("trace.csv"));
    Files.createFile(folder.resolve("trace.cfg"));
    assertThatThrownBy(() -> AssetFolders.trial(folder))
        .hasMessageContaining("trace.cfg, trace.csv");
  }

  @Test
  void theAssetIsFoundBesideOrAboveTrials() throws Exception {
    Path pump = Files.createDirectories(folder.resolve("pump"));
    Path asset = Files.createFile(pump.resolve("asset.toml"));
    Path trial = Files.createDirectories(pump.resolve("trials/one"));
    Path elsewhere = Files.createDirectories(pump.resolve("old/one"));
    assertThat(AssetFolders.assetOf(trial)).isEqualTo(asset);
    assertThat(AssetFolders.assetOf(pump)).isEqualTo(asset);
    assertThat(AssetFolders.assetOf(elsewhere)).isNull();
  }
}
