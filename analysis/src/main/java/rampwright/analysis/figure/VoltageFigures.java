package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.signal.NoisyExtreme;
import rampwright.analysis.trace.ChannelName;

/** Figures of the line-to-line voltages around a start. */
final class VoltageFigures {
  private static final double BEFORE_S = 1.0;
  // Of a slow meter's readings a second holds too few; a midpoint lies half an interval after one.
  private static final double SLOW_READINGS = 3.6;
  // IEC 61000-4-30 class A allows 0.2 % of the declared voltage for a dip's retained voltage (from
  // memory); taken as a rectangular distribution.
  private static final double CYCLE = 0.002 / Math.sqrt(3);
  // Of what smoothing took off an extreme, this much may have been the course's own.
  private static final double SMOOTHED_OFF = 0.3;

  // Below this share of what is seen later there was no voltage where it was measured.
  private static final double LIVE_SHARE = 0.5;

  // A ramp of a starter rises by less than this from one reading or half cycle to the next.
  private static final double SETTLED = 1.1;

  private VoltageFigures() {}

  /** A stretch of time left out of a search, s. */
  record Window(double fromS, double toS) {
    boolean holds(double atS) {
      return atS >= fromS && atS <= toS;
    }
  }

  /**
   * {@code voltage_before_V}, {@code voltage_min_V}, {@code voltage_dip_pct}, {@code
   * start_drop_pct}.
   */
  static Map<String, Measured> of(Readings r, double fromS, double toS, List<Window> supplyDips) {
    Map<String, Measured> figures = new LinkedHashMap<>();
    if (r.lines.isEmpty()) {
      String why = "no voltage channel";
      figures.put("voltage_before_V", Measured.missing("V", why));
      figures.put("voltage_min_V", Measured.missing("V", why));
      figures.put("voltage_dip_pct", Measured.missing("%", why));
      figures.put("start_drop_pct", Measured.missing("%", why));
      return figures;
    }
    double beforeS = Math.max(BEFORE_S, SLOW_READINGS * r.stepS);
    int before = r.firstAtOrAfter(fromS - beforeS);
    int begin = r.firstAtOrAfter(fromS);
    // The track's stamp is the end of its cycle: a window ending at inception saw nothing of it.
    int end = Math.min(r.t.length, r.firstAtOrAfter(toS + 1e-9) + (r.isWaveform() ? 1 : 0));
    Map<String, Double> beforeV = new LinkedHashMap<>();
    Map<String, Double> minV = new LinkedHashMap<>();
    Map<String, Double> dip = new LinkedHashMap<>();
    Map<String, Double> drop = new LinkedHashMap<>();
    List<Double> uDip = new ArrayList<>();
    double resolution = 0;
    for (int l = 0; l < r.lines.size(); l++) {
      ChannelName line = r.lines.get(l);
      double[] raw = r.valuesOf(line);
      double level = begin - before >= 3 ? Noise.median(raw, before, begin) : Double.NaN;
      boolean dead = isDead(level, Noise.largest(raw, begin, end));
      // Where the line was dead before, the first readings of the start still hold some of that.
      double[] extremes = r.voltageForExtremes[l];
      int whole = r.firstAtOrAfter(fromS + (r.isWaveform() ? 2 : 1.5) * r.stepS);
      int first = dead ? firstLive(extremes, Math.min(whole, end), end) : begin;
      double smallest = smallest(r, extremes, first, end, List.of());
      NoisyExtreme.Largest found =
          NoisyExtreme.smallest(extremes, first, end, Extremes.noise(r, raw, before, end));
      double lowest = found.value();
      double ownLowest =
          supplyDips.isEmpty() ? lowest : smallest(r, extremes, first, end, supplyDips);
      if (!Double.isNaN(lowest)) {
        minV.put(line.phase(), lowest);
      }
      if (!Double.isNaN(level) && !Double.isNaN(lowest) && level > 0 && !dead) {
        beforeV.put(line.phase(), level);
        dip.put(line.phase(), 100 * (1 - lowest / level));
        if (!Double.isNaN(ownLowest)) {
          drop.put(line.phase(), 100 * (1 - ownLowest / level));
        }
        double sigma = Noise.sigma(raw, before, end);
        resolution = Noise.resolution(raw, before, end);
        double noiseV = found.readings() == 1 ? (r.isWaveform() ? 1 : 1.8) * sigma : found.sigma();
        // How much the smallest stands out among its neighbours depends on where cycles begin.
        double lone =
            found.readings() == 1
                ? lone(extremes, begin, end, smallest)
                : SMOOTHED_OFF * (lowest - smallest);
        if (!r.isWaveform() && !Double.isNaN(lowest)) {
          lone = Math.hypot(lone, Extremes.blurred(r, extremes, begin, end, smallest));
        }
        double scatter = scatter(raw, before, begin) * (r.isWaveform() ? 0 : 1);
        uDip.add(
            100
                * Math.hypot(
                    Math.hypot(noiseV, Accuracy.ofWidth(resolution)),
                    Math.hypot(Math.hypot(lone, scatter), r.isWaveform() ? CYCLE * level : 0))
                / level);
      }
    }
    String scaled =
        (r.trace.present(ChannelName.LINE_VOLTAGES).isEmpty() ? "; made from phase voltage" : "")
            + r.voltageGaps.said(fromS, toS);
    double least = Accuracy.ofWidth(resolution);
    if (beforeV.isEmpty()) {
      String why =
          begin - before < 3
              ? "the record begins less than three readings before inception"
              : "no voltage before the start: measured at the motor's terminals";
      figures.put("voltage_before_V", Measured.missing("V", why));
      Measured min = headline(minV, false, "V", null, fromS, toS, extremeRule(r) + scaled);
      Double lowest = min.value();
      figures.put(
          "voltage_min_V",
          lowest == null ? min : min.withUncertainty(Math.max(least, Accuracy.GAIN * lowest)));
      figures.put("voltage_dip_pct", Measured.missing("%", why));
      figures.put("start_drop_pct", Measured.missing("%", why));
      return figures;
    }
    double mean = beforeV.values().stream().mapToDouble(Double::doubleValue).average().orElse(0);
    figures.put(
        "voltage_before_V",
        Measured.of(
                mean,
                "V",
                Accuracy.GAIN * mean,
                fromS - beforeS,
                fromS,
                Findings.text(
                    "median over %.3g s before inception, mean of the lines; meter class 1 assumed%s",
                    beforeS, scaled))
            .withPhases(null, beforeV));
    double u = uDip.stream().mapToDouble(Double::doubleValue).max().orElse(0);
    double uMinV = mean * Math.hypot(Accuracy.GAIN, u / 100);
    figures.put(
        "voltage_min_V", headline(minV, false, "V", uMinV, fromS, toS, extremeRule(r) + scaled));
    figures.put(
        "voltage_dip_pct",
        headline(
            dip,
            true,
            "%",
            u,
            fromS,
            toS,
            "smallest against the same line's own level before" + scaled));
    figures.put(
        "start_drop_pct",
        drop.isEmpty()
            ? Measured.missing("%", "a dip of the supply covers the whole start")
            : headline(
                drop, true, "%", u, fromS, toS, "as the dip, without dips of the supply" + scaled));
    return figures;
  }

  private static boolean isDead(double before, double largest) {
    return !Double.isNaN(before) && !(before > LIVE_SHARE * largest);
  }

  /**
   * First stamp from {@code from} whose value no longer mixes with the dead line before: what
   * follows it is not much higher.
   */
  private static int firstLive(double[] values, int from, int to) {
    int k = from;
    while (k + 1 < to && !(values[k] * SETTLED > values[k + 1])) {
      k++;
    }
    return k + 1 < to ? k : from;
  }

  private static String extremeRule(Readings r) {
    return r.isWaveform()
        ? "smallest one-cycle RMS"
        : "smallest running median of three readings, smoothed as far as it is flat";
  }

  private static Measured headline(
      Map<String, Double> lines,
      boolean largestIsWorst,
      String unit,
      @Nullable Double u,
      double fromS,
      double toS,
      String rule) {
    String worst = null;
    double value = Double.NaN;
    for (Map.Entry<String, Double> line : lines.entrySet()) {
      if (worst == null || (largestIsWorst ? line.getValue() > value : line.getValue() < value)) {
        worst = line.getKey();
        value = line.getValue();
      }
    }
    if (worst == null) {
      return Measured.missing(unit, "no voltage reading in the start");
    }
    return Measured.of(value, unit, u, fromS, toS, rule).withPhases(worst, lines);
  }

  private static double smallest(
      Readings r, double[] values, int from, int to, List<Window> without) {
    double smallest = Double.NaN;
    for (int k = from; k < to; k++) {
      double value = values[k];
      if (!Double.isNaN(value) && !(smallest <= value) && !held(without, r.t[k])) {
        smallest = value;
      }
    }
    return smallest;
  }

  private static double lone(double[] values, int from, int to, double lowest) {
    for (int k = from; k < to; k++) {
      if (values[k] == lowest) {
        int a = Math.max(from, k - 3);
        int b = Math.min(to, k + 4);
        return Math.abs(Noise.median(values, a, b) - lowest);
      }
    }
    return 0;
  }

  private static double scatter(double[] values, int from, int to) {
    double median = Noise.median(values, from, to);
    double sum = 0;
    int n = 0;
    for (int k = from; k < to; k++) {
      if (!Double.isNaN(values[k])) {
        sum += (values[k] - median) * (values[k] - median);
        n++;
      }
    }
    return n < 2 ? 0 : Math.sqrt(sum / (n - 1));
  }

  private static boolean held(List<Window> windows, double atS) {
    for (Window window : windows) {
      if (window.holds(atS)) {
        return true;
      }
    }
    return false;
  }
}
