package rampwright.app.envelope;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * The figures by name: which part of a trial they belong to, their unit and what people call them.
 * Definitions are the analysis module's.
 */
public enum FigureKey {
  START_TIME("start_time_s", Part.START, "s", "start time"),
  BREAKAWAY_DELAY("breakaway_delay_s", Part.START, "s", "breakaway delay"),
  SETTLING_TIME("settling_time_s", Part.START, "s", "settling time"),
  PEAK_CURRENT("peak_current_A", Part.START, "A", "peak current"),
  PEAK_CURRENT_RATIO("peak_current_ratio", Part.START, "", "peak current / rated"),
  CREST_CURRENT("crest_current_A", Part.START, "A", "crest current"),
  RMS_CURRENT("rms_current_A", Part.START, "A", "RMS current of the start"),
  RMS_CURRENT_RATIO("rms_current_ratio", Part.START, "", "RMS current / rated"),
  I2T("i2t_A2s", Part.START, "A²s", "I2t"),
  I2T_RATIO("i2t_ratio_s", Part.START, "s", "I2t / rated squared"),
  MOTOR_HEAT_COLD("motor_heat_cold_pct", Part.START, "%", "motor heat used, from cold"),
  MOTOR_HEAT_HOT("motor_heat_hot_pct", Part.START, "%", "motor heat used, from hot"),
  VOLTAGE_BEFORE("voltage_before_V", Part.START, "V", "voltage before"),
  VOLTAGE_MIN("voltage_min_V", Part.START, "V", "lowest voltage"),
  VOLTAGE_DIP("voltage_dip_pct", Part.START, "%", "voltage dip"),
  START_DROP("start_drop_pct", Part.START, "%", "voltage drop of the start itself"),
  DIP_DURATION("dip_duration_s", Part.START, "s", "dip duration"),
  RUN_CURRENT("run_current_A", Part.START, "A", "run current"),
  CURRENT_UNBALANCE("current_unbalance_pct", Part.START, "%", "current unbalance"),
  NEGATIVE_SEQUENCE("negative_sequence_pct", Part.START, "%", "negative sequence"),
  ACTIVE_POWER("active_power_W", Part.START, "W", "active power"),
  REACTIVE_POWER("reactive_power_var", Part.START, "var", "reactive power"),
  APPARENT_POWER("apparent_power_VA", Part.START, "VA", "apparent power"),
  POWER_FACTOR("power_factor", Part.START, "", "power factor"),
  AIR_GAP_TORQUE("air_gap_torque_Nm", Part.START, "N m", "air-gap torque (estimate)"),
  THD("thd_pct", Part.START, "%", "harmonic distortion"),
  DC_COMPONENT("dc_component_pct", Part.START, "%", "d.c. component"),
  ACCELERATION_ENERGY("acceleration_energy_J", Part.START, "J", "acceleration energy"),
  STOP_TIME("stop_time_s", Part.STOP, "s", "stop time"),
  CONTROLLED_TIME("controlled_time_s", Part.STOP, "s", "controlled time"),
  SPEED_AT_RELEASE("speed_at_release_pct", Part.STOP, "%", "speed at release"),
  STOP_90_10("stop_90_10_s", Part.STOP, "s", "stop, 90 % to 10 % speed"),
  STOP_DECELERATION("stop_deceleration_pct_per_s", Part.STOP, "%/s", "steepest deceleration"),
  STOP_PEAK_CURRENT("stop_peak_current_ratio", Part.STOP, "", "peak stop current / rated"),
  STOP_I2T("stop_i2t_ratio_s", Part.STOP, "s", "stop I2t / rated squared"),
  PIPE_PERIODS("pipe_periods", Part.STOP, "", "stop time in pipe periods"),
  PRESSURE_PEAK("pressure_peak_bar", Part.STOP, "bar", "pressure rise"),
  PRESSURE_MIN("pressure_min_bar", Part.STOP, "bar", "pressure fall");

  /** Which part of a trial a figure is taken from. */
  public enum Part {
    START("start"),
    STOP("stop");

    private final String key;

    Part(String key) {
      this.key = key;
    }

    /** Word used in files. */
    public String key() {
      return key;
    }
  }

  private static final Map<String, FigureKey> BY_KEY =
      Arrays.stream(values()).collect(Collectors.toMap(FigureKey::key, Function.identity()));

  private final String key;
  private final Part part;
  private final String unit;
  private final String label;

  FigureKey(String key, Part part, String unit, String label) {
    this.key = key;
    this.part = part;
    this.unit = unit;
    this.label = label;
  }

  /** Name in files and JSON, unit included. */
  public String key() {
    return key;
  }

  public Part part() {
    return part;
  }

  /** Unit symbol; empty for a ratio. */
  public String unit() {
    return unit;
  }

  /** What people call it. */
  public String label() {
    return label;
  }

  /** The figure of that key, if there is one. */
  public static Optional<FigureKey> ofKey(String key) {
    return Optional.ofNullable(BY_KEY.get(key));
  }

  /** What people call the figure of a key; the key itself where nobody named it yet. */
  public static String labelOf(String key) {
    FigureKey known = BY_KEY.get(key);
    return known == null ? key : known.label;
  }

  /** All keys in the order of the definitions. */
  public static List<String> keys() {
    return Arrays.stream(values()).map(FigureKey::key).toList();
  }
}
