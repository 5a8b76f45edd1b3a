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
  void clocksAndPeoplesWordsAreKept() throws Exception {
    Instant nine = Instant.parse("2026-03-14T09:00:00Z");
    HeatBook plain = book();
    HeatBook full =
        new HeatBook(
            nine,
            new HeatBook.UpTime("1b4e28ba", 350_735.47),
            new HeatBook.Opened(nine.minusSeconds(900), 1),
            List.of(
                new HeatBook.ClockStep(nine, 3600.5, true, null),
                new HeatBook.ClockStep(nine, 50_000, false, "A. Fitter")),
            List.of(new HeatBook.Cold(nine, "A", 1)),
            List.of(
                new HeatBook.Noted(nine, "B", true, 9.5, 3.5, nine.plusSeconds(60), 2),
                new HeatBook.Noted(nine, "C", false, null, null, null, 0)),
            plain.early(),
            plain.traces().stream().map(one -> one.keptAt(1)).toList());
    HeatBookFile.write(folder, full);
    assertThat(HeatBookFile.read(folder)).isEqualTo(full);
    // Told before both steps: moved by the first, the second is said to be none.
    assertThat(full.onClockOfNow(nine, 0)).isEqualTo(nine.plusMillis(3_600_500));
    assertThat(full.onClockOfNow(nine, 1)).isEqualTo(nine);
  }

  /** A step that moves nothing any more goes; what was told before it is moved for good. */
  @Test
  void stepsThatMoveNothingAreFolded() {
    Instant nine = Instant.parse("2026-03-14T09:00:00Z");
    HeatBook.ClockStep hour = new HeatBook.ClockStep(nine, 3600, true, null);
    HeatBook book =
        new HeatBook(
            nine,
            null,
            new HeatBook.Opened(nine, 0),
            List.of(hour, hour),
            List.of(new HeatBook.Cold(nine, "A", 0), new HeatBook.Cold(nine, "B", 2)),
            List.of(new HeatBook.Noted(nine, "B", true, 9.5, null, null, 1)),
            List.of(),
            List.of());
    HeatBook after = book.seen(nine, null);
    assertThat(after.steps()).hasSize(1);
    assertThat(after.cold())
        .containsExactly(
            new HeatBook.Cold(nine.plusSeconds(3600), "A", 0), new HeatBook.Cold(nine, "B", 1));
    assertThat(after.noted().get(0).clock()).isZero();
    for (int k = 0; k < 2; k++) {
      assertThat(after.onClockOfNow(after.cold().get(k).at(), after.cold().get(k).clock()))
          .isEqualTo(book.onClockOfNow(book.cold().get(k).at(), book.cold().get(k).clock()));
    }
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
