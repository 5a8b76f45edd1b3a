package rampwright.analysis.machine;

/** Figures a simulated run can give, by the keys and definitions of the figures of a trace. */
public enum RunFigure {
  START_TIME("start_time_s"),
  BREAKAWAY_DELAY("breakaway_delay_s"),
  SETTLING_TIME("settling_time_s"),
  PEAK_CURRENT_A("peak_current_A"),
  PEAK_CURRENT("peak_current_ratio"),
  RMS_CURRENT_A("rms_current_A"),
  RMS_CURRENT("rms_current_ratio"),
  I2T_A2S("i2t_A2s"),
  I2T("i2t_ratio_s"),
  VOLTAGE_BEFORE("voltage_before_V"),
  VOLTAGE_MIN("voltage_min_V"),
  VOLTAGE_DIP("voltage_dip_pct"),
  START_DROP("start_drop_pct"),
  DIP_DURATION("dip_duration_s"),
  RUN_CURRENT("run_current_A"),
  ACTIVE_POWER("active_power_W"),
  REACTIVE_POWER("reactive_power_var"),
  APPARENT_POWER("apparent_power_VA"),
  POWER_FACTOR("power_factor"),
  ACCELERATION_ENERGY("acceleration_energy_J"),
  STOP_TIME("stop_time_s"),
  CONTROLLED_TIME("controlled_time_s"),
  SPEED_AT_RELEASE("speed_at_release_pct"),
  STOP_90_10("stop_90_10_s"),
  STOP_DECELERATION("stop_deceleration_pct_per_s"),
  STOP_PEAK_CURRENT("stop_peak_current_ratio"),
  STOP_I2T("stop_i2t_ratio_s"),
  PIPE_PERIODS("pipe_periods"),
  PRESSURE_PEAK("pressure_peak_bar");

  private final String key;

  RunFigure(String key) {
    this.key = key;
  }

  /** Key used in files. */
  public String key() {
    return key;
  }

  /** Whether this is a figure of the stop. */
  public boolean ofStop() {
    return compareTo(STOP_TIME) >= 0;
  }
}
