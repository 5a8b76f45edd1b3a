package rampwright.app.report;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;
import rampwright.app.asset.Asset;
import rampwright.app.asset.Load;
import rampwright.app.asset.Motor;
import rampwright.app.asset.Pipe;
import rampwright.app.asset.Starter;
import rampwright.app.asset.Supply;
import rampwright.app.wording.ValueText;

/**
 * One line of an asset's sheet.
 *
 * @param section motor, starter, supply, load or pipe
 * @param key as in asset.toml; empty for a section that is not there
 * @param meaning what it is
 * @param value as given; null where it is not given
 * @param unit empty for a ratio or a word
 */
public record SheetRow(
    String section, String key, String meaning, @Nullable String value, String unit) {

  /** Units at the end of keys, the longer first. */
  private static final List<String> UNITS =
      List.of(
          "_ohm_per_km",
          "_kgm2",
          "_MVA",
          "_kVA",
          "_ohm",
          "_min",
          "_pct",
          "_rpm",
          "_m_s",
          "_kW",
          "_Hz",
          "_V",
          "_A",
          "_s",
          "_m");

  /** The sheet line by line, what is not given too. */
  public static List<SheetRow> of(Asset asset) {
    List<SheetRow> rows = new ArrayList<>();
    motor(asset.motor(), rows);
    Starter starter = asset.starter();
    if (starter == null) {
      rows.add(absent("starter"));
    } else {
      starter(starter, rows);
    }
    Supply supply = asset.supply();
    if (supply == null) {
      rows.add(absent("supply"));
    } else {
      supply(supply, rows);
    }
    Load load = asset.load();
    if (load == null) {
      rows.add(absent("load"));
    } else {
      rows.add(word("load", "kind", "how its torque goes with speed", load.kind().key()));
      rows.add(number("load", Load.POWER_KW, load.powerKw()));
      rows.add(number("load", Load.INERTIA_KGM2, load.inertiaKgM2()));
      rows.add(number("load", Load.BREAKAWAY_TORQUE_PCT, load.breakawayTorquePct()));
    }
    Pipe pipe = asset.pipe();
    if (pipe != null) {
      pipe(pipe, rows);
    }
    return rows;
  }

  private static void motor(Motor motor, List<SheetRow> rows) {
    rows.add(number("motor", Motor.RATED_POWER_KW, motor.ratedPowerKw()));
    rows.add(number("motor", Motor.RATED_VOLTAGE_V, motor.ratedVoltageV()));
    rows.add(number("motor", Motor.RATED_CURRENT_A, motor.ratedCurrentA()));
    rows.add(number("motor", Motor.RATED_FREQUENCY_HZ, motor.ratedFrequencyHz()));
    rows.add(number("motor", Motor.RATED_SPEED_RPM, motor.ratedSpeedRpm()));
    rows.add(number("motor", Motor.POWER_FACTOR, motor.powerFactor()));
    rows.add(number("motor", Motor.EFFICIENCY_PCT, motor.efficiencyPct()));
    rows.add(number("motor", Motor.LOCKED_ROTOR_CURRENT_RATIO, motor.lockedRotorCurrentRatio()));
    rows.add(number("motor", Motor.LOCKED_ROTOR_TORQUE_RATIO, motor.lockedRotorTorqueRatio()));
    rows.add(number("motor", Motor.BREAKDOWN_TORQUE_RATIO, motor.breakdownTorqueRatio()));
    rows.add(number("motor", Motor.INERTIA_KGM2, motor.inertiaKgM2()));
    rows.add(number("motor", Motor.LOCKED_ROTOR_TIME_HOT_S, motor.lockedRotorTimeHotS()));
    rows.add(number("motor", Motor.LOCKED_ROTOR_TIME_COLD_S, motor.lockedRotorTimeColdS()));
    rows.add(number("motor", Motor.THERMAL_TIME_CONSTANT_MIN, motor.thermalTimeConstantMin()));
    rows.add(number("motor", Motor.COOLING_TIME_CONSTANT_MIN, motor.coolingTimeConstantMin()));
    rows.add(number("motor", Motor.STARTS_PER_HOUR, motor.startsPerHour()));
    rows.add(number("motor", Motor.WINDING_RESISTANCE_OHM, motor.windingResistanceOhm()));
  }

  private static void starter(Starter starter, List<SheetRow> rows) {
    rows.add(number("starter", Starter.RATED_CURRENT_A, starter.ratedCurrentA()));
    rows.add(
        word("starter", "rating_index", "utilisation category and index", starter.ratingIndex()));
    rows.add(word("starter", "trip_class", "overload trip class as set", starter.tripClass()));
    rows.add(word("starter", "wiring", "where it sits", starter.wiring().key()));
    if (starter.measured() != starter.wiring()) {
      rows.add(
          word(
              "starter",
              "measured",
              "where the traces' currents were taken",
              starter.measured().key()));
    }
  }

  private static void supply(Supply supply, List<SheetRow> rows) {
    rows.add(number("supply", Supply.VOLTAGE_V, supply.voltageV()));
    boolean transformer = supply.transformerKva() != null;
    if (!transformer) {
      rows.add(number("supply", Supply.FAULT_LEVEL_MVA, supply.faultLevelMva()));
    } else {
      rows.add(number("supply", Supply.TRANSFORMER_KVA, supply.transformerKva()));
      rows.add(
          number("supply", Supply.TRANSFORMER_IMPEDANCE_PCT, supply.transformerImpedancePct()));
    }
    if (transformer || supply.cableLengthM() != null) {
      rows.add(number("supply", Supply.CABLE_LENGTH_M, supply.cableLengthM()));
      rows.add(number("supply", Supply.CABLE_RESISTANCE, supply.cableResistanceOhmPerKm()));
      rows.add(number("supply", Supply.CABLE_REACTANCE, supply.cableReactanceOhmPerKm()));
    }
    if (supply.cableLengthM() != null) {
      rows.add(
          word(
              "supply",
              "measured",
              "where the traces' voltages were taken",
              supply.measured().key()));
    }
  }

  private static void pipe(Pipe pipe, List<SheetRow> rows) {
    Boolean valve = pipe.checkValve();
    rows.add(number("pipe", Pipe.LENGTH_M, pipe.lengthM()));
    rows.add(number("pipe", Pipe.WAVE_SPEED_M_S, pipe.waveSpeedMPerS()));
    rows.add(number("pipe", Pipe.VELOCITY_M_S, pipe.velocityMPerS()));
    rows.add(number("pipe", Pipe.STATIC_HEAD_M, pipe.staticHeadM()));
    rows.add(number("pipe", Pipe.TOTAL_HEAD_M, pipe.totalHeadM()));
    rows.add(
        word(
            "pipe",
            "check_valve",
            "whether a check valve closes behind the pump",
            valve == null ? null : valve ? "yes" : "no"));
  }

  /** What people call a key: its words without the unit. */
  public String label() {
    String name = key;
    for (String ending : UNITS) {
      if (name.endsWith(ending)) {
        name = name.substring(0, name.length() - ending.length());
        break;
      }
    }
    return name.isEmpty() ? meaning : name.replace('_', ' ');
  }

  private static SheetRow number(String section, NumberKey key, @Nullable Double value) {
    return new SheetRow(
        section,
        key.name(),
        key.meaning(),
        value == null ? null : ValueText.value(value, null),
        key.unit());
  }

  private static SheetRow word(String section, String key, String meaning, @Nullable String value) {
    return new SheetRow(section, key, meaning, value, "");
  }

  private static SheetRow absent(String section) {
    return new SheetRow(section, "", "the whole section [" + section + "]", null, "");
  }
}
