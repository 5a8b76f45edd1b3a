package rampwright.app.asset;

import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;

/**
 * The motor's nameplate and data sheet. The first seven are always there; the others may be null.
 *
 * @param ratedPowerKw shaft power, kW
 * @param ratedVoltageV line to line, V RMS
 * @param ratedCurrentA line current, A RMS
 * @param ratedFrequencyHz supply frequency, Hz
 * @param ratedSpeedRpm at rated load, rpm
 * @param powerFactor at rated load
 * @param efficiencyPct at rated load, %
 * @param lockedRotorCurrentRatio over rated current
 * @param lockedRotorTorqueRatio over rated torque
 * @param breakdownTorqueRatio over rated torque
 * @param inertiaKgM2 of the rotor
 * @param lockedRotorTimeHotS safe stall time from running temperature
 * @param lockedRotorTimeColdS safe stall time from cold
 * @param thermalTimeConstantMin running
 * @param coolingTimeConstantMin standing still
 * @param startsPerHour allowed by the maker
 * @param windingResistanceOhm line to line at 20 °C
 */
public record Motor(
    double ratedPowerKw,
    double ratedVoltageV,
    double ratedCurrentA,
    double ratedFrequencyHz,
    double ratedSpeedRpm,
    double powerFactor,
    double efficiencyPct,
    @Nullable Double lockedRotorCurrentRatio,
    @Nullable Double lockedRotorTorqueRatio,
    @Nullable Double breakdownTorqueRatio,
    @Nullable Double inertiaKgM2,
    @Nullable Double lockedRotorTimeHotS,
    @Nullable Double lockedRotorTimeColdS,
    @Nullable Double thermalTimeConstantMin,
    @Nullable Double coolingTimeConstantMin,
    @Nullable Double startsPerHour,
    @Nullable Double windingResistanceOhm) {

  public static final NumberKey RATED_POWER_KW =
      new NumberKey(
          "rated_power_kW",
          "kW",
          0.01,
          50_000,
          "shaft power",
          "a number in W belongs divided by 1000");
  public static final NumberKey RATED_POWER_HP =
      new NumberKey("rated_power_hp", "hp", 0.01, 70_000, "shaft power", "");
  public static final NumberKey RATED_VOLTAGE_V =
      new NumberKey(
          "rated_voltage_V", "V", 24, 36_000, "line to line", "a number in kV belongs times 1000");
  public static final NumberKey RATED_CURRENT_A =
      new NumberKey("rated_current_A", "A", 0.05, 10_000, "rated current, RMS", "");
  public static final NumberKey RATED_FREQUENCY_HZ =
      new NumberKey("rated_frequency_Hz", "Hz", 10, 400, "supply frequency", "");
  public static final NumberKey RATED_SPEED_RPM =
      new NumberKey("rated_speed_rpm", "rpm", 50, 24_000, "speed at rated load", "");
  public static final NumberKey POWER_FACTOR =
      new NumberKey(
          "power_factor",
          "",
          0.3,
          1,
          "the cosine at rated load, a ratio",
          "a number in percent belongs divided by 100");
  public static final NumberKey EFFICIENCY_PCT =
      new NumberKey(
          "efficiency_pct",
          "%",
          20,
          100,
          "efficiency at rated load",
          "a ratio such as 0.948 belongs times 100");
  public static final NumberKey LOCKED_ROTOR_CURRENT_RATIO =
      new NumberKey(
          "locked_rotor_current_ratio",
          "",
          1.5,
          15,
          "locked-rotor over rated current",
          "amperes belong divided by the rated current");
  public static final NumberKey LOCKED_ROTOR_TORQUE_RATIO =
      new NumberKey(
          "locked_rotor_torque_ratio",
          "",
          0.1,
          6,
          "locked-rotor over rated torque",
          "percent belong divided by 100");
  public static final NumberKey BREAKDOWN_TORQUE_RATIO =
      new NumberKey(
          "breakdown_torque_ratio",
          "",
          1,
          8,
          "largest over rated torque",
          "percent belong divided by 100");
  public static final NumberKey INERTIA_KGM2 =
      new NumberKey("inertia_kgm2", "kg m2", 1e-5, 1e5, "moment of inertia of the rotor", "");
  public static final NumberKey LOCKED_ROTOR_TIME_HOT_S =
      new NumberKey("locked_rotor_time_hot_s", "s", 0.5, 300, "safe stall time from hot", "");
  public static final NumberKey LOCKED_ROTOR_TIME_COLD_S =
      new NumberKey("locked_rotor_time_cold_s", "s", 0.5, 600, "safe stall time from cold", "");
  public static final NumberKey THERMAL_TIME_CONSTANT_MIN =
      new NumberKey(
          "thermal_time_constant_min", "min", 0.5, 600, "heating time constant when running", "");
  public static final NumberKey COOLING_TIME_CONSTANT_MIN =
      new NumberKey(
          "cooling_time_constant_min", "min", 0.5, 3000, "cooling time constant at standstill", "");
  public static final NumberKey STARTS_PER_HOUR =
      new NumberKey("starts_per_hour", "", 0.01, 120, "starts allowed an hour", "");
  public static final NumberKey WINDING_RESISTANCE_OHM =
      new NumberKey("winding_resistance_ohm", "ohm", 1e-5, 1000, "line to line at 20 °C", "");

  public Motor {
    RATED_POWER_KW.checked(ratedPowerKw);
    RATED_VOLTAGE_V.checked(ratedVoltageV);
    RATED_CURRENT_A.checked(ratedCurrentA);
    RATED_FREQUENCY_HZ.checked(ratedFrequencyHz);
    RATED_SPEED_RPM.checked(ratedSpeedRpm);
    POWER_FACTOR.checked(powerFactor);
    EFFICIENCY_PCT.checked(efficiencyPct);
    LOCKED_ROTOR_CURRENT_RATIO.checkedOptional(lockedRotorCurrentRatio);
    LOCKED_ROTOR_TORQUE_RATIO.checkedOptional(lockedRotorTorqueRatio);
    BREAKDOWN_TORQUE_RATIO.checkedOptional(breakdownTorqueRatio);
    INERTIA_KGM2.checkedOptional(inertiaKgM2);
    LOCKED_ROTOR_TIME_HOT_S.checkedOptional(lockedRotorTimeHotS);
    LOCKED_ROTOR_TIME_COLD_S.checkedOptional(lockedRotorTimeColdS);
    THERMAL_TIME_CONSTANT_MIN.checkedOptional(thermalTimeConstantMin);
    COOLING_TIME_CONSTANT_MIN.checkedOptional(coolingTimeConstantMin);
    STARTS_PER_HOUR.checkedOptional(startsPerHour);
    WINDING_RESISTANCE_OHM.checkedOptional(windingResistanceOhm);
  }

  /**
   * The current its rated power takes, A: P / (sqrt(3) U pf eff), the definitions of efficiency and
   * power factor.
   */
  public double currentOfPowerA() {
    return 1000 * ratedPowerKw / (Math.sqrt(3) * ratedVoltageV * powerFactor * efficiencyPct / 100);
  }

  /** Whether rated current and rated power are those of one motor, to a quarter. */
  public boolean isPlateOfOneMotor() {
    double off = ratedCurrentA / currentOfPowerA();
    return off <= PlateChecks.ODD_FACTOR && off >= 1 / PlateChecks.ODD_FACTOR;
  }
}
