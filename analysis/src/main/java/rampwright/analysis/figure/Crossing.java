package rampwright.analysis.figure;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.Noise;

/**
 * When a noisy speed lastingly passes a level: the readings that follow stay beyond it but for
 * noise.
 *
 * <p>The first noisy value beyond the level comes early when the speed changes slowly. So a line is
 * laid through the readings within six times the noise on either side of the level, and the
 * crossing is where that line meets it.
 *
 * @param atS the instant, s
 * @param uncertaintyS its standard uncertainty, s
 */
record Crossing(double atS, double uncertaintyS) {
  private static final double REACH_TIMES_NOISE = 6;
  private static final int MOST_EACH_SIDE = 60;
  private static final int LASTING = 3;

  /**
   * First crossing of {@code level} in [fromS, untilS].
   *
   * @param rising true for an upward crossing
   * @return null when the speed does not cross it there
   */
  static @Nullable Crossing first(
      SpeedTrack speed, double level, boolean rising, double fromS, double untilS) {
    double sign = rising ? 1 : -1;
    int from = speed.firstAtOrAfter(fromS);
    int to = Math.min(speed.size(), speed.firstAtOrAfter(untilS + 1e-9));
    int k = from;
    while (k < to && !lasts(speed, sign, level, k)) {
      k++;
    }
    if (k >= to || k == from) {
      return null;
    }
    double reach = Math.max(REACH_TIMES_NOISE * speed.noiseRpm(), 2 * speed.resolutionRpm());
    int a = k;
    while (a > from && a > k - MOST_EACH_SIDE && sign * (level - speed.rpm()[a - 1]) < reach) {
      a--;
    }
    int b = k;
    while (b + 1 < to && b < k + MOST_EACH_SIDE && sign * (speed.rpm()[b + 1] - level) < reach) {
      b++;
    }
    if (b - a < 2) {
      a = Math.max(from, k - 1);
      b = k;
    }
    Line line = Line.through(speed.timeS(), speed.rpm(), a, b + 1);
    double atS = line.reachesS(level);
    double slope = sign * line.slope();
    if (!(slope > 0) || atS < speed.timeS()[a] || atS > speed.timeS()[b]) {
      double before = speed.rpm()[k - 1];
      double share = (level - before) / (speed.rpm()[k] - before);
      atS = speed.timeS()[k - 1] + share * (speed.timeS()[k] - speed.timeS()[k - 1]);
      slope = Math.max(Math.abs(speed.rpm()[k] - before) / speed.intervalS(), 1e-9);
    }
    int points = b - a + 1;
    double noiseRpm =
        Math.hypot(
            Math.max(speed.noiseRpm(), line.scatter()) * 1.5 / Math.sqrt(points),
            Accuracy.ofWidth(speed.resolutionRpm()));
    double u = Math.hypot(Accuracy.ofWidth(speed.intervalS()), noiseRpm / slope);
    return new Crossing(atS, u);
  }

  /** Whether the speed is beyond the level at {@code k} and at most of the next two. */
  private static boolean lasts(SpeedTrack speed, double sign, double level, int k) {
    if (sign * (speed.rpm()[k] - level) < 0) {
      return false;
    }
    int end = Math.min(speed.size(), k + LASTING);
    return sign * (Noise.median(speed.rpm(), k, end) - level) >= 0;
  }
}
