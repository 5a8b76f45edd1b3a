package rampwright.analysis.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.figure.Practice;

/** NEMA MG 10, table 2-3, and the formulas beside it. */
class StartsTableReferenceTest {
  /**
   * The publication's own example: 25 hp, 4 poles, Wk2 50 lb ft2: 122 / 50 = 2.44 an hour, 58 s.
   */
  @Test
  void publishedExample() {
    StartsTable.Row row = StartsTable.row(25, 2);
    assertThat(row.mostPerHour()).isEqualTo(8.8);
    assertThat(row.perHour(50)).isCloseTo(2.44, within(1e-12));
    assertThat(row.restS()).isEqualTo(58);
    StartRules rules =
        StartRules.of(
            null, 25 * StartsTable.WATTS_PER_HP, 2, 50 * StartsTable.KGM2_PER_LBFT2, 0.1, true);
    assertThat(rules.perHour()).isCloseTo(2.44, within(1e-9));
    assertThat(rules.restS()).isEqualTo(58);
    assertThat(rules.source()).contains("NEMA MG 10");
  }

  /**
   * NEMA MG 1, 12.54 (from memory) gives 58 of the 60 entries B to the digits printed and the two
   * others to one unit of them: the table was typed right.
   */
  @Test
  void theFormulaGivesTheTable() {
    double[] ratings = {
      1, 1.5, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100, 125, 150, 200, 250
    };
    int exact = 0;
    for (double hp : ratings) {
      for (int pairs = 1; pairs <= 3; pairs++) {
        double printed = StartsTable.row(hp, pairs).mostInertiaLbFt2PerHour();
        double computed = StartsTable.permissibleInertiaLbFt2(hp, 3600.0 / pairs);
        double unit = printed < 10 ? 0.1 : 1;
        assertThat(computed).as(hp + " hp, " + pairs).isCloseTo(printed, within(unit));
        exact += Math.abs(Math.rint(computed / unit) - Math.rint(printed / unit)) < 0.5 ? 1 : 0;
      }
    }
    assertThat(exact).isGreaterThanOrEqualTo(58);
  }

  /** Every entry against a copy of the table that lies beside the checkout, where it is there. */
  @Test
  void everyEntryIsThePublishedOne() throws IOException {
    Optional<Path> folder = Practice.reference();
    assumeTrue(folder.isPresent(), "no reference tables beside this checkout");
    List<String> lines = Files.readAllLines(folder.get().resolve("nema_mg10_starts.csv"));
    int entries = 0;
    for (String line : lines.subList(1, lines.size())) {
      String[] cells = line.split(",", -1);
      for (int pairs = 1; pairs <= 3; pairs++) {
        int at = 1 + 3 * (pairs - 1);
        StartsTable.Row printed =
            new StartsTable.Row(
                Double.parseDouble(cells[at]),
                Double.parseDouble(cells[at + 1]),
                Double.parseDouble(cells[at + 2]));
        assertThat(StartsTable.row(Double.parseDouble(cells[0]), pairs)).isEqualTo(printed);
        entries += 3;
      }
    }
    assertThat(entries).isEqualTo(180);
  }

  /** Between two ratings the stricter side of each; above the table nothing. */
  @Test
  void betweenAndBeyond() {
    StartsTable.Row row = StartsTable.row(22, 2);
    assertThat(row).isEqualTo(new StartsTable.Row(8.8, 99, 58));
    assertThat(StartsTable.row(300, 2)).isNull();
    assertThat(StartsTable.row(0.5, 1)).isEqualTo(new StartsTable.Row(15, 0.6, 75));
    assertThat(StartsTable.row(50, 5)).as("ten poles as six").isEqualTo(StartsTable.row(50, 3));
  }

  /** IEC 60034-12, design N: J = 0.04 P^0.9 p^2.5 (from memory); three figures as printed there. */
  @ParameterizedTest
  @CsvSource({
    "4, 1, 0.139",
    "4, 2, 0.788",
    "4, 3, 2.17",
    "4, 4, 4.46",
    "40, 1, 1.11",
    "40, 2, 6.26",
    "100, 3, 39.3",
    "160, 4, 123",
    "630, 1, 13.2",
    "630, 4, 423"
  })
  void designNInertia(double kW, int pairs, double printed) {
    double digits = printed >= 100 ? 0.5 : printed >= 10 ? 0.05 : printed >= 1 ? 0.005 : 0.0005;
    assertThat(StartsTable.designNInertiaKgM2(kW, pairs)).isCloseTo(printed, within(digits));
  }

  @Test
  void theMakersWordGoesBeforeTheTable() {
    StartRules rules = StartRules.of(6.0, 90e3, 2, null, 1, true);
    assertThat(rules.perHour()).isEqualTo(6);
    assertThat(rules.source()).isEqualTo("nameplate starts_per_hour");
  }

  @Test
  void doubtsAreSaid() {
    assertThat(StartRules.of(null, 5e3, 2, null, 0.02, false).doubts())
        .contains("load inertia not given")
        .contains("square of speed");
    assertThat(StartRules.of(null, 400e3, 2, 3.0, 6, true).source()).contains("no source");
  }

  /** A load nobody knows is a heavy one: 9 x 0.13 kg m2 = 27.8 lb ft2, 122 / 27.8 = 4.39. */
  @Test
  void aLoadNotKnownIsHeavy() {
    StartRules rules = StartRules.of(null, 25 * StartsTable.WATTS_PER_HP, 2, null, 0.13, true);
    assertThat(rules.perHour())
        .isCloseTo(122 / (9 * 0.13 / StartsTable.KGM2_PER_LBFT2), within(1e-9));
    assertThat(rules.perHour()).isBetween(4.38, 4.40);
  }

  @Test
  void anHourHoldsSoManyStarts() {
    StartRules three = new StartRules(3.7, 0, "x", "");
    assertThat(three.waitS(List.of(0.0, 600.0), 700)).isZero();
    assertThat(three.waitS(List.of(0.0, 600.0, 1200.0), 1300))
        .as("the first leaves the hour at 3600 s")
        .isEqualTo(2300);
    assertThat(new StartRules(0.5, 0, "x", "").waitS(List.of(100.0), 200)).isEqualTo(7100);
  }
}
