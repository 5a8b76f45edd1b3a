package rampwright.app.asset;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;
import rampwright.acquisition.toml.TomlText;
import rampwright.app.envelope.Corridor;
import rampwright.app.envelope.Envelope;
import rampwright.app.envelope.Limit;
import rampwright.app.envelope.Polyline;

/** An asset as the text of {@code asset.toml}. */
final class AssetText {
  private AssetText() {}

  static String of(Asset asset) {
    TomlText out = new TomlText();
    out.section("asset").put("id", asset.id()).put("name", asset.name()).put("site", asset.site());
    out.put("zone", asset.zone() == null ? null : String.valueOf(asset.zone()));
    motor(out.section("motor"), asset.motor());
    Starter starter = asset.starter();
    if (starter != null) {
      starter(out.section("starter"), starter);
    }
    Load load = asset.load();
    if (load != null) {
      out.section("load").put("kind", load.kind().key());
      put(out, Load.INERTIA_KGM2, load.inertiaKgM2());
      put(out, Load.POWER_KW, load.powerKw());
      put(out, Load.BREAKAWAY_TORQUE_PCT, load.breakawayTorquePct());
    }
    Supply supply = asset.supply();
    if (supply != null) {
      supply(out.section("supply"), supply);
    }
    Pipe pipe = asset.pipe();
    if (pipe != null) {
      out.section("pipe");
      put(out, Pipe.LENGTH_M, pipe.lengthM());
      put(out, Pipe.WAVE_SPEED_M_S, pipe.waveSpeedMPerS());
      put(out, Pipe.VELOCITY_M_S, pipe.velocityMPerS());
      put(out, Pipe.STATIC_HEAD_M, pipe.staticHeadM());
      put(out, Pipe.TOTAL_HEAD_M, pipe.totalHeadM());
      out.put("check_valve", pipe.checkValve());
    }
    if (!asset.envelope().isEmpty()) {
      envelope(out.section("envelope"), asset.envelope());
    }
    return out.toString();
  }

  private static void put(TomlText out, NumberKey key, @Nullable Double value) {
    out.put(key.name(), value);
  }

  private static void motor(TomlText out, Motor motor) {
    put(out, Motor.RATED_POWER_KW, motor.ratedPowerKw());
    put(out, Motor.RATED_VOLTAGE_V, motor.ratedVoltageV());
    put(out, Motor.RATED_CURRENT_A, motor.ratedCurrentA());
    put(out, Motor.RATED_FREQUENCY_HZ, motor.ratedFrequencyHz());
    put(out, Motor.RATED_SPEED_RPM, motor.ratedSpeedRpm());
    put(out, Motor.POWER_FACTOR, motor.powerFactor());
    put(out, Motor.EFFICIENCY_PCT, motor.efficiencyPct());
    put(out, Motor.LOCKED_ROTOR_CURRENT_RATIO, motor.lockedRotorCurrentRatio());
    put(out, Motor.LOCKED_ROTOR_TORQUE_RATIO, motor.lockedRotorTorqueRatio());
    put(out, Motor.BREAKDOWN_TORQUE_RATIO, motor.breakdownTorqueRatio());
    put(out, Motor.INERTIA_KGM2, motor.inertiaKgM2());
    put(out, Motor.LOCKED_ROTOR_TIME_HOT_S, motor.lockedRotorTimeHotS());
    put(out, Motor.LOCKED_ROTOR_TIME_COLD_S, motor.lockedRotorTimeColdS());
    put(out, Motor.THERMAL_TIME_CONSTANT_MIN, motor.thermalTimeConstantMin());
    put(out, Motor.COOLING_TIME_CONSTANT_MIN, motor.coolingTimeConstantMin());
    put(out, Motor.STARTS_PER_HOUR, motor.startsPerHour());
    put(out, Motor.WINDING_RESISTANCE_OHM, motor.windingResistanceOhm());
  }

  private static void starter(TomlText out, Starter starter) {
    put(out, Starter.RATED_CURRENT_A, starter.ratedCurrentA());
    out.put("rating_index", starter.ratingIndex());
    out.put("trip_class", starter.tripClass());
    out.put("wiring", starter.wiring().key());
    if (starter.measured() != Starter.Wiring.IN_LINE) {
      out.put("measured", starter.measured().key());
    }
    if (!starter.ranges().isEmpty()) {
      out.section("starter.settings");
      for (Map.Entry<String, SettingRange> range : starter.ranges().entrySet()) {
        Map<String, Double> parts = new LinkedHashMap<>();
        parts.put("min", range.getValue().min());
        parts.put("max", range.getValue().max());
        parts.put("step", range.getValue().step());
        out.put(range.getKey(), parts);
      }
    }
  }

  private static void supply(TomlText out, Supply supply) {
    put(out, Supply.VOLTAGE_V, supply.voltageV());
    put(out, Supply.FAULT_LEVEL_MVA, supply.faultLevelMva());
    put(out, Supply.TRANSFORMER_KVA, supply.transformerKva());
    put(out, Supply.TRANSFORMER_IMPEDANCE_PCT, supply.transformerImpedancePct());
    put(out, Supply.CABLE_LENGTH_M, supply.cableLengthM());
    put(out, Supply.CABLE_RESISTANCE, supply.cableResistanceOhmPerKm());
    put(out, Supply.CABLE_REACTANCE, supply.cableReactanceOhmPerKm());
    if (supply.measured() != Supply.Place.STARTER) {
      out.put("measured", supply.measured().key());
    }
  }

  private static void envelope(TomlText out, Envelope envelope) {
    for (Limit limit : envelope.limits()) {
      Map<String, Double> parts = new LinkedHashMap<>();
      Double min = limit.min();
      Double max = limit.max();
      if (min != null) {
        parts.put("min", min);
      }
      if (max != null) {
        parts.put("max", max);
      }
      out.put(limit.figure().key(), parts);
    }
    for (Corridor corridor : envelope.corridors()) {
      out.entry("envelope.corridor")
          .put("channel", corridor.channel().key())
          .put("part", corridor.part().key())
          .raw("upper", points(corridor.upper()))
          .raw("lower", points(corridor.lower()));
    }
  }

  private static String points(Polyline bound) {
    return bound.points().stream()
        .map(
            point ->
                "[" + TomlText.number(point.timeS()) + ", " + TomlText.number(point.value()) + "]")
        .collect(Collectors.joining(", ", "[", "]"));
  }
}
