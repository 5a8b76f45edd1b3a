package rampwright.analysis.figure;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.Noise;

/** Largest currents over a window, per phase and over all. */
final class Extremes {
  // The median of three of normal noise has 0.67 of its spread; the largest of a few hundred such
  // lies about 2.7 of that above: what noise may add to an extreme.
  private static final double NOISE_TO_EXTREME = 0.67 * 2.7;

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
      double largest = Noise.largest(r.currentForExtremes[p], from, to);
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
                      NOISE_TO_EXTREME * Noise.sigma(r.current[p], from, to),
                      Math.max(
                          Noise.largest(r.current[p], from, to) - largest,
                          blurred(r, r.currentForExtremes[p], from, to, largest)));
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
                    : "largest running median of three RMS readings; meter class 1 assumed")
                + r.rest.said()
                + r.gaps.said(fromS, toS))
        .withPhases(highest, phases);
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
