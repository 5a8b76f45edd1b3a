package rampwright.analysis.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.DoubleBuffer;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;

/** The quick way over even samples gives what the general way gives. */
class EvenWindowTest {
  /** Additions in another order, up to some thousand of them. */
  private static final double ROUNDING = 1e-12;

  private static final int SIZE = 4000;
  private static final double STEP_S = 1e-4;
  private static final double START_S = 0.3;

  private final SplittableRandom random = new SplittableRandom(20260314);
  private final TimeBase even = TimeBase.even(START_S, STEP_S, SIZE);
  private final double[] values = random.doubles(SIZE, -100, 100).toArray();

  /** The same instants one by one, which only the general way reads. */
  private TimeBase listed() {
    double[] timesS = new double[SIZE];
    for (int i = 0; i < SIZE; i++) {
      timesS[i] = even.atS(i);
    }
    return TimeBase.listed(Samples.owning(timesS));
  }

  private void assertSame(Samples samples, double fromS, double toS) {
    assertSame(
        WindowIntegral.square(even, samples, fromS, toS),
        WindowIntegral.square(listed(), samples, fromS, toS));
    assertSame(
        WindowIntegral.value(even, samples, fromS, toS),
        WindowIntegral.value(listed(), samples, fromS, toS));
  }

  private static void assertSame(double quick, double general) {
    if (Double.isNaN(general)) {
      // Not enough of the window was seen.
      assertThat(quick).isNaN();
    } else {
      assertThat(quick).isCloseTo(general, within(ROUNDING * (1 + Math.abs(general))));
    }
  }

  @Test
  void windowsAnywhere() {
    Samples array = Samples.of(values);
    Samples buffer = Samples.owning(DoubleBuffer.wrap(values.clone()));
    for (int i = 0; i < 500; i++) {
      double fromS = START_S + random.nextDouble(-0.01, 0.4);
      double toS = fromS + random.nextDouble(1e-6, 0.3);
      assertSame(array, fromS, Math.min(toS, START_S + SIZE * STEP_S));
      assertSame(buffer, fromS, Math.min(toS, START_S + SIZE * STEP_S));
    }
  }

  @Test
  void windowsThatEndOnSamples() {
    Samples array = Samples.of(values);
    for (int i = 0; i < 200; i++) {
      int first = random.nextInt(SIZE - 300);
      assertSame(array, even.atS(first), even.atS(first + 1 + random.nextInt(298)));
    }
  }

  @Test
  void missingSamplesGoTheGeneralWay() {
    double[] holed = values.clone();
    for (int i = 0; i < 40; i++) {
      holed[random.nextInt(SIZE)] = Double.NaN;
    }
    Samples array = Samples.of(holed);
    for (int i = 0; i < 200; i++) {
      double fromS = START_S + random.nextDouble(0, 0.35);
      assertSame(array, fromS, fromS + random.nextDouble(0.001, 0.04));
    }
  }
}
