package rampwright.analysis.figure;

import java.util.LinkedHashMap;
import java.util.Map;
import rampwright.analysis.quantity.Measured;

/**
 * Figures that need the waveform: sequences, power, harmonics, direct current.
 *
 * @param startFigures figures over the start, by key
 * @param runFigures figures over the run, by key
 * @param negativeShare I2/I1 over the start; 0 where it cannot be told
 * @param harmonics harmonic shares over the start by order
 */
record WaveformFigures(
    Map<String, Measured> startFigures,
    Map<String, Measured> runFigures,
    double negativeShare,
    Map<Integer, TraceFigures.HarmonicShare> harmonics) {

  /** RMS readings have none of them. */
  static WaveformFigures none(String why) {
    Map<String, Measured> start = new LinkedHashMap<>();
    start.put("negative_sequence_pct", Measured.missing("%", why));
    start.put("thd_pct", Measured.missing("%", why));
    start.put("dc_component_pct", Measured.missing("%", why));
    Map<String, Measured> run = new LinkedHashMap<>();
    run.put("active_power_W", Measured.missing("W", why));
    run.put("reactive_power_var", Measured.missing("var", why));
    run.put("apparent_power_VA", Measured.missing("VA", why));
    run.put("power_factor", Measured.missing("", why));
    run.put("air_gap_torque_Nm", Measured.missing("N m", why));
    return new WaveformFigures(start, run, 0, Map.of());
  }
}
