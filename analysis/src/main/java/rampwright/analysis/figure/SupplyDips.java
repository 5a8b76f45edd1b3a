package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.List;

/**
 * Dips of the supply: the voltage falls by more than 5 % of declared within two cycles or one
 * reading without the current having risen first. A dip lasts until the voltage is back to within a
 * third of its fall, or the flow ends.
 */
final class SupplyDips {
  // A rise of current by this share within the same stretch is the start's own doing.
  private static final double RISE_SHARE = 0.05;
  private static final double RETURN_SHARE = 1.0 / 3;
  private static final double LIVE_SHARE = 0.5;

  private SupplyDips() {}

  static List<Finding> find(Readings r, List<Segment> segments, Thresholds thresholds) {
    List<Finding> dips = new ArrayList<>();
    Double declared =
        r.motor.supplyVoltageV() != null ? r.motor.supplyVoltageV() : r.motor.ratedVoltageV();
    if (declared == null || r.lines.isEmpty()) {
      return dips;
    }
    double fall = thresholds.supplyDipPct() / 100 * declared;
    int span = r.isWaveform() ? 4 : 1;
    int k = span;
    while (k < r.t.length) {
      int line = fallen(r, k, span, fall);
      if (line < 0 || atEdge(r, segments, r.t[k - span], r.t[k])) {
        k++;
        continue;
      }
      double before = r.voltageForExtremes[line][k - span];
      int end = back(r, line, k, before);
      double lowest = before;
      for (int j = k; j <= end; j++) {
        lowest = Math.min(lowest, value(r.voltageForExtremes[line][j], lowest));
      }
      double depth = 100 * (before - lowest) / declared;
      dips.add(
          new Finding(
              "supply-dip",
              r.t[k - span],
              r.t[end],
              depth,
              Findings.text(
                  "%s fell by %.1f %% of %.0f V for %.2f s without the current having risen first:"
                      + " the supply's doing, not the start's",
                  r.lines.get(line).phase(), depth, declared, r.t[end] - r.t[k - span])));
      k = end + span + 1;
    }
    return dips;
  }

  private static double value(double value, double otherwise) {
    return !Double.isNaN(value) ? value : otherwise;
  }

  /** The line whose voltage fell over the span ending at k with no current rising; -1 if none. */
  private static int fallen(Readings r, int k, int span, double fall) {
    for (int l = 0; l < r.voltageForExtremes.length; l++) {
      double[] v = r.voltageForExtremes[l];
      if (v[k - span] - v[k] > fall && !rose(r, k, span)) {
        return l;
      }
    }
    return -1;
  }

  private static boolean rose(Readings r, int k, int span) {
    double least = Math.max(r.thresholdA, RISE_SHARE * peakAround(r, k));
    // The current's own track is a cycle late: its rise may show in the stamps before.
    int from = Math.max(0, k - 2 * span);
    for (double[] phase : r.current) {
      double lowest = Double.POSITIVE_INFINITY;
      for (int j = from; j <= k; j++) {
        if (phase[j] - lowest > least) {
          return true;
        }
        lowest = Math.min(lowest, value(phase[j], lowest));
      }
    }
    return false;
  }

  private static double peakAround(Readings r, int k) {
    double peak = 0;
    int reach = r.isWaveform() ? 40 : 10;
    for (int j = Math.max(0, k - reach); j < Math.min(r.t.length, k + reach); j++) {
      peak = Math.max(peak, value(r.high[j], 0));
    }
    return peak;
  }

  /** First stamp at which the voltage is back, or the last one of the record. */
  private static int back(Readings r, int line, int k, double before) {
    double[] v = r.voltageForExtremes[line];
    double lowest = v[k];
    int bottom = Math.min(r.t.length - 1, k + (r.isWaveform() ? 3 : 1));
    for (int j = k; j <= bottom; j++) {
      lowest = Math.min(lowest, value(v[j], lowest));
    }
    double goal = before - RETURN_SHARE * (before - lowest);
    int end = k;
    while (end + 1 < v.length && !(v[end] >= goal)) {
      end++;
    }
    return end;
  }

  /**
   * Where voltage measured at the motor's terminals goes with the current; also a record that ends
   * dead.
   */
  private static boolean atEdge(Readings r, List<Segment> segments, double fromS, double toS) {
    double marginS = r.isWaveform() ? 8 * r.stepS : 2 * r.stepS;
    for (Segment segment : segments) {
      Flow flow = segment.flow();
      if (toS > flow.toS() - marginS && fromS < flow.toS() + marginS) {
        return true;
      }
      // Inception: the current's rise may be lost between two readings.
      if (toS > flow.fromS() - marginS && fromS < flow.fromS() + marginS) {
        return true;
      }
      // A coasting motor's own voltage decays at its terminals.
      if (fromS >= flow.toS() && deadBefore(r, flow)) {
        return true;
      }
    }
    return false;
  }

  private static boolean deadBefore(Readings r, Flow flow) {
    int k = r.firstAtOrAfter(flow.fromS()) - (r.isWaveform() ? 4 : 2);
    if (k < 0) {
      return false;
    }
    int inside = Math.min(r.t.length - 1, r.firstAtOrAfter((flow.fromS() + flow.toS()) / 2));
    double[] v = r.voltageForExtremes[0];
    return v[k] < LIVE_SHARE * v[inside];
  }
}
