package rampwright.app.asset;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import rampwright.app.fixture.SharedData;

/** The practice assets and settings, written by somebody else, are read without a problem. */
class PracticeFilesTest {
  private static List<Path> named(String name) throws Exception {
    try (Stream<Path> files = Files.walk(SharedData.folder("practice"))) {
      return files.filter(file -> file.endsWith(name)).toList();
    }
  }

  @Test
  void everyPracticeAssetIsRead() throws Exception {
    List<Path> files = named("asset.toml");
    assertThat(files).hasSizeGreaterThan(10);
    for (Path file : files) {
      AssetFile read = AssetFiles.read(file);
      assertThat(read.warnings()).as("%s", file).isEmpty();
      assertThat(AssetFiles.parse(file, AssetText.of(read.asset())).asset())
          .as("%s written and read again", file)
          .isEqualTo(read.asset());
    }
  }

  @Test
  void everyPracticeSettingsFileIsRead() throws Exception {
    List<Path> files = named("settings.toml");
    assertThat(files).hasSizeGreaterThan(30);
    for (Path file : files) {
      TrialFile read = TrialFiles.read(file);
      assertThat(read.settings().values()).as("%s", file).hasSize(8);
      assertThat(TrialFiles.parse("again", TrialText.of(read))).isEqualTo(read);
    }
  }
}
