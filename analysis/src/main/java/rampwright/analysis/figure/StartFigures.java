package rampwright.analysis.figure;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import rampwright.analysis.quantity.Measured;

/** The figures of a start, in the order of the definitions. */
final class StartFigures {
  private StartFigures() {}

  /** The keys every start has, in order, each with its unit. */
  private static final Map<String, String> KEYS = keys();

  private static Map<String, String> keys() {
    Map<String, String> keys = new LinkedHashMap<>();
    keys.put("start_time_s", "s");
    keys.put("breakaway_delay_s", "s");
    keys.put("settling_time_s", "s");
    keys.put("peak_current_A", "A");
    keys.put("peak_current_ratio", "");
    keys.put("crest_current_A", "A");
    keys.put("rms_current_A", "A");
    keys.put("rms_current_ratio", "");
    keys.put("i2t_A2s", "A²s");
    keys.put("i2t_ratio_s", "s");
    keys.put("motor_heat_cold_pct", "%");
    keys.put("motor_heat_hot_pct", "%");
    keys.put("voltage_before_V", "V");
    keys.put("voltage_min_V", "V");
    keys.put("voltage_dip_pct", "%");
    keys.put("start_drop_pct", "%");
    keys.put("dip_duration_s", "s");
    keys.put("run_current_A", "A");
    keys.put("current_unbalance_pct", "%");
    keys.put("negative_sequence_pct", "%");
    keys.put("active_power_W", "W");
    keys.put("reactive_power_var", "var");
    keys.put("apparent_power_VA", "VA");
    keys.put("power_factor", "");
    keys.put("air_gap_torque_Nm", "N m");
    keys.put("thd_pct", "%");
    keys.put("dc_component_pct", "%");
    keys.put("acceleration_energy_J", "J");
    return keys;
  }

  static Map<String, Measured> of(
      Readings r,
      Segment segment,
      RunLevel level,
      Map<String, Measured> instants,
      List<VoltageFigures.Window> supplyDips,
      WaveformFigures waveform) {
    Map<String, Measured> found = new LinkedHashMap<>();
    found.put("run_current_A", level.currentA());
    found.put("acceleration_energy_J", HeatFigures.accelerationEnergy(r.motor, level));
    found.putAll(waveform.runFigures());
    String why = segment.whyNoBeginning();
    if (why != null) {
      return inOrder(found, why);
    }
    found.put("start_time_s", StopFigures.span(instants, "inception_s", "full_speed_s"));
    found.put("breakaway_delay_s", StopFigures.span(instants, "inception_s", "breakaway_s"));
    found.put("settling_time_s", StopFigures.span(instants, "inception_s", "settled_s"));
    Window w = window(segment, instants);
    Double rated = r.motor.ratedCurrentA();
    Measured peak = Extremes.peakCurrent(r, w.fromS, w.toS);
    found.put("peak_current_A", peak);
    found.put("peak_current_ratio", Extremes.overRated(peak, rated, 1, ""));
    found.put("crest_current_A", CurrentFigures.crest(r, w.fromS, w.toS));
    Measured i2t = CurrentFigures.i2t(r, w.fromS, w.fromU, w.toS, w.toU);
    Measured rms = CurrentFigures.rms(r, i2t, w.fromU, w.toU);
    found.put("rms_current_A", rms);
    found.put("rms_current_ratio", Extremes.overRated(rms, rated, 1, ""));
    found.put("i2t_A2s", i2t);
    found.put("i2t_ratio_s", Extremes.overRated(i2t, rated, 2, "s"));
    double negative = waveform.negativeShare();
    found.put(
        "motor_heat_cold_pct",
        HeatFigures.share(i2t, r.motor, r.motor.lockedRotorTimeColdS(), negative));
    found.put(
        "motor_heat_hot_pct",
        HeatFigures.share(i2t, r.motor, r.motor.lockedRotorTimeHotS(), negative));
    found.putAll(VoltageFigures.of(r, w.fromS, w.toS, supplyDips));
    found.put("dip_duration_s", DipDuration.of(r, w.fromS, w.toS));
    found.put("current_unbalance_pct", CurrentFigures.unbalance(r, w.fromS, w.toS));
    found.putAll(waveform.startFigures());
    return inOrder(found, "not taken");
  }

  /** The window of a start's figures. */
  record Window(double fromS, double fromU, double toS, double toU) {}

  /** From inception to full speed; of a failed start to where current ceases or the record ends. */
  static Window window(Segment segment, Map<String, Measured> instants) {
    Flow flow = segment.flow();
    Measured inception = instants.get("inception_s");
    Measured full = instants.get("full_speed_s");
    Double fromS = inception == null ? null : inception.value();
    Double toS = full == null ? null : full.value();
    Double toU = full == null ? null : full.uncertainty();
    return new Window(
        fromS != null ? fromS : flow.fromS(),
        flow.fromUncertaintyS(),
        toS != null ? toS : flow.toS(),
        toS == null ? flow.toUncertaintyS() : toU != null ? toU : 0);
  }

  private static Map<String, Measured> inOrder(Map<String, Measured> found, String whyOther) {
    Map<String, Measured> ordered = new LinkedHashMap<>();
    KEYS.forEach(
        (key, unit) -> {
          Measured figure = found.get(key);
          ordered.put(key, figure != null ? figure : Measured.missing(unit, whyOther));
        });
    return ordered;
  }
}
