package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BundledSamplesTest {
  @TempDir private Path folder;

  @Test
  void assetFoldersAreCopiedWholeAndNothingElse() throws Exception {
    assertThat(new BundledSamples("/two-samples").copyInto(folder)).isEqualTo(2);
    assertThat(folder.resolve("pump/asset.toml")).content().contains("\"P\"");
    assertThat(folder.resolve("pump/trials/one/trace.csv")).exists();
    assertThat(folder.resolve("fan/asset.toml")).exists();
    assertThat(folder.resolve("README.md")).doesNotExist();
  }

  @Test
  void copyingTwiceIsAllowed() throws Exception {
    new BundledSamples("/two-samples").copyInto(folder);
    assertThat(new BundledSamples("/two-samples").copyInto(folder)).isEqualTo(2);
  }

  @Test
  void withoutSamplesThereAreNone() throws Exception {
    assertThat(new BundledSamples("/no-samples").copyInto(folder)).isZero();
  }
}
