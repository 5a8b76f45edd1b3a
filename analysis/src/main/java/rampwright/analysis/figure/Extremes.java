package rampwright.analysis.figure;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.signal.NoisyExtreme;

/** Largest currents over a window, per phase and over all. */
final class Extremes {
  // The median of three of normal noise has 0.67 of its spread.
  private static final double MEDIAN_OF_THREE = 0.67;

  private Extremes() {}

  /** Largest RMS-track value in [fromS, toS] over the phases. */
  static Measured peakCurrent(Readings r, double fromS, double toS) {
    Map<String, Double> phases = new LinkedHashMap<>();
    String highest = null;
    double peak = Double.NaN;
    double u = 0;
    int from = r.firstAtOrAfter(fromS);
    int to = Math.min(r.t.length, r.firstAtOrAfter(toS + 1e-9) + (r.isWaveform() ? 1 : 0));
    for (int p = 0; p < r.phases.size(); p++) {
      double raw = Noise.largest(r.currentForExtremes[p], from, to);
      NoisyExtreme.Largest found =
          NoisyExtreme.largest(r.currentForExtremes[p], from, to, noise(r, r.current[p], from, to));
      double largest = found.value();
      if (!Double.isNaN(largest)) {
        String label = r.phases.get(p).phase();
        phases.put(label, largest);
        if (!(peak >= largest)) {
          peak = largest;
          highest = label;
          u =
              r.isWaveform()
                  ? 0
                  : Math.hypot(
                      found.sigma(),
                      Math.max(
                          Noise.largest(r.current[p], from, to) - raw,
                          blurred(r, r.currentForExtremes[p], from, to, raw)));
        }
      }
    }
    if (highest == null) {
      return Measured.missing("A", "no current reading between inception and full speed");
    }
    return Measured.of(
            peak,
            "A",
            Math.hypot(
                Accuracy.ofCurrent(peak, Math.hypot(u, r.rest.uncertaintyA())),
                r.gaps.peakUncertainty(fromS, toS, peak)),
            fromS,
            toS,
            (r.isWaveform()
                    ? "largest one-cycle RMS; meter class 1 assumed"
                    : "largest running median of three RMS readings, smoothed as far as it is flat; meter class 1 assumed")
                + r.rest.said()
                + r.gaps.said(fromS, toS))
        .withPhases(highest, phases);
  }

  /** Noise of the readings an extreme is looked for among; 0 where nothing is to be smoothed. */
  static double noise(Readings r, double[] values, int from, int to) {
    return r.isWaveform() || r.averaging.isSlow(r.stepS)
        ? 0
        : MEDIAN_OF_THREE * Noise.sigma(values, from, to);
  }

  /**
   * What an extreme may have lost between readings and to the meter's averaging: how far the values
   * one interval, or one averaging span, before and after it lie below, the nearer of the two.
   *
   * <p>A rounded peak loses less than it falls within an interval.
   */
  static double blurred(Readings r, double[] values, int from, int to, double extreme) {
    int reach =
        (int)
            Math.max(1, Math.ceil(r.averaging.isSlow(r.stepS) ? r.averaging.spanS() / r.stepS : 1));
    for (int k = from; k < to; k++) {
      if (values[k] == extreme) {
        double before = k - reach >= from ? Math.abs(extreme - values[k - reach]) : Double.NaN;
        double after = k + reach < to ? Math.abs(extreme - values[k + reach]) : Double.NaN;
        double nearer =
            Double.isNaN(after) ? before : Double.isNaN(before) ? after : Math.min(before, after);
        return Double.isNaN(nearer) ? 0 : nearer;
      }
    }
    return 0;
  }

  /** A current figure over In, or the reason why not. */
  static Measured overRated(
      Measured current, @Nullable Double ratedCurrentA, int power, String unit) {
    if (!current.isPresent()) {
      return Measured.missing(unit, String.valueOf(current.why()));
    }
    if (ratedCurrentA == null) {
      return Measured.missing(unit, "needs the motor's rated current");
    }
    double scale = Math.pow(ratedCurrentA, -power);
    Map<String, Double> phases = new LinkedHashMap<>();
    current.phases().forEach((k, v) -> phases.put(k, v * scale));
    Double value = current.value();
    Double u = current.uncertainty();
    return new Measured(
        value == null ? null : value * scale,
        unit,
        u == null ? null : u * scale,
        current.fromS(),
        current.toS(),
        current.rule(),
        null,
        current.phase(),
        phases,
        Map.of());
  }
}
