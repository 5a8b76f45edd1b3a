package rampwright.app.usecase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
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
