package rampwright.app.usecase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.fixture.Workshop;
import rampwright.app.ready.EnergisingFile;
import rampwright.app.ready.EnergisingList;

class TickListTest {
  private static final Instant NOW = Instant.parse("2026-03-14T09:00:00Z");

  @TempDir private Path folder;
  private final TickList ticks = new TickList(() -> NOW);
  private Path pump;

  @BeforeEach
  void lay() throws IOException {
    pump = new Workshop(folder).asset("pump");
  }

  @Test
  void aTickIsKeptWithNameTimeAndWords() throws Exception {
    ticks.tick(pump, 4, " A. Fitter ", "turned by hand", false);
    EnergisingList list = ticks.show(pump);
    EnergisingList.Tick tick = list.tick(4);
    assertThat(tick).isNotNull();
    assertThat(tick.by()).isEqualTo("A. Fitter");
    assertThat(tick.at()).isEqualTo(NOW);
    assertThat(tick.note()).isEqualTo("turned by hand");
    assertThat(tick.text()).isEqualTo(list.items().get(3).text());
    assertThat(list.open()).isEqualTo(list.items().size() - 1);
    assertThat(Files.readString(pump.resolve(EnergisingFile.NAME)))
        .contains("A. Fitter", "2026-03-14T09:00:00Z");
  }

  @Test
  void aTickTakenBackStaysOnRecord() throws Exception {
    ticks.tick(pump, 1, "A. Fitter", null, false);
    ticks.tick(pump, 1, "B. Warden", "second feeder found", true);
    EnergisingList list = ticks.show(pump);
    assertThat(list.tick(1)).isNull();
    assertThat(list.ticks()).hasSize(2);
    ticks.tick(pump, 1, "B. Warden", null, false);
    assertThat(ticks.show(pump).tick(1)).isNotNull();
  }

  @Test
  void whatCannotBeTickedIsSaid() {
    assertThatThrownBy(() -> ticks.tick(pump, 99, "A", null, false))
        .isInstanceOf(UsageProblem.class)
        .hasMessageContaining("1 to 20");
    assertThatThrownBy(() -> ticks.tick(pump, 1, " ", null, false))
        .isInstanceOf(UsageProblem.class)
        .hasMessageContaining("needs a name");
    assertThatThrownBy(() -> ticks.tick(pump, 1, "A", null, true))
        .isInstanceOf(UsageProblem.class)
        .hasMessageContaining("nothing to take back");
    assertThatThrownBy(() -> ticks.show(folder.resolve("none"))).isInstanceOf(UsageProblem.class);
  }

  @Test
  void whatIsWrittenCanBeReadAndForgesNothing() throws Exception {
    for (String name : new String[] {"Eve\u001b[2J", "A\nB", "\u202etset", "x".repeat(81)}) {
      assertThatThrownBy(() -> ticks.tick(pump, 1, name, null, false))
          .as(name)
          .isInstanceOf(UsageProblem.class);
    }
    assertThatThrownBy(() -> ticks.tick(pump, 1, "A", "y".repeat(501), false))
        .isInstanceOf(UsageProblem.class)
        .hasMessageContaining("at most 500");
    assertThat(pump.resolve(EnergisingFile.NAME)).doesNotExist();
    ticks.tick(pump, 1, "A", "fine\n 4 [x] mounting\u0007", false);
    assertThat(ticks.show(pump).tick(1).note()).isEqualTo("fine  4 [x] mounting");
    ticks.tick(pump, 2, "A", "\"quoted\" \\ and = [[tick]]", false);
    assertThat(ticks.show(pump).tick(2).note()).isEqualTo("\"quoted\" \\ and = [[tick]]");
  }

  /** Twenty people at once: nobody's tick is lost, and nobody reads half a file. */
  @Test
  void manyTickAtOnce() throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(20);
    List<Future<?>> all = new ArrayList<>();
    for (int k = 1; k <= 20; k++) {
      int number = k;
      all.add(
          pool.submit(
              () -> {
                ticks.tick(pump, number, "P" + number, null, false);
                return null;
              }));
      all.add(pool.submit(() -> ticks.show(pump)));
    }
    for (Future<?> one : all) {
      one.get();
    }
    pool.shutdown();
    assertThat(ticks.show(pump).open()).isZero();
    assertThat(ticks.show(pump).ticks()).hasSize(20);
  }

  @Test
  void whatAPowerCutLeftLyingDoesNoHarm() throws Exception {
    ticks.tick(pump, 1, "A", null, false);
    Files.writeString(pump.resolve("." + EnergisingFile.NAME + ".1-1.part"), "[[tick]]\nche");
    ticks.tick(pump, 2, "A", null, false);
    assertThat(ticks.show(pump).ticks()).hasSize(2);
  }

  @Test
  void aBrokenFileIsSaidWithItsPlace() throws Exception {
    Files.writeString(pump.resolve(EnergisingFile.NAME), "[[tick]]\ncheck = 1\n");
    assertThatThrownBy(() -> ticks.show(pump))
        .isInstanceOf(InputProblem.class)
        .hasMessageContaining("before-energising.toml")
        .hasMessageContaining("by is missing");
  }

  /** Every subject of the trade that the list promises is on it. */
  @Test
  void theListCoversWhatItPromises() {
    for (String about :
        new String[] {
          "mounting",
          "control wiring",
          "power wiring",
          "short-circuit protection",
          "earthing",
          "rotation",
          "covers",
          "isolation",
          "people"
        }) {
      assertThat(EnergisingList.EMPTY.items()).anyMatch(item -> item.about().equals(about));
    }
    assertThat(String.join(" ", EnergisingList.CAUTIONS))
        .contains("local codes", "licensed practice", "does not isolate");
  }
}
