package rampwright.app.usecase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.fixture.Workshop;

class AssetTableTest {
  @TempDir private Path folder;

  private Path table(String text) throws Exception {
    return Files.writeString(folder.resolve("table.csv"), text);
  }

  @Test
  void pathsAreTakenFromTheTablesFolder() throws Exception {
    Path pump = new Workshop(folder).asset("pump");
    Path table =
        table("\uFEFFAsset,note,File\npump,x,\"a, b.csv\"\npump/asset.toml,,sub/../c.csv\n");
    assertThat(AssetTable.read(table))
        .containsEntry(folder.resolve("a, b.csv"), pump)
        .containsEntry(folder.resolve("c.csv"), pump.resolve("asset.toml"))
        .hasSize(2);
  }

  @Test
  void semicolonsServeToo() throws Exception {
    new Workshop(folder).asset("pump");
    assertThat(AssetTable.read(table("file;asset\na, b.csv;pump\n")))
        .containsOnlyKeys(folder.resolve("a, b.csv"));
  }

  @Test
  void everyWrongLineIsNamed() throws Exception {
    new Workshop(folder).asset("pump");
    Path table = table("file,asset\na.csv,pmup\n,pump\nb.csv\nc.csv,pump\nc.csv,pump\n");
    assertThatThrownBy(() -> AssetTable.read(table))
        .isInstanceOf(InputProblem.class)
        .hasMessageContaining("line 2: pmup: there is no such asset")
        .hasMessageContaining("line 3: file or asset is missing")
        .hasMessageContaining("line 4: file or asset is missing")
        .hasMessageContaining("line 6: c.csv is listed twice");
  }

  @Test
  void aTableWithoutItsColumnsSaysWhichAreNeeded() throws Exception {
    Path table = table("trace,motor\na,b\n");
    assertThatThrownBy(() -> AssetTable.read(table))
        .hasMessageContaining("line 1: the header must name the columns file and asset");
  }

  @Test
  void aTableThatIsNotThereIsNamed() {
    Path nope = folder.resolve("nope.csv");
    assertThatThrownBy(() -> AssetTable.read(nope))
        .isInstanceOf(InputProblem.class)
        .hasMessageContaining("nope.csv")
        .hasMessageContaining("no such file");
  }

  @Test
  void binaryIsNoTable() throws Exception {
    byte[] bytes = new byte[4000];
    new Random(5).nextBytes(bytes);
    Path table = folder.resolve("table.csv");
    Files.write(table, bytes);
    assertThatThrownBy(() -> AssetTable.read(table)).isInstanceOf(InputProblem.class);
  }
}
