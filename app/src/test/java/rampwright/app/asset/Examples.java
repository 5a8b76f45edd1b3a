package rampwright.app.asset;

/** An invented asset and its settings, as texts tests start from. */
public final class Examples {
  private Examples() {}

  /** A complete asset file. */
  public static final String ASSET =
      """
      [asset]
      id = "BP-2"
      name = "Booster pump 2"
      site = "north hall"

      [motor]
      rated_power_kW = 90.0
      rated_voltage_V = 400.0
      rated_current_A = 160.0
      rated_frequency_Hz = 50.0
      rated_speed_rpm = 1482.0
      power_factor = 0.87
      efficiency_pct = 94.8
      locked_rotor_current_ratio = 7.2
      locked_rotor_torque_ratio = 2.1
      breakdown_torque_ratio = 2.8
      inertia_kgm2 = 1.4
      locked_rotor_time_hot_s = 12.0
      locked_rotor_time_cold_s = 25.0
      thermal_time_constant_min = 30.0
      cooling_time_constant_min = 90.0
      starts_per_hour = 6
      winding_resistance_ohm = 0.031

      [starter]
      rated_current_A = 170.0
      rating_index = "AC-53b: 3.5-30:330"
      trip_class = "20"
      wiring = "in line"
      [starter.settings]
      current_limit_ratio = { min = 1.5, max = 5.0, step = 0.1 }
      ramp_up_s = { min = 1, max = 60, step = 0.5 }

      [load]
      kind = "quadratic"
      inertia_kgm2 = 2.0
      power_kW = 78.0
      breakaway_torque_pct = 20.0

      [supply]
      voltage_V = 400.0
      fault_level_MVA = 12.0

      [pipe]
      length_m = 640.0
      wave_speed_m_s = 1100.0
      velocity_m_s = 1.6
      static_head_m = 32.0
      check_valve = true

      [envelope]
      peak_current_ratio = { max = 3.5 }
      start_time_s = { min = 4.0, max = 12.0 }
      stop_time_s = { min = 6.0, max = 20.0 }

      [[envelope.corridor]]
      channel = "current_ratio"
      part = "start"
      upper = [[0, 3.6], [10, 3.6], [12, 1.2]]
      lower = []
      """;

  /** A complete settings file. */
  public static final String SETTINGS =
      """
      control = "torque ramp"
      current_limit_ratio = 3.5
      ramp_up_s = 10.0
      initial_torque_pct = 20.0
      initial_voltage_pct = 40.0
      pulse_voltage_pct = 0.0
      pulse_s = 0.0
      stop = "soft"
      release_torque_pct = 20.0
      ramp_down_s = 10.0

      [trial]
      at = 2026-03-14T09:12:05Z
      representative = false
      reason = "valve was shut"
      corrected = { full_speed_s = 12.4, reason = "speed pickup slipped" }

      [columns]
      time = { name = "t", unit = "s" }
      i1 = { name = "Ch 00", unit = "V", scale = 23.81, offset = 0.0 }
      speed = { index = 3 }

      [seen]
      outcome = "completed"
      by = "clamp meter and watch"
      peak_current_ratio = 3.4
      start_time_s = 11.5
      """;

  /** The asset file with one text replaced by another; fails when the text is not there. */
  public static String assetWith(String text, String other) {
    if (!ASSET.contains(text)) {
      throw new IllegalArgumentException("not in the example: " + text);
    }
    return ASSET.replace(text, other);
  }
}
