package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.List;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.Noise;

/** Whether the current limit acted for most of the ramp, or never. */
final class LimitFindings {
  // A starter holds its limit to a few percent of what is set.
  private static final double HELD = 0.06;
  private static final double SETTLE_S = 0.3;

  private LimitFindings() {}

  static List<Finding> of(
      Readings r, Segment segment, StartRecord start, CurrentLimit limit, Thresholds thresholds) {
    List<Finding> found = new ArrayList<>();
    Flow flow = segment.flow();
    Measured full = start.instants().get("full_speed_s");
    Double fullS = full == null ? null : full.value();
    double endS = fullS != null ? fullS : flow.toS();
    double fromS = flow.fromS() + SETTLE_S;
    double toS = Math.min(endS, flow.fromS() + Math.max(limit.rampUpS(), 2 * SETTLE_S));
    double[] share = heldShare(r, fromS, endS, toS, limit.limitA());
    if (share.length == 0) {
      return found;
    }
    if (share[0] > thresholds.limitThroughoutShare()) {
      found.add(
          new Finding(
              "limit-throughout",
              flow.fromS(),
              toS,
              100 * share[0],
              Findings.text(
                  "the current stood at its limit of %.4g A for %.0f %% of the ramp: the ramp had no say",
                  limit.limitA(), 100 * share[0])));
    } else if (share[1] == 0) {
      found.add(
          new Finding(
              "limit-idle",
              flow.fromS(),
              endS,
              share[2],
              Findings.text(
                  "the current reached %.4g A at most, its limit of %.4g A never acted",
                  share[2], limit.limitA())));
    }
    return found;
  }

  /** Share at the limit within the ramp, share within the start, largest current. */
  private static double[] heldShare(
      Readings r, double fromS, double endS, double rampEndS, double limitA) {
    int held = 0;
    int inRamp = 0;
    int anywhere = 0;
    double largest = 0;
    double[] level = new double[r.t.length];
    for (int k = r.firstAtOrAfter(fromS); k < r.t.length && r.t[k] <= endS; k++) {
      level[k] = meanOf(r.current, k);
      if (!(level[k] > 0)) {
        continue;
      }
      largest = Math.max(largest, level[k]);
      boolean at = level[k] > (1 - HELD) * limitA;
      anywhere += at ? 1 : 0;
      if (r.t[k] <= rampEndS) {
        inRamp++;
        held += at ? 1 : 0;
      }
    }
    return inRamp < 3 ? new double[0] : new double[] {(double) held / inRamp, anywhere, largest};
  }

  private static double meanOf(double[][] phases, int k) {
    double[] each = new double[phases.length];
    for (int p = 0; p < phases.length; p++) {
      each[p] = phases[p][k];
    }
    return Noise.median(each, 0, each.length);
  }
}
