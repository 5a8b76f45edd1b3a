package rampwright.analysis.figure;

import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.Noise;

/**
 * When the shaft begins to turn: the first lasting rise of speed, extended back to where it stood
 * along a line through the rise's first part.
 */
final class Breakaway {
  private static final double TIMES_NOISE = 5;
  private static final double TIMES_STEP = 1.5;
  private static final double LEAST_OF_NOMINAL = 0.002;
  private static final double TURNING_OF_NOMINAL = 0.01;
  private static final double RISE_OF_NOMINAL = 0.02;
  private static final int LASTING = 3;
  private static final int LEAST_AT_REST = 8;
  // A slow first movement may hide below the floor; it cannot hide for long.
  private static final int MOST_HIDDEN = 10;

  private Breakaway() {}

  /**
   * Breakaway of one start.
   *
   * @param nominalRpm settled run speed, else rated speed, else NaN
   */
  static Measured find(Readings r, Flow flow, double nominalRpm) {
    SpeedTrack speed = r.speed;
    if (speed == null) {
      return Measured.missing("s", "no speed channel");
    }
    if (flow.openStart()) {
      return Measured.missing("s", "the record begins with current flowing");
    }
    int inception = speed.firstAtOrAfter(flow.fromS());
    int restFrom = speed.firstAtOrAfter(flow.fromS() - 1);
    double noise = speed.noiseRpm();
    if (inception - restFrom >= LEAST_AT_REST) {
      // What shakes a turning shaft does not shake one at rest, and what disturbs a pickup at
      // standstill may be gone when its pulses come.
      noise = Noise.spread(speed.rpm(), restFrom, inception);
    }
    double nominal = Double.isNaN(nominalRpm) ? 0 : nominalRpm;
    double floor =
        Math.max(
            Math.max(TIMES_NOISE * noise, TIMES_STEP * speed.resolutionRpm()),
            LEAST_OF_NOMINAL * nominal);
    double before =
        inception > restFrom ? Noise.median(speed.rpm(), restFrom, inception) : Double.NaN;
    if (Double.isNaN(before)) {
      before = 0;
    }
    if (Math.abs(before) > Math.max(floor, TURNING_OF_NOMINAL * nominal)) {
      return Measured.missing(
          "s",
          Findings.text(
              "the shaft turned already before inception, at %.3g rpm (or the pickup's zero is off)",
              before));
    }
    int from = Math.max(0, inception - 1);
    int to = speed.firstAtOrAfter(flow.toS());
    int rise = firstLastingAbove(speed, from, to, before + floor);
    if (rise < 0) {
      return Measured.missing("s", "the shaft did not turn");
    }
    return dated(r, flow, speed, new Rise(rise, to, before, floor, noise, nominal));
  }

  /** The first lasting rise: its first index, where to stop, and the levels it was told by. */
  private record Rise(
      int first, int to, double before, double floor, double noise, double nominal) {}

  private static Measured dated(Readings r, Flow flow, SpeedTrack speed, Rise rise) {
    int first = rise.first;
    // Back to zero along the first part of the rise: the line through it, steep parts only.
    int end = first;
    double reach = rise.before + Math.max(3 * rise.floor, RISE_OF_NOMINAL * rise.nominal);
    while (end + 1 < rise.to && (speed.rpm()[end] < reach || end - first < 2)) {
      end++;
    }
    Line line = Line.through(speed.timeS(), speed.rpm(), first, end + 1);
    boolean rising = line.slope() > 0;
    double zeroS = rising ? line.reachesS(rise.before) : speed.timeS()[first];
    double previousS = speed.timeS()[Math.max(0, first - 1)];
    double atS = Math.max(flow.fromS(), Math.min(zeroS, speed.timeS()[first]));
    atS = Math.max(atS, previousS - MOST_HIDDEN * speed.intervalS());
    double blur = rising ? Math.hypot(speed.resolutionRpm(), rise.noise) / line.slope() : 0;
    double u = Math.hypot(Math.max(speed.intervalS(), r.sampleS), Math.min(blur, 1.0));
    u = Math.max(u, (speed.timeS()[first] - atS) / 2);
    return StartInstants.instant(atS, u, "first lasting rise of speed extended back to zero");
  }

  private static int firstLastingAbove(SpeedTrack speed, int from, int to, double level) {
    int held = 0;
    for (int i = from; i < to; i++) {
      held = speed.rpm()[i] > level ? held + 1 : 0;
      if (held >= LASTING) {
        return i - LASTING + 1;
      }
    }
    return -1;
  }
}
