package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TraceFormatTest {
  private static final String CONFIG = "plant,recorder,1999\r\n2, 1A, 1D\r\n";
  private static final String TABLE = "time_s,i1_A\n0,1\n1,2\n";

  @TempDir Path folder;

  private TraceFormat of(String name, String content) throws Exception {
    Path file = folder.resolve(name);
    Files.writeString(file, content);
    return TraceFormat.of(file);
  }

  @Test
  void contentDecidesBeforeTheExtension() throws Exception {
    assertThat(of("a.txt", CONFIG)).isEqualTo(TraceFormat.COMTRADE);
    assertThat(of("a.csv", "--- file type: CFG ---\r\n" + CONFIG)).isEqualTo(TraceFormat.COMTRADE);
    assertThat(of("a.weird", TABLE)).isEqualTo(TraceFormat.CSV);
    assertThat(of("noextension", TABLE)).isEqualTo(TraceFormat.CSV);
  }

  @Test
  void extensionDecidesWhereContentShowsNothing() throws Exception {
    assertThat(of("a.csv", "")).isEqualTo(TraceFormat.CSV);
    assertThat(of("a.CFG", "")).isEqualTo(TraceFormat.COMTRADE);
    assertThat(of("a.cff", "odd")).isEqualTo(TraceFormat.COMTRADE);
    assertThat(of("a.csv.gz", "\u001f\u0001")).isEqualTo(TraceFormat.CSV);
  }

  @Test
  void dataFileIsComtradeBesideItsConfigurationOrWhenItIsNoText() throws Exception {
    assertThat(of("b.dat", TABLE)).isEqualTo(TraceFormat.CSV);
    assertThat(of("b.cfg", CONFIG)).isEqualTo(TraceFormat.COMTRADE);
    assertThat(of("b.dat", "1,0,1,0\n")).isEqualTo(TraceFormat.COMTRADE);
    assertThat(of("c.dat", "\u0001\u0000\u0000\u0000")).isEqualTo(TraceFormat.COMTRADE);
  }

  @Test
  void whatIsNoFileIsSaid() {
    assertThatThrownBy(() -> TraceFormat.of(folder))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("folder");
    assertThatThrownBy(() -> TraceFormat.of(folder.resolve("none.csv")))
        .isInstanceOf(TraceFileException.class)
        .hasMessageContaining("no such file");
  }

  @Test
  void oneDoorReadsComtrade() throws Exception {
    Path file = folder.resolve("r.cfg");
    Files.writeString(
        file,
        "plant,recorder,1999\n1,1A,0D\n1,IA,A,,A,0.5,0,0,-9,9,1,1,P\n50\n1\n1000,2\n,\n,\nASCII\n1\n");
    Files.writeString(folder.resolve("r.dat"), "1,0,2\n2,1000,4\n");
    assertThat(TraceFiles.read(file, ReadOptions.DEFAULT).size()).isEqualTo(2);
  }
}
