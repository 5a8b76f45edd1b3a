package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.CycleSpectrum;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.signal.ThreeWirePower;

/**
 * Figures that need the waveform: sequences, power, harmonics, direct current.
 *
 * @param startFigures figures over the start, by key
 * @param runFigures figures over the run with their largest over the start, by key
 * @param negativeShare I2/I1 over the start; 0 where it cannot be told
 * @param harmonics harmonic shares over the start by order
 */
record WaveformFigures(
    Map<String, Measured> startFigures,
    Map<String, Measured> runFigures,
    double negativeShare,
    Map<Integer, TraceFigures.HarmonicShare> harmonics) {

  private static final int[] REPORTED = {2, 3, 5, 7, 11, 13};
  private static final double WORST_S = 1.0;

  /** None of them, for one reason. */
  static WaveformFigures none(String why) {
    Map<String, Measured> start = new LinkedHashMap<>();
    start.put("negative_sequence_pct", Measured.missing("%", why));
    start.put("thd_pct", Measured.missing("%", why));
    start.put("dc_component_pct", Measured.missing("%", why));
    return new WaveformFigures(start, noPower(why), 0, Map.of());
  }

  private static Map<String, Measured> noPower(String why) {
    Map<String, Measured> run = new LinkedHashMap<>();
    run.put("active_power_W", Measured.missing("W", why));
    run.put("reactive_power_var", Measured.missing("var", why));
    run.put("apparent_power_VA", Measured.missing("VA", why));
    run.put("power_factor", Measured.missing("", why));
    run.put("air_gap_torque_Nm", Measured.missing("N m", why));
    return run;
  }

  /** The waveform figures of a start and its run; {@code start} is null where no start is shown. */
  static WaveformFigures of(Readings r, RunLevel level, @Nullable CycleSeries start) {
    if (!r.isWaveform()) {
      return readings(r, level);
    }
    CycleSeries run =
        level.toS() > level.fromS() ? CycleSeries.over(r, level.fromS(), level.toS()) : null;
    if (start == null || start.size() == 0) {
      String why = "fewer than one whole, evenly sampled cycle in the start";
      WaveformFigures none = none(why);
      return run == null || run.size() == 0
          ? none
          : new WaveformFigures(
              none.startFigures, PowerFigures.of(r, run, null), 0, none.harmonics);
    }
    Map<String, Measured> figures = new LinkedHashMap<>();
    double fromS = start.fromS()[0];
    double toS = start.toS()[start.size() - 1];
    double negative = Noise.median(start.negativeShare(), 0, start.size());
    figures.put(
        "negative_sequence_pct",
        !Double.isNaN(negative)
            ? Measured.of(
                100 * negative,
                "%",
                100 * Accuracy.GAIN,
                fromS,
                toS,
                "I2 / I1 of one-cycle phasors, median over the start")
            : Measured.missing("%", "needs three phase currents"));
    figures.put("thd_pct", distortion(start, fromS, toS));
    figures.put("dc_component_pct", directCurrent(r, start));
    return new WaveformFigures(
        figures,
        PowerFigures.of(r, run, start),
        !Double.isNaN(negative) ? negative : 0,
        harmonics(start));
  }

  private static WaveformFigures readings(Readings r, RunLevel level) {
    WaveformFigures none = none("RMS readings have no waveform");
    Map<String, Measured> run = new LinkedHashMap<>(none.runFigures);
    run.putAll(PowerFigures.fromReadings(r, level));
    return new WaveformFigures(none.startFigures, run, 0, Map.of());
  }

  private static Measured distortion(CycleSeries start, double fromS, double toS) {
    double[] worst =
        perCycle(start, s -> s.magnitude(1) > 0 ? s.distortionRms() / s.magnitude(1) : Double.NaN);
    double median = Noise.median(worst, 0, worst.length);
    if (Double.isNaN(median)) {
      return Measured.missing("%", "no fundamental in the start");
    }
    Map<String, Double> parts = new LinkedHashMap<>();
    parts.put("median", 100 * median);
    parts.put("largest", 100 * Noise.largest(worst, 0, worst.length));
    return Measured.of(
            100 * median,
            "%",
            null,
            fromS,
            toS,
            "RMS of all but the fundamental over the fundamental, worst phase of each cycle, median;"
                + " a start is not stationary, so it is indicative")
        .withParts(parts);
  }

  private static Measured directCurrent(Readings r, CycleSeries start) {
    double cycleS = start.toS()[0] - start.fromS()[0];
    int second = Math.max(1, (int) Math.round(WORST_S / cycleS));
    double worst = 0;
    String phase = null;
    int at = 0;
    Map<String, Double> phases = new LinkedHashMap<>();
    for (int p = 0; p < start.spectra().length; p++) {
      double[] share = new double[start.size()];
      for (int k = 0; k < share.length; k++) {
        CycleSpectrum s = start.spectra()[p][k];
        share[k] = s.rms() > r.thresholdA ? Math.abs(s.mean()) / s.rms() : Double.NaN;
      }
      double most = 0;
      int length = Math.min(second, share.length);
      for (int k = 0; k + length <= share.length; k += Math.max(1, length / 5)) {
        double median = Noise.median(share, k, k + length);
        if (median > most) {
          most = median;
          if (most > worst) {
            at = k;
          }
        }
      }
      String label = r.phases.get(p).phase();
      phases.put(label, 100 * most);
      if (phase == null || most > worst) {
        worst = most;
        phase = label;
      }
    }
    int end = Math.min(start.size(), at + second) - 1;
    return Measured.of(
            100 * worst,
            "%",
            null,
            start.fromS()[at],
            start.toS()[end],
            "one-cycle mean over one-cycle RMS, median over the worst second")
        .withPhases(phase, phases);
  }

  private static Map<Integer, TraceFigures.HarmonicShare> harmonics(CycleSeries start) {
    Map<Integer, TraceFigures.HarmonicShare> shares = new LinkedHashMap<>();
    for (int order : REPORTED) {
      double[] worst =
          perCycle(
              start,
              s ->
                  order <= s.highestOrder() && s.magnitude(1) > 0
                      ? s.magnitude(order) / s.magnitude(1)
                      : Double.NaN);
      double median = Noise.median(worst, 0, worst.length);
      if (!Double.isNaN(median)) {
        shares.put(
            order,
            new TraceFigures.HarmonicShare(
                100 * median, 100 * Noise.largest(worst, 0, worst.length)));
      }
    }
    return shares;
  }

  /** The worst phase's number in each cycle that lies wholly inside the flow. */
  private static double[] perCycle(CycleSeries start, ToDoubleFunction<CycleSpectrum> number) {
    double[] worst = new double[start.size()];
    for (int k = 0; k < worst.length; k++) {
      worst[k] = Double.NaN;
      for (CycleSpectrum[] phase : start.spectra()) {
        double one = number.applyAsDouble(phase[k]);
        if (!Double.isNaN(one) && !(worst[k] >= one)) {
          worst[k] = one;
        }
      }
    }
    return worst;
  }

  /** Values of one power quantity, cycle by cycle. */
  static double[] series(List<ThreeWirePower> power, ToDoubleFunction<ThreeWirePower> quantity) {
    List<Double> values = new ArrayList<>();
    for (ThreeWirePower one : power) {
      values.add(quantity.applyAsDouble(one));
    }
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }
}
