package rampwright.app.asset;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;
import rampwright.acquisition.toml.TomlSection;

/** The sections of an asset file but the envelope, each to its record. */
final class AssetSections {
  /**
   * Kilowatts of one horsepower of 550 foot-pounds a second: 745.6999 W (NIST SP 811, appendix
   * B.8), all its seven printed digits.
   */
  static final double KW_PER_HP = 0.7456999;

  private AssetSections() {}

  static <T> @Nullable T optional(@Nullable TomlSection section, Function<TomlSection, T> reader) {
    return section == null ? null : reader.apply(section);
  }

  static Motor motor(TomlSection in) {
    Motor motor =
        new Motor(
            power(in),
            in.requiredNumber(Motor.RATED_VOLTAGE_V),
            in.requiredNumber(Motor.RATED_CURRENT_A),
            in.requiredNumber(Motor.RATED_FREQUENCY_HZ),
            in.requiredNumber(Motor.RATED_SPEED_RPM),
            in.requiredNumber(Motor.POWER_FACTOR),
            in.requiredNumber(Motor.EFFICIENCY_PCT),
            in.number(Motor.LOCKED_ROTOR_CURRENT_RATIO),
            in.number(Motor.LOCKED_ROTOR_TORQUE_RATIO),
            in.number(Motor.BREAKDOWN_TORQUE_RATIO),
            in.number(Motor.INERTIA_KGM2),
            in.number(Motor.LOCKED_ROTOR_TIME_HOT_S),
            in.number(Motor.LOCKED_ROTOR_TIME_COLD_S),
            in.number(Motor.THERMAL_TIME_CONSTANT_MIN),
            in.number(Motor.COOLING_TIME_CONSTANT_MIN),
            in.number(Motor.STARTS_PER_HOUR),
            in.number(Motor.WINDING_RESISTANCE_OHM));
    in.finish();
    return motor;
  }

  private static double power(TomlSection in) {
    Double kw = in.number(Motor.RATED_POWER_KW);
    Double hp = in.number(Motor.RATED_POWER_HP);
    if (kw != null && hp != null) {
      in.problem(
          Motor.RATED_POWER_HP.name(), "rated_power_hp stands beside rated_power_kW; keep one");
    }
    if (kw != null) {
      return kw;
    }
    if (hp != null) {
      return hp * KW_PER_HP;
    }
    in.missing("rated_power_kW", "the motor's shaft power (rated_power_hp serves as well)");
    return Motor.RATED_POWER_KW.min();
  }

  static Starter starter(TomlSection in) {
    Map<String, Starter.Wiring> wirings = Words.of(Starter.Wiring.values(), Starter.Wiring::key);
    double ratedA = in.requiredNumber(Starter.RATED_CURRENT_A);
    String index = in.text("rating_index");
    String trip = in.text("trip_class");
    Starter.Wiring wiring = in.word("wiring", wirings);
    if (wiring == null) {
      wiring = Starter.Wiring.IN_LINE;
    }
    Starter.Wiring measured = in.word("measured", wirings);
    if (measured == Starter.Wiring.INSIDE_DELTA && wiring == Starter.Wiring.IN_LINE) {
      in.problem(
          "measured",
          "measured = \"inside delta\" needs wiring = \"inside delta\"; mend one of the two");
    }
    Map<String, SettingRange> ranges = new LinkedHashMap<>();
    TomlSection settings = in.section("settings");
    if (settings != null) {
      for (String key : settings.keys()) {
        NumberKey setting = TrialSettings.NUMBERS.get(key);
        TomlSection range = setting == null ? null : settings.section(key);
        if (setting != null && range != null) {
          ranges.put(key, range(settings, range, setting));
        }
      }
      settings.finish(TrialSettings.NUMBERS.keySet());
    }
    in.finish();
    return new Starter(
        ratedA, index, trip, wiring, measured == null ? Starter.Wiring.IN_LINE : measured, ranges);
  }

  private static SettingRange range(TomlSection settings, TomlSection in, NumberKey setting) {
    double min = in.requiredNumber(bound("min", "the smallest " + setting.name(), setting));
    double max = in.requiredNumber(bound("max", "the largest " + setting.name(), setting));
    double step = in.requiredNumber(SettingRange.STEP);
    in.finish();
    if (max < min) {
      settings.problem(setting.name(), setting.name() + ": min is above max; swap them");
      return new SettingRange(max, max, step);
    }
    return new SettingRange(min, max, step);
  }

  private static NumberKey bound(String name, String meaning, NumberKey setting) {
    return new NumberKey(
        name, setting.unit(), setting.min(), setting.max(), meaning, setting.hint());
  }

  static Load load(TomlSection in) {
    Load.Kind kind = in.word("kind", Words.of(Load.Kind.values(), Load.Kind::key));
    if (kind == null) {
      in.missing(
          "kind", "how load torque goes with speed: quadratic, constant, linear, reciprocating");
      kind = Load.Kind.QUADRATIC;
    }
    Load load =
        new Load(
            kind,
            in.number(Load.INERTIA_KGM2),
            in.number(Load.POWER_KW),
            in.number(Load.BREAKAWAY_TORQUE_PCT));
    in.finish();
    return load;
  }

  static Supply supply(TomlSection in) {
    Supply supply =
        new Supply(
            in.requiredNumber(Supply.VOLTAGE_V),
            in.number(Supply.FAULT_LEVEL_MVA),
            in.number(Supply.TRANSFORMER_KVA),
            in.number(Supply.TRANSFORMER_IMPEDANCE_PCT),
            in.number(Supply.CABLE_LENGTH_M),
            in.number(Supply.CABLE_RESISTANCE),
            in.number(Supply.CABLE_REACTANCE),
            place(in));
    if (supply.faultLevelMva() != null && supply.transformerKva() != null) {
      in.problem(
          "fault_level_MVA", "fault_level_MVA stands beside transformer_kVA; keep one of the two");
    }
    if ((supply.transformerKva() == null) != (supply.transformerImpedancePct() == null)) {
      in.missing(
          supply.transformerKva() == null ? "transformer_kVA" : "transformer_impedance_pct",
          "the other half of the transformer's data");
    }
    if ((supply.cableLengthM() == null) != (supply.cableResistanceOhmPerKm() == null)) {
      in.missing(
          supply.cableLengthM() == null ? "cable_length_m" : "cable_resistance_ohm_per_km",
          "needed to know the cable's impedance");
    }
    if (supply.measured() == Supply.Place.BUSBAR && supply.cableLengthM() == null) {
      in.problem(
          "measured",
          "measured = \"busbar\" needs the cable from there to the starter: give cable_length_m and"
              + " cable_resistance_ohm_per_km, or leave measured out");
    }
    in.finish();
    return supply;
  }

  private static Supply.Place place(TomlSection in) {
    Supply.Place place = in.word("measured", Words.of(Supply.Place.values(), Supply.Place::key));
    return place == null ? Supply.Place.STARTER : place;
  }

  static Pipe pipe(TomlSection in) {
    Double lift = in.number(Pipe.STATIC_HEAD_M);
    Double total = in.number(Pipe.TOTAL_HEAD_M);
    if (lift != null && total != null && lift > total) {
      in.problem(
          Pipe.TOTAL_HEAD_M.name(),
          "total_head_m = "
              + total
              + " is less than static_head_m = "
              + lift
              + ": a pump's head is the lift and the friction together; mend one of the two");
    }
    Pipe pipe =
        new Pipe(
            in.requiredNumber(Pipe.LENGTH_M),
            in.requiredNumber(Pipe.WAVE_SPEED_M_S),
            in.number(Pipe.VELOCITY_M_S),
            lift,
            total,
            in.flag("check_valve"));
    in.finish();
    return pipe;
  }
}
