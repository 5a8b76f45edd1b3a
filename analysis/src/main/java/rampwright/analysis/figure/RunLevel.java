package rampwright.analysis.figure;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.Noise;

/**
 * Current and speed of the settled run: medians and means over the last second before the stop (or
 * the record's end), of a slow meter over its last four readings.
 *
 * @param currentA the highest phase's median, with each phase's; missing with its reason
 * @param speedRpm mean speed over the same second; NaN when not to be had
 * @param fromS start of the second
 * @param toS its end
 */
record RunLevel(Measured currentA, double speedRpm, double fromS, double toS) {
  private static final double WINDOW_S = 1.0;
  private static final double MOST_SLOPE_A_SECOND = 0.01;
  private static final double SWING_TREND_S = 3.0;
  private static final double LEAST_WINDOW_S = 0.3;
  // Of a slow meter's readings a second holds too few.
  private static final int LEAST_READINGS = 4;

  static RunLevel of(Readings r, Segment segment) {
    RunState run = segment.run();
    if (run == null) {
      return new RunLevel(Measured.missing("A", "no run was reached"), Double.NaN, 0, 0);
    }
    double toS = segment.runEndS();
    if (!r.isWaveform() && !segment.flow().openEnd()) {
      // The last reading may have averaged over current ceasing.
      toS = Math.min(toS, r.t[Math.max(run.first(), segment.flow().last() - 1)]);
    }
    Swing swing = segment.swing();
    double leastS = Math.max(WINDOW_S, LEAST_READINGS * r.stepS);
    // A swing counts by whole periods.
    double windowS = swing.isThere() ? swing.spanS * Math.ceil(leastS / swing.spanS) : leastS;
    double fromS = Math.max(toS - windowS, r.t[run.first()]);
    double speedRpm = r.speed != null ? r.speed.mean(fromS, toS) : Double.NaN;
    // A window of the waveform's track reaches a cycle back; keep clear of current ceasing.
    int from = r.firstAtOrAfter(fromS);
    int to = r.firstAtOrAfter(toS);
    if (toS - fromS < LEAST_WINDOW_S || to - from < 3) {
      return new RunLevel(
          Measured.missing(
              "A",
              String.format(
                  Locale.ROOT, "the run lasts %.2f s in this record, too short", toS - fromS)),
          speedRpm,
          fromS,
          toS);
    }
    Map<String, Double> phases = new LinkedHashMap<>();
    String highest = "";
    double level = -1;
    double sigma = 0;
    double[] chosen = r.high;
    for (int p = 0; p < r.phases.size(); p++) {
      double median = Noise.median(r.current[p], from, to);
      if (!Double.isNaN(median)) {
        phases.put(r.phases.get(p).phase(), median);
        if (median > level) {
          level = median;
          highest = r.phases.get(p).phase();
          sigma = Noise.sigma(r.current[p], from, to);
          chosen = r.current[p];
        }
      }
    }
    if (level <= 0) {
      return new RunLevel(
          Measured.missing("A", "no current reading in the run's last second"),
          speedRpm,
          fromS,
          toS);
    }
    double slope =
        swing.isThere() ? slopeOfMeans(r, swing, run, to) : slope(r, chosen, sigma, from, to);
    if (Math.abs(slope) > MOST_SLOPE_A_SECOND * level) {
      return new RunLevel(
          Measured.missing(
              "A",
              String.format(
                  Locale.ROOT,
                  "the current still changes by %.1f %% a second where the run ends",
                  100 * slope / level)),
          speedRpm,
          fromS,
          toS);
    }
    // The median's standard error, and half as much for being the highest of up to three phases.
    double noise =
        Math.hypot(
            1.5 * sigma * Math.sqrt(1.57 / Math.max(1, to - from)),
            Accuracy.ofWidth(r.isWaveform() ? 0 : Noise.resolution(chosen, 0, chosen.length)));
    double u = Accuracy.ofCurrent(level, Math.hypot(noise, r.rest.uncertaintyA()));
    return new RunLevel(
        Measured.of(
                level,
                "A",
                u,
                fromS,
                toS,
                (swing.isThere()
                        ? String.format(
                            Locale.ROOT,
                            "median over the run's last %.2f s, whole periods of the load's swing,"
                                + " highest phase",
                            toS - fromS)
                        : rule(windowS))
                    + r.rest.said())
            .withPhases(highest, phases),
        speedRpm,
        fromS,
        toS);
  }

  /** Slope beyond what noise alone may show, A/s. */
  private static double slope(Readings r, double[] current, double sigma, int from, int to) {
    double spanS = r.t[to - 1] - r.t[from];
    Line line = Line.through(r.t, current, from, to);
    // Noise, or a reciprocating machine's swing, gives a slope too.
    double spread = Math.max(sigma, line.scatter());
    double noise = spread * Math.sqrt(12.0 / Math.max(3, to - from)) / Math.max(spanS, r.stepS);
    return beyond(line.slope(), 2 * noise);
  }

  /**
   * Slope of the current with its swing averaged out, over up to three seconds, beyond what the
   * rest of the swing may show: 6 a / (pi T) a second for an amplitude a over a length T.
   */
  private static double slopeOfMeans(Readings r, Swing swing, RunState run, int to) {
    int last = r.firstAtOrAfter(r.t[to - 1] - 0.5 * swing.spanS);
    int from = Math.max(run.first(), r.firstAtOrAfter(r.t[last] - SWING_TREND_S));
    if (last - from < 4) {
      return 0;
    }
    Line line = Line.through(r.t, swing.currentA, from, last + 1);
    double amplitude = Math.sqrt(2) * line.scatter();
    return beyond(line.slope(), 6 * amplitude / Math.PI / (r.t[last] - r.t[from]));
  }

  private static double beyond(double slope, double allowed) {
    return Math.signum(slope) * Math.max(0, Math.abs(slope) - allowed);
  }

  private static String rule(double windowS) {
    return windowS > WINDOW_S
        ? Findings.text("median over the run's last %.3g s, highest phase", windowS)
        : "median over the run's last second, highest phase";
  }
}
