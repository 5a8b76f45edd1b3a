package rampwright.app.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.analysis.heat.HeatPiece;
import rampwright.analysis.heat.HeatStretch;

class HeatBookFileTest {
  @TempDir private Path folder;

  private static HeatBook book() {
    HeatStretch stretch =
        new HeatStretch(
            List.of(
                new HeatPiece(2, HeatPiece.State.REST, 0, 0),
                new HeatPiece(8.25, HeatPiece.State.SLIP, 12.25, 12.5),
                new HeatPiece(30, HeatPiece.State.RUN, 0.49, 0.49)),
            List.of(new HeatStretch.Start(1, 2, "completed", false)),
            true,
            0.49);
    return new HeatBook(
        Instant.parse("2026-03-14T09:30:00Z"),
        List.of(new HeatBook.Cold(Instant.parse("2026-03-14T06:00:00Z"), "A \"B\" C")),
        List.of(
            new HeatBook.Early(
                Instant.parse("2026-03-14T09:29:00Z"), "tide was turning", 120.0, "rotor")),
        List.of(
            new HeatBook.Entry(
                "20260314T091205Z",
                1234,
                Instant.parse("2026-03-14T09:13:00.123Z"),
                Instant.parse("2026-03-14T09:12:05Z"),
                "settings.toml",
                stretch)));
  }

  @Test
  void whatIsWrittenIsRead() throws Exception {
    HeatBookFile.write(folder, book());
    assertThat(HeatBookFile.read(folder)).isEqualTo(book());
    String text = Files.readString(folder.resolve("heat.toml"));
    assertThat(text).startsWith("# The heat account of this asset").contains("state = \"slip\"");
    assertThat(text).doesNotContain("\r");
  }

  @Test
  void tooManyTracesLeaveOutTheOldest() throws Exception {
    List<HeatPiece> pieces = new java.util.ArrayList<>();
    for (int k = 0; k < 400; k++) {
      pieces.add(new HeatPiece(0.25, HeatPiece.State.SLIP, 12 + 0.001 * k, 13 + 0.001 * k));
    }
    HeatStretch stretch = new HeatStretch(pieces, List.of(), false, 0);
    List<HeatBook.Entry> entries = new java.util.ArrayList<>();
    for (int k = 0; k < 60; k++) {
      Instant at = Instant.parse("2026-03-14T09:00:00Z").plusSeconds(600L * k);
      entries.add(new HeatBook.Entry("t" + k, 1, at, at, "trace", stretch));
    }
    HeatBookFile.write(folder, new HeatBook(null, List.of(), List.of(), entries));
    HeatBook read = HeatBookFile.read(folder);
    assertThat(read.traces()).isNotEmpty().hasSizeLessThan(60);
    assertThat(read.traces().get(read.traces().size() - 1).trial()).isEqualTo("t59");
  }

  @Test
  void aFolderWithoutAFileIsEmpty() throws Exception {
    assertThat(HeatBookFile.read(folder)).isEqualTo(HeatBook.EMPTY);
  }

  @Test
  void everyProblemIsNamedWithItsLine() throws Exception {
    Files.writeString(
        folder.resolve("heat.toml"),
        """
        [account]
        last_seen = "yesterday"
        colour = "red"
        [[cold]]
        at = 2026-03-14T06:00:00Z
        [[trace]]
        trial = "x"
        bytes = 1
        modified = 2026-03-14T06:00:00Z
        at = 2026-03-14T06:00:00Z
        dated_by = "trace"
        starts = [ { from = 3, to = 9, outcome = "completed", cut_off = false } ]
        pieces = [ { s = 5.0, state = "slipping", square = 2.0 } ]
        """);
    assertThatThrownBy(() -> HeatBookFile.read(folder))
        .isInstanceOf(TomlProblemsException.class)
        .hasMessageContaining("last_seen")
        .hasMessageContaining("colour")
        .hasMessageContaining("by is missing")
        .hasMessageContaining("slipping")
        .hasMessageContaining("of 1");
  }
}
