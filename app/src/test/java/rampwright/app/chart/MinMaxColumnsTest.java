package rampwright.app.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.DoubleBuffer;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;

class MinMaxColumnsTest {

  /** Oracle: every sample asks for itself which column it is in. */
  private static double[][] bySearchingEachSample(
      double[] timeS, double[] values, Span window, int columns) {
    double[] min = new double[columns];
    double[] max = new double[columns];
    Arrays.fill(min, Double.NaN);
    Arrays.fill(max, Double.NaN);
    double width = window.lengthS() / columns;
    for (int i = 0; i < timeS.length; i++) {
      if (timeS[i] < window.fromS() || timeS[i] > window.toS() || !Double.isFinite(values[i])) {
        continue;
      }
      int k = columns - 1;
      while (k > 0 && timeS[i] < window.fromS() + k * width) {
        k--;
      }
      min[k] = Double.isNaN(min[k]) ? values[i] : Math.min(min[k], values[i]);
      max[k] = Double.isNaN(max[k]) ? values[i] : Math.max(max[k], values[i]);
    }
    return new double[][] {min, max};
  }

  private static double[] unevenTimes(Random random, int size) {
    double[] timeS = new double[size];
    double t = -3;
    for (int i = 0; i < size; i++) {
      t += random.nextInt(20) == 0 ? 0.4 : 1e-4 + 1e-3 * random.nextDouble();
      timeS[i] = t;
    }
    return timeS;
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void everyColumnHoldsTheExtremesOfItsSamplesAtUnevenTimes(long seed) {
    Random random = new Random(seed);
    int size = 1 + random.nextInt(4000);
    double[] timeS = unevenTimes(random, size);
    double[] values = new double[size];
    for (int i = 0; i < size; i++) {
      values[i] =
          switch (random.nextInt(30)) {
            case 0 -> Double.NaN;
            case 1 -> Double.POSITIVE_INFINITY;
            default -> random.nextGaussian();
          };
    }
    int columns = 1 + random.nextInt(700);
    Span window = new Span(timeS[0] - random.nextDouble(), timeS[size - 1] + 1e-9);

    MinMaxColumns reduced =
        MinMaxColumns.of(
            TimeBase.listed(Samples.of(timeS)), Samples.of(values), 0, window, columns);

    double[][] expected = bySearchingEachSample(timeS, values, window, columns);
    for (int k = 0; k < columns; k++) {
      assertThat(reduced.min(k))
          .as("seed %d column %d", seed, k)
          .isEqualTo(Double.valueOf(expected[0][k]));
      assertThat(reduced.max(k))
          .as("seed %d column %d", seed, k)
          .isEqualTo(Double.valueOf(expected[1][k]));
      assertThat(reduced.has(k)).isEqualTo(!Double.isNaN(expected[0][k]));
    }
  }

  @Test
  void oneSpikeAmongAMillionSamplesIsKeptExactly() {
    int size = 1_000_000;
    double[] values = new double[size];
    values[765_432] = 1234.5;
    values[765_433] = -987.6;
    MinMaxColumns reduced =
        MinMaxColumns.of(
            TimeBase.even(0, 1e-4, size),
            Samples.owning(DoubleBuffer.wrap(values)),
            0,
            new Span(0, 100),
            800);
    int column = (int) (76.5432 / 100 * 800);
    assertThat(reduced.max(column)).isEqualTo(1234.5);
    assertThat(reduced.min(column)).isEqualTo(-987.6);
    assertThat(reduced.minComesFirst(column)).isFalse();
    assertThat(Math.abs(reduced.middleS(column) - 76.5432)).isLessThanOrEqualTo(100.0 / 800 / 2);
  }

  @Test
  void everyLocalExtremeLiesWithinItsColumn() {
    int size = 30_000;
    double[] values = new double[size];
    for (int i = 0; i < size; i++) {
      values[i] = Math.sin(i * 0.7) * Math.cos(i * 0.0013) + 0.1 * Math.sin(i * 2.9);
    }
    TimeBase time = TimeBase.even(5, 1e-3, size);
    Span window = new Span(5, 35);
    MinMaxColumns reduced = MinMaxColumns.of(time, Samples.of(values), 0, window, 500);
    for (int i = 1; i < size - 1; i++) {
      int k = Math.min(499, (int) ((time.atS(i) - 5) / 30 * 500 + 1e-9));
      assertThat(values[i]).isBetween(reduced.min(k), reduced.max(k));
    }
  }

  @Test
  void firstAndLastOfAColumnAreItsFirstAndLastGoodSamples() {
    double[] values = {Double.NaN, 3, 1, 2, Double.NaN, 7, Double.NaN};
    MinMaxColumns reduced =
        MinMaxColumns.of(TimeBase.even(0, 1, 7), Samples.of(values), 0, new Span(0, 8), 2);
    assertThat(reduced.first(0)).isEqualTo(3);
    assertThat(reduced.last(0)).isEqualTo(2);
    assertThat(reduced.minComesFirst(0)).isFalse();
    assertThat(reduced.first(1)).isEqualTo(7);
    assertThat(reduced.last(1)).isEqualTo(7);
  }

  @Test
  void aColumnOfBadSamplesIsAGapAndAColumnWithoutSamplesIsNot() {
    double[] values = {1, Double.NaN, Double.NaN, 2};
    MinMaxColumns reduced =
        MinMaxColumns.of(
            TimeBase.listed(Samples.of(0, 1.1, 1.5, 3.5)),
            Samples.of(values),
            0,
            new Span(0, 4),
            4);
    assertThat(reduced.isGap(0)).isFalse();
    assertThat(reduced.isGap(1)).isTrue();
    assertThat(reduced.isGap(2)).isFalse();
    assertThat(reduced.has(2)).isFalse();
  }

  @Test
  void columnsAreInTheTimeOfTheWindow() {
    MinMaxColumns reduced =
        MinMaxColumns.of(
            TimeBase.even(100, 0.01, 1000), Samples.of(new double[1000]), 102, new Span(-1, 1), 4);
    assertThat(reduced.middleS(0)).isEqualTo(-0.75);
    assertThat(reduced.has(0)).isTrue();
  }

  @Test
  void noColumnsAreRefused() {
    assertThatThrownBy(
            () -> MinMaxColumns.of(TimeBase.even(0, 1, 1), Samples.of(1), 0, new Span(0, 1), 0))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("at least 1");
  }
}
