package rampwright.app.logbook;

import java.util.List;
import java.util.stream.Collectors;

/**
 * Figures that have a column of their own, in the order of the columns. A new figure goes to the
 * end, with a step of {@link Migrations} that adds its column; a figure without one is kept among
 * the wording.
 */
final class FigureColumns {
  static final List<String> KEYS =
      List.of(
          "start_time_s",
          "breakaway_delay_s",
          "settling_time_s",
          "peak_current_A",
          "peak_current_ratio",
          "crest_current_A",
          "rms_current_A",
          "rms_current_ratio",
          "i2t_A2s",
          "i2t_ratio_s",
          "motor_heat_cold_pct",
          "motor_heat_hot_pct",
          "voltage_before_V",
          "voltage_min_V",
          "voltage_dip_pct",
          "start_drop_pct",
          "dip_duration_s",
          "run_current_A",
          "current_unbalance_pct",
          "negative_sequence_pct",
          "active_power_W",
          "reactive_power_var",
          "apparent_power_VA",
          "power_factor",
          "air_gap_torque_Nm",
          "thd_pct",
          "dc_component_pct",
          "acceleration_energy_J",
          "stop_time_s",
          "controlled_time_s",
          "speed_at_release_pct",
          "stop_90_10_s",
          "stop_deceleration_pct_per_s",
          "stop_peak_current_ratio",
          "stop_i2t_ratio_s",
          "pipe_periods",
          "pressure_peak_bar",
          "pressure_min_bar");

  private FigureColumns() {}

  /** The columns for a SELECT, each with a prefix. */
  static String listed(String prefix) {
    return KEYS.stream().map(key -> prefix + key).collect(Collectors.joining(", "));
  }
}
