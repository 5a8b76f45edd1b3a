package rampwright.app.asset;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.PlainNumber;
import rampwright.acquisition.toml.TomlSection;

/**
 * Whether the numbers of a nameplate fit together. What cannot be is an error; what is odd but may
 * be so is a warning.
 *
 * <p>Formula: rated current I = P / (sqrt(3) U pf eff), the definition of efficiency and power
 * factor of a three-phase motor; synchronous speed n = 60 f / p with p pole pairs.
 */
final class PlateChecks {
  /** Plates are rounded and quote typical values: a quarter off is worth a look. */
  static final double ODD_FACTOR = 1.25;

  /** Beyond this a number is in another unit; star against delta voltage gives 1.73. */
  private static final double IMPOSSIBLE_FACTOR = 3;

  /** Full-load slip of induction motors; high-slip designs reach 13 % (common practice). */
  private static final double LARGEST_USUAL_SLIP = 0.13;

  private static final int DIGITS_SHOWN = 5;

  private PlateChecks() {}

  static List<String> check(
      TomlSection plate,
      Motor motor,
      @Nullable Starter starter,
      @Nullable Supply supply,
      @Nullable Load load) {
    List<String> warnings = new ArrayList<>();
    if (complete(plate)) {
      current(plate, motor, warnings);
      speed(plate, motor, warnings);
    }
    order(motor, warnings);
    if (starter != null) {
      double lineA = starter.ratedCurrentA() * starter.lineOverStarter();
      if (lineA < 0.95 * motor.ratedCurrentA()) {
        warnings.add(
            text(
                "starter: %s A (%s A in the line) is less than the motor's %s A; check"
                    + " [starter] rated_current_A and wiring",
                starter.ratedCurrentA(), lineA, motor.ratedCurrentA()));
      }
      if (starter.wiring() == Starter.Wiring.INSIDE_DELTA) {
        warnings.add(
            "starter is inside the delta: the trace's currents are taken as "
                + (starter.measured() == Starter.Wiring.INSIDE_DELTA
                    ? "winding currents"
                    : "line currents")
                + " ([starter] measured)");
      }
    }
    if (supply != null) {
      double ratio = supply.voltageV() / motor.ratedVoltageV();
      if (ratio > 1.15 || ratio < 0.85) {
        warnings.add(
            text(
                "supply voltage %s V is %s %% of the motor's %s V; check both",
                supply.voltageV(), percent(ratio), motor.ratedVoltageV()));
      }
    }
    Double loadKw = load == null ? null : load.powerKw();
    if (loadKw != null && loadKw > 1.2 * motor.ratedPowerKw()) {
      warnings.add(
          text(
              "load power %s kW is above the motor's %s kW; check [load] power_kW",
              loadKw, motor.ratedPowerKw()));
    }
    return warnings;
  }

  /** Stand-ins for missing keys say nothing about the plate. */
  private static boolean complete(TomlSection plate) {
    return (plate.has("rated_power_kW") || plate.has("rated_power_hp"))
        && plate.has("rated_voltage_V")
        && plate.has("rated_current_A")
        && plate.has("rated_frequency_Hz")
        && plate.has("rated_speed_rpm")
        && plate.has("power_factor")
        && plate.has("efficiency_pct");
  }

  private static void current(TomlSection plate, Motor motor, List<String> warnings) {
    double expectedA = motor.currentOfPowerA();
    double off = motor.ratedCurrentA() / expectedA;
    String what =
        text(
            "%s kW at %s V, power factor %s and efficiency %s %% take %s A, the plate says"
                + " %s A",
            motor.ratedPowerKw(),
            motor.ratedVoltageV(),
            motor.powerFactor(),
            motor.efficiencyPct(),
            expectedA,
            motor.ratedCurrentA());
    if (off > IMPOSSIBLE_FACTOR || off < 1 / IMPOSSIBLE_FACTOR) {
      plate.problem(
          "rated_current_A",
          what + "; one of them is in another unit (W for kW, kV for V) or on the wrong line");
    } else if (off > ODD_FACTOR || off < 1 / ODD_FACTOR) {
      warnings.add(
          "motor plate: "
              + what
              + "; check voltage and current (star or delta), power factor and efficiency");
    }
  }

  private static void speed(TomlSection plate, Motor motor, List<String> warnings) {
    double twoPoleRpm = 60 * motor.ratedFrequencyHz();
    if (motor.ratedSpeedRpm() >= twoPoleRpm) {
      plate.problem(
          "rated_speed_rpm",
          text(
              "rated_speed_rpm = %s is not below %s rpm, the highest synchronous speed at %s"
                  + " Hz; check rated speed and frequency",
              motor.ratedSpeedRpm(), twoPoleRpm, motor.ratedFrequencyHz()));
      return;
    }
    int polePairs = (int) Math.floor(twoPoleRpm / motor.ratedSpeedRpm());
    double syncRpm = twoPoleRpm / polePairs;
    double slip = 1 - motor.ratedSpeedRpm() / syncRpm;
    if (slip <= 0 || slip > LARGEST_USUAL_SLIP) {
      warnings.add(
          text(
              "motor plate: %s rpm at %s Hz is a slip of %s %% below %s rpm (%d poles); at"
                  + " most %s %% is usual; check rated speed and frequency",
              motor.ratedSpeedRpm(),
              motor.ratedFrequencyHz(),
              percent(slip),
              syncRpm,
              2 * polePairs,
              percent(LARGEST_USUAL_SLIP)));
    }
  }

  private static void order(Motor motor, List<String> warnings) {
    Double hot = motor.lockedRotorTimeHotS();
    Double cold = motor.lockedRotorTimeColdS();
    if (hot != null && cold != null && hot > cold) {
      warnings.add(
          text(
              "motor plate: locked-rotor time from hot, %s s, is above that from cold, %s s;"
                  + " are they swapped?",
              hot, cold));
    }
    Double lockedTorque = motor.lockedRotorTorqueRatio();
    Double breakdown = motor.breakdownTorqueRatio();
    if (lockedTorque != null && breakdown != null && lockedTorque > breakdown) {
      warnings.add(
          text(
              "motor plate: locked-rotor torque ratio %s is above the breakdown torque ratio %s;"
                  + " are they swapped?",
              lockedTorque, breakdown));
    }
  }

  private static double percent(double share) {
    return Math.round(1000 * share) / 10.0;
  }

  /** Numbers of the format's {@code %s} are rounded to five digits. */
  private static String text(String format, Object... values) {
    Object[] shown = new Object[values.length];
    for (int i = 0; i < values.length; i++) {
      shown[i] =
          values[i] instanceof Double number
              ? PlainNumber.rounded(number, DIGITS_SHOWN)
              : values[i];
    }
    return String.format(Locale.ROOT, format, shown);
  }
}
