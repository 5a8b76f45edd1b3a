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
    double windowS = Math.max(WINDOW_S, LEAST_READINGS * r.stepS);
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
    Line line = Line.through(r.t, chosen, from, to);
    double spanS = toS - fromS;
    // Noise, or a reciprocating machine's swing, gives a slope too; only what exceeds twice that
    // counts.
    double slopeNoise =
        Math.max(sigma, line.scatter()) * Math.sqrt(12.0 / Math.max(3, to - from)) / spanS;
    if (Math.abs(line.slope()) > MOST_SLOPE_A_SECOND * level + 2 * slopeNoise) {
      return new RunLevel(
          Measured.missing(
              "A",
              String.format(
                  Locale.ROOT,
                  "the current still changes by %.1f %% a second where the run ends",
                  100 * line.slope() / level)),
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
        Measured.of(level, "A", u, fromS, toS, rule(windowS) + r.rest.said())
            .withPhases(highest, phases),
        speedRpm,
        fromS,
        toS);
  }

  private static String rule(double windowS) {
    return windowS > WINDOW_S
        ? Findings.text("median over the run's last %.3g s, highest phase", windowS)
        : "median over the run's last second, highest phase";
  }
}
