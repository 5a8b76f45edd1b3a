package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.trace.ChannelName;

/**
 * What a meter shows while no current flows, and above what a current counts as flowing.
 *
 * <p>Formula: {@code max(0.05 In, 6 x noise)} above the level at rest; without In 5 % of the
 * record's largest, and nothing where the readings are noise throughout. The noise is the spread of
 * the readings at rest about their level: a level that stands is an offset, and a current of its
 * size would be seen beside it.
 *
 * @param levelA highest phase at rest, median
 * @param thresholdA above it current flows
 * @param offsets the channels whose level at rest matters, with that level, A
 */
record RestLevel(double levelA, double thresholdA, List<Offset> offsets) {
  private static final double SHARE_OF_RATED = 0.05;
  private static final double SHARE_OF_LARGEST = 0.05;
  private static final double TIMES_NOISE = 6;
  // No motor runs on less of its rated current; a meter's zero is not off by more.
  private static final double MOST_REST_OF_RATED = 0.1;
  private static final double OFFSET_OF_RATED = 0.02;
  private static final double OFFSET_OF_LARGEST = 0.01;
  private static final double ABOVE_ALL = 1.01;
  // The largest of some hundred normal magnitudes is about 3.5 of their spread, which second
  // differences of magnitudes show at 0.6.
  private static final double NOISE_TO_TOP = 8;
  private static final double LOW_SHARE = 0.15;
  private static final int LEAST = 3;

  /** A channel that does not show 0 at rest. */
  record Offset(ChannelName name, double levelA) {}

  static RestLevel of(
      List<ChannelName> phases,
      double[][] current,
      double[][] raw,
      double[] high,
      @Nullable Double ratedA) {
    double largest = Noise.largest(high, 0, high.length);
    if (!(largest > 0)) {
      largest = 0;
    }
    double rated = ratedA != null ? ratedA : 0;
    if (!(rated > 0) && isNoise(raw)) {
      return new RestLevel(Noise.median(high, 0, high.length), ABOVE_ALL * largest, List.of());
    }
    double base = rated > 0 ? SHARE_OF_RATED * rated : SHARE_OF_LARGEST * largest;
    double most = rated > 0 ? MOST_REST_OF_RATED * rated : base;
    boolean[] quiet = new boolean[high.length];
    double[] atRest = new double[high.length];
    int n = 0;
    for (int k = 0; k < high.length; k++) {
      if (high[k] < most) {
        quiet[k] = true;
        atRest[n++] = high[k];
      }
    }
    if (n < LEAST) {
      return new RestLevel(0, base, List.of());
    }
    double level = Noise.median(atRest, 0, n);
    // A current that creeps up through the rest's range is no noise: the spread is a median.
    double noise = Noise.spread(atRest, 0, n);
    double offset = rated > 0 ? OFFSET_OF_RATED * rated : OFFSET_OF_LARGEST * largest;
    List<Offset> offsets = new ArrayList<>();
    for (int p = 0; p < current.length; p++) {
      int m = 0;
      for (int k = 0; k < high.length; k++) {
        if (quiet[k] && !Double.isNaN(current[p][k])) {
          atRest[m++] = current[p][k];
        }
      }
      double own = m < LEAST ? 0 : Noise.median(atRest, 0, m);
      if (own > offset) {
        offsets.add(new Offset(phases.get(p), own));
      }
    }
    double above = Math.max(base, TIMES_NOISE * noise);
    // Well below the allowance the level is the meter's resolution and noise.
    double threshold = level > 0.5 * base ? level + above : above;
    return new RestLevel(level, threshold, List.copyOf(offsets));
  }

  /**
   * Whether readings scatter about as far as they go, down to nothing: a meter on no current. A
   * machine's current that swings as much does not fall to nothing between two readings.
   */
  private static boolean isNoise(double[][] raw) {
    for (double[] one : raw) {
      double[] sorted = one.clone();
      Arrays.sort(sorted);
      int n = sorted.length;
      while (n > 0 && Double.isNaN(sorted[n - 1])) {
        n--;
      }
      double top = n == 0 ? 0 : sorted[n - 1];
      boolean scatters = NOISE_TO_TOP * Noise.sigma(one, 0, one.length) > top;
      if (n > 0 && top > 0 && !(scatters && sorted[n / 10] < LOW_SHARE * top)) {
        return false;
      }
    }
    return true;
  }

  /** Largest offset, A; 0 where none matters. */
  double offsetA() {
    double most = 0;
    for (Offset offset : offsets) {
      most = Math.max(most, offset.levelA());
    }
    return most;
  }

  /**
   * What an offset may add to a reading, A: next to nothing (RMS of both) or all of it (a
   * transducer's zero), either as likely; this is the RMS of the two.
   */
  double uncertaintyA() {
    return offsetA() / Math.sqrt(2);
  }

  /** "; ..." for a figure's rule; empty where no offset matters. */
  String said() {
    return offsets.isEmpty()
        ? ""
        : Findings.text("; the meter shows %.3g A at rest, not taken off", offsetA());
  }

  List<Finding> findings(double fromS, double toS) {
    List<Finding> found = new ArrayList<>();
    for (Offset offset : offsets) {
      found.add(
          new Finding(
              "offset",
              fromS,
              toS,
              offset.levelA(),
              Findings.text(
                  "%s shows %.4g A while no current flows: the meter's zero or noise; figures of"
                      + " current may be too high by up to that",
                  offset.name().key(), offset.levelA())));
    }
    return found;
  }
}
