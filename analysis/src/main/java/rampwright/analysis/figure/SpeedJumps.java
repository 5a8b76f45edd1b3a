package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;

/**
 * Speeds that stand alone: no shaft jumps there and back from one reading to the next.
 *
 * <p>A tachometer whose readings jump about as a rule is noisy, not broken: a jump must stand out
 * among those about it, must lie beyond where lines through its neighbours lead, and must not be
 * the apex of a speed where current is cut.
 */
final class SpeedJumps {
  private static final double JUMP_TIMES_NOISE = 10;
  private static final double JUMP_TIMES_STEP = 6;
  private static final double JUMP_SHARE = 0.03;
  private static final double JUMP_BETWEEN = 0.3;
  private static final int JUMPS_ABOUT = 50;
  private static final double JUMP_TIMES_USUAL = 4;
  private static final double FLOWING_SHARE = 0.1;

  private SpeedJumps() {}

  /**
   * Indices of the speeds that stand alone.
   *
   * @param all speeds as read, rpm; NaN where none was
   * @param top the largest that lasts
   * @param trace the record, for where its currents flow
   */
  static List<Integer> in(double[] all, double top, Trace trace) {
    double least =
        Math.max(
            JUMP_TIMES_NOISE * Noise.sigma(all, 0, all.length),
            Math.max(JUMP_TIMES_STEP * Noise.resolution(all, 0, all.length), JUMP_SHARE * top));
    double[] about = new double[2 * JUMPS_ABOUT];
    List<Integer> alone = new ArrayList<>();
    for (int i = 1; i + 1 < all.length; i++) {
      double off = jump(all, i);
      if (!(off > least) || !(Math.abs(all[i + 1] - all[i - 1]) < JUMP_BETWEEN * off)) {
        continue;
      }
      int n = 0;
      for (int k = i - JUMPS_ABOUT; k <= i + JUMPS_ABOUT; k++) {
        // The neighbours of a lone value are off by half of it.
        if (k >= 1 && k + 1 < all.length && Math.abs(k - i) > 1) {
          double one = jump(all, k);
          if (!Double.isNaN(one)) {
            about[n++] = one;
          }
        }
      }
      boolean stands = !(off < JUMP_TIMES_USUAL * upperFifth(about, n));
      // Where current is cut the speed has its apex, sharp at few readings a second.
      boolean atCut = flows(trace, i - 1, i) && !flows(trace, i + 1, i + 2);
      if (stands && !atCut && !isApex(all, i)) {
        alone.add(i);
      }
    }
    return alone;
  }

  /** Whether a speed lies no further out than lines through those before or after it lead. */
  private static boolean isApex(double[] all, int i) {
    if (i < 2 || i + 2 >= all.length) {
      return false;
    }
    double side = Math.signum(all[i] - 0.5 * (all[i - 1] + all[i + 1]));
    double fromBefore = 2 * all[i - 1] - all[i - 2];
    double fromAfter = 2 * all[i + 1] - all[i + 2];
    return side * (all[i] - fromBefore) < 0 && side * (all[i] - fromAfter) < 0;
  }

  private static double jump(double[] all, int i) {
    return Math.abs(all[i] - 0.5 * (all[i - 1] + all[i + 1]));
  }

  private static double upperFifth(double[] values, int n) {
    Arrays.sort(values, 0, n);
    return n == 0 ? 0 : values[4 * (n - 1) / 5];
  }

  /** Whether a current flows at all of some samples, by its channel's largest. */
  private static boolean flows(Trace trace, int from, int to) {
    for (ChannelName phase : trace.present(ChannelName.CURRENTS)) {
      Samples current = trace.channel(phase);
      if (current == null || from < 0 || to >= current.size()) {
        continue;
      }
      double largest = 0;
      for (int k = 0; k < current.size(); k++) {
        largest = Math.max(largest, Math.abs(current.at(k)));
      }
      boolean all = true;
      for (int k = from; k <= to; k++) {
        all &= Math.abs(current.at(k)) > FLOWING_SHARE * largest;
      }
      if (all) {
        return true;
      }
    }
    return false;
  }
}
