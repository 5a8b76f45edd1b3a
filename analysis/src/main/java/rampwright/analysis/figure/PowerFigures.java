package rampwright.analysis.figure;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.signal.ThreeWire;
import rampwright.analysis.signal.ThreeWirePower;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;

/** Power and air-gap torque in the run, with their largest over the start. */
final class PowerFigures {
  private static final double ESTIMATED_RESISTANCE_UNCERTAINTY = 0.5;

  private static final String IN_WINDINGS =
      "currents are those of the windings, inside the delta; power needs the line's";

  private PowerFigures() {}

  static Map<String, Measured> of(
      Readings r, @Nullable CycleSeries run, @Nullable CycleSeries start) {
    Map<String, Measured> figures = new LinkedHashMap<>();
    boolean inRun = run != null && !run.power().isEmpty();
    boolean inStart = start != null && !start.power().isEmpty();
    if (!inRun && !inStart) {
      String why =
          run == null && start == null
              ? "no whole cycle"
              : r.motor.currentsInWindings() ? IN_WINDINGS : ThreeWire.missing(channels(r));
      return new LinkedHashMap<>(
          WaveformFigures.none(why.isEmpty() ? "no run was reached" : why).runFigures());
    }
    // Meter class 1 on voltage and on current each.
    double share = Math.sqrt(2) * Accuracy.GAIN;
    figures.put(
        "active_power_W",
        figure(
            run,
            start,
            ThreeWirePower::activePowerW,
            "W",
            share,
            "P of IEEE 1459, median over the run"));
    figures.put(
        "reactive_power_var",
        figure(
            run,
            start,
            ThreeWirePower::dominantReactivePowerVar,
            "var",
            share,
            "Q1 of IEEE 1459 in the sequence the voltages turn in, median over the run"));
    figures.put(
        "apparent_power_VA",
        figure(
            run,
            start,
            ThreeWirePower::apparentPowerVA,
            "VA",
            share,
            "Se of IEEE 1459, median over the run"));
    figures.put(
        "power_factor",
        figure(
            run,
            start,
            ThreeWirePower::powerFactor,
            "",
            0.01,
            "P / Se of IEEE 1459, median over the run"));
    figures.put("air_gap_torque_Nm", torque(r, run, start));
    return figures;
  }

  private static Map<ChannelName, Samples> channels(Readings r) {
    Map<ChannelName, Samples> channels = new LinkedHashMap<>();
    for (ChannelName name : r.trace.names()) {
      Samples samples = r.trace.channel(name);
      if (samples != null) {
        channels.put(name, samples);
      }
    }
    return channels;
  }

  private static Measured figure(
      @Nullable CycleSeries run,
      @Nullable CycleSeries start,
      ToDoubleFunction<ThreeWirePower> quantity,
      String unit,
      double uncertaintyShare,
      String rule) {
    Function<CycleSeries, double[]> series =
        cycles -> WaveformFigures.series(cycles.power(), quantity);
    Measured figure = figure(run, start, series, unit, rule);
    Double value = figure.value();
    return value == null ? figure : figure.withUncertainty(Math.abs(value) * uncertaintyShare);
  }

  private static Measured figure(
      @Nullable CycleSeries run,
      @Nullable CycleSeries start,
      Function<CycleSeries, double[]> quantity,
      String unit,
      String rule) {
    Map<String, Double> parts = new LinkedHashMap<>();
    if (start != null && !start.power().isEmpty()) {
      double[] series = quantity.apply(start);
      double largest = Noise.largest(series, 0, series.length);
      if (Double.isFinite(largest)) {
        parts.put("largest_in_start", largest);
      }
    }
    if (run == null || run.power().isEmpty()) {
      return Measured.missing(unit, "no run was reached").withParts(parts);
    }
    double[] series = quantity.apply(run);
    double value = Noise.median(series, 0, series.length);
    if (!Double.isFinite(value)) {
      return Measured.missing(unit, "voltage or current has no good samples in the run")
          .withParts(parts);
    }
    parts.put("run", value);
    return Measured.of(value, unit, null, run.fromS()[0], run.toS()[run.size() - 1], rule)
        .withParts(parts);
  }

  /**
   * Mean air-gap torque a cycle from the power taken, which holds on either side of the thyristors.
   * Synchronous speed is that of the cycle itself: a generating set's frequency sags in the start.
   */
  private static Measured torque(
      Readings r, @Nullable CycleSeries run, @Nullable CycleSeries start) {
    Double ratedRpm = r.motor.ratedSpeedRpm();
    if (r.cycles == null || ratedRpm == null || !(ratedRpm > 0)) {
      return Measured.missing("N m", "needs the motor's rated speed, for its number of poles");
    }
    double nominalHz =
        r.motor.ratedFrequencyHz() != null ? r.motor.ratedFrequencyHz() : r.cycles.frequencyHz();
    double pairs = Math.max(1, Math.floor(60 * nominalHz / ratedRpm));
    Double winding = r.motor.windingResistanceOhm();
    Double voltage = r.motor.ratedVoltageV();
    Double rated = r.motor.ratedCurrentA();
    double statorOhm;
    double resistanceShare;
    String basis;
    if (winding != null) {
      statorOhm = winding / 2;
      resistanceShare = 0.2;
      basis = "winding resistance of the asset sheet";
    } else if (voltage != null && rated != null) {
      // Stator and rotor copper are near each other; the rotor's per unit is the rated slip.
      double slip = Math.max(0.003, 1 - ratedRpm * pairs / (60 * nominalHz));
      statorOhm = slip * voltage / (Math.sqrt(3) * rated);
      resistanceShare = ESTIMATED_RESISTANCE_UNCERTAINTY;
      basis = "stator resistance estimated from the rated slip (common practice, no source)";
    } else {
      return Measured.missing("N m", "needs the winding resistance, or rated voltage and current");
    }
    double cableOhm = r.motor.cableOhm();
    Function<CycleSeries, double[]> torqueNm =
        cycles -> {
          double[] series = new double[cycles.power().size()];
          for (int k = 0; k < series.length; k++) {
            ThreeWirePower p = cycles.power().get(k);
            double lostW = 3 * (statorOhm + cableOhm) * Math.pow(p.effectiveCurrentA(), 2);
            series[k] = (p.activePowerW() - lostW) / cycles.syncRadPerS(k, pairs);
          }
          return series;
        };
    Measured value =
        figure(
            run,
            start,
            torqueNm,
            "N m",
            "estimate: (P - 3 R I²) / synchronous speed; "
                + basis
                + (cableOhm > 0 ? ", and that of the cable from the busbar" : ""));
    Double runNm = value.value();
    if (runNm == null || run == null) {
      return value;
    }
    double[] current = WaveformFigures.series(run.power(), ThreeWirePower::effectiveCurrentA);
    double copperW = 3 * statorOhm * Math.pow(Noise.median(current, 0, current.length), 2);
    return value.withUncertainty(
        Math.hypot(
            Math.abs(runNm) * Math.sqrt(2) * Accuracy.GAIN,
            resistanceShare * copperW / run.syncRadPerS(run.size() / 2, pairs)));
  }

  /** What RMS readings tell of power in the run: the apparent power, and P from a power channel. */
  static Map<String, Measured> fromReadings(Readings r, RunLevel level) {
    Map<String, Measured> figures = new LinkedHashMap<>();
    int from = r.firstAtOrAfter(level.fromS());
    int to = Math.min(r.t.length, r.firstAtOrAfter(level.toS()));
    if (!level.currentA().isPresent() || to <= from) {
      return figures;
    }
    double share = Math.sqrt(2) * Accuracy.GAIN;
    boolean inWindings = r.motor.currentsInWindings();
    double amps = mean(r.current, from, to) * (inWindings ? Math.sqrt(3) : 1);
    double volts = mean(r.voltageForExtremes, from, to);
    double apparent = Math.sqrt(3) * volts * amps;
    if (!Double.isNaN(apparent)) {
      figures.put(
          "apparent_power_VA",
          Measured.of(
              apparent,
              "VA",
              share * apparent,
              level.fromS(),
              level.toS(),
              inWindings
                  ? "3 x mean line voltage x mean winding current of RMS readings in the run"
                  : "sqrt(3) x mean line voltage x mean current of RMS readings in the run"));
    }
    double[] watts = r.track.of(ChannelName.POWER);
    double active = watts == null ? Double.NaN : Noise.median(watts, from, to);
    if (!Double.isNaN(active)) {
      figures.put(
          "active_power_W",
          Measured.of(
              active,
              "W",
              share * Math.abs(active),
              level.fromS(),
              level.toS(),
              "median of the power channel in the run"));
      if (apparent > 0) {
        double factor = active / apparent;
        figures.put(
            "power_factor",
            Measured.of(
                factor,
                "",
                share * factor,
                level.fromS(),
                level.toS(),
                "power channel over apparent power"));
      }
    }
    return figures;
  }

  private static double mean(double[][] channels, int from, int to) {
    double sum = 0;
    for (double[] channel : channels) {
      sum += Noise.median(channel, from, to);
    }
    return channels.length == 0 ? Double.NaN : sum / channels.length;
  }
}
