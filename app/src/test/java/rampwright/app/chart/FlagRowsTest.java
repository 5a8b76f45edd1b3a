package rampwright.app.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.app.chart.FlagRows.Flag;
import rampwright.app.chart.FlagRows.Place;

class FlagRowsTest {

  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
  void noWordCoversAnotherOrIsCrossedByALine(long seed) {
    Random random = new Random(seed);
    List<Flag> flags = new ArrayList<>();
    int count = 1 + random.nextInt(9);
    double cluster = 100 + 400 * random.nextDouble();
    for (int i = 0; i < count; i++) {
      double x =
          random.nextBoolean() ? cluster + 12 * random.nextDouble() : 600 * random.nextDouble();
      flags.add(new Flag(x, 30 + 50 * random.nextDouble()));
    }
    flags.sort(Comparator.comparingDouble(Flag::x));

    List<@Nullable Place> places = FlagRows.of(flags, -60, 660);

    assertThat(places).hasSameSizeAs(flags);
    for (int i = 0; i < flags.size(); i++) {
      for (int j = 0; j < flags.size(); j++) {
        Place a = places.get(i);
        Place b = places.get(j);
        if (i == j || a == null || b == null) {
          continue;
        }
        double from = a.toTheLeft() ? flags.get(i).x() - flags.get(i).width() : flags.get(i).x();
        double to = from + flags.get(i).width();
        double otherFrom =
            b.toTheLeft() ? flags.get(j).x() - flags.get(j).width() : flags.get(j).x();
        double otherTo = otherFrom + flags.get(j).width();
        if (a.row() == b.row()) {
          assertThat(from >= otherTo || otherFrom >= to).as("seed %d: words", seed).isTrue();
        } else if (a.row() < b.row()) {
          double line = flags.get(j).x();
          assertThat(line <= from + 0.5 || line >= to - 0.5).as("seed %d: line", seed).isTrue();
        }
      }
    }
  }

  @Test
  void nineOrdinaryInstantsAllGetAWord() {
    double[] x = {80, 81, 168, 171, 173, 176, 292, 431, 828};
    List<Flag> flags = new ArrayList<>();
    for (double at : x) {
      flags.add(new Flag(at, 68));
    }
    List<@Nullable Place> places = FlagRows.of(flags, 4, 900);
    assertThat(places).doesNotContainNull();
    assertThat(places.stream().mapToInt(Place::row).max().orElseThrow()).isLessThanOrEqualTo(2);
  }

  @Test
  void aCrowdLosesWordsRatherThanOverlapping() {
    List<Flag> flags = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      flags.add(new Flag(100 + 0.9 * i, 90));
    }
    List<@Nullable Place> places = FlagRows.of(flags, 0, 400);
    assertThat(places).hasSize(60).containsNull();
    assertThat(places.stream().filter(p -> p != null).count()).isPositive();
  }
}
