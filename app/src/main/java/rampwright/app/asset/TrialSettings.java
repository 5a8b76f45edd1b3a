package rampwright.app.asset;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;

/**
 * What was set on the starter for a trial. Every part may be null: not noted.
 *
 * @param control how the ramp is led
 * @param currentLimitRatio current limit, x the rated current named by {@code currentLimitOf}
 * @param currentLimitOf whose rated current the limit is a multiple of
 * @param rampUpS initial to rated torque, or to full voltage
 * @param initialTorquePct of rated torque; counts for a torque ramp
 * @param initialVoltagePct of supply voltage; counts for a voltage ramp
 * @param pulseVoltagePct breakaway pulse before the ramp, % of supply voltage
 * @param pulseS its length
 * @param stop how the motor is stopped
 * @param releaseTorquePct the starter lets go when its falling reference is below this
 * @param rampDownS reference from the torque at the stop order to zero
 */
public record TrialSettings(
    @Nullable Control control,
    @Nullable Double currentLimitRatio,
    LimitOf currentLimitOf,
    @Nullable Double rampUpS,
    @Nullable Double initialTorquePct,
    @Nullable Double initialVoltagePct,
    @Nullable Double pulseVoltagePct,
    @Nullable Double pulseS,
    @Nullable Stop stop,
    @Nullable Double releaseTorquePct,
    @Nullable Double rampDownS) {

  /** Nothing was noted. */
  public static final TrialSettings NONE =
      new TrialSettings(null, null, LimitOf.MOTOR, null, null, null, null, null, null, null, null);

  public static final NumberKey CURRENT_LIMIT_RATIO =
      new NumberKey(
          "current_limit_ratio",
          "",
          0.5,
          15,
          "the current limit over rated current",
          "amperes belong divided by the rated current, percent by 100");
  public static final NumberKey RAMP_UP_S =
      new NumberKey("ramp_up_s", "s", 0, 600, "the ramp's length", "");
  public static final NumberKey INITIAL_TORQUE_PCT =
      new NumberKey("initial_torque_pct", "%", 0, 300, "of rated motor torque", "");
  public static final NumberKey INITIAL_VOLTAGE_PCT =
      new NumberKey("initial_voltage_pct", "%", 0, 100, "of supply voltage", "");
  public static final NumberKey PULSE_VOLTAGE_PCT =
      new NumberKey("pulse_voltage_pct", "%", 0, 100, "of supply voltage", "");
  public static final NumberKey PULSE_S =
      new NumberKey("pulse_s", "s", 0, 10, "the pulse's length", "ms belong divided by 1000");
  public static final NumberKey RELEASE_TORQUE_PCT =
      new NumberKey("release_torque_pct", "%", 0, 300, "of rated motor torque", "");
  public static final NumberKey RAMP_DOWN_S =
      new NumberKey("ramp_down_s", "s", 0, 600, "the ramp's length", "");

  /** The settings that are numbers, by key, in the order of the file. */
  public static final Map<String, NumberKey> NUMBERS = numbers();

  /** How the ramp is led. */
  public enum Control {
    TORQUE_RAMP("torque ramp"),
    VOLTAGE_RAMP("voltage ramp");

    private final String key;

    Control(String key) {
      this.key = key;
    }

    /** Word used in files. */
    public String key() {
      return key;
    }
  }

  /** Whose rated current the current limit is a multiple of. */
  public enum LimitOf {
    MOTOR("motor"),
    STARTER("starter");

    private final String key;

    LimitOf(String key) {
      this.key = key;
    }

    /** Word used in files. */
    public String key() {
      return key;
    }
  }

  /** How the motor is stopped. */
  public enum Stop {
    SOFT("soft"),
    COAST("coast");

    private final String key;

    Stop(String key) {
      this.key = key;
    }

    /** Word used in files. */
    public String key() {
      return key;
    }
  }

  private static Map<String, NumberKey> numbers() {
    Map<String, NumberKey> numbers = new LinkedHashMap<>();
    for (NumberKey key :
        new NumberKey[] {
          CURRENT_LIMIT_RATIO,
          RAMP_UP_S,
          INITIAL_TORQUE_PCT,
          INITIAL_VOLTAGE_PCT,
          PULSE_VOLTAGE_PCT,
          PULSE_S,
          RELEASE_TORQUE_PCT,
          RAMP_DOWN_S
        }) {
      numbers.put(key.name(), key);
    }
    return numbers;
  }

  /** The numbers that were noted, by key, in the order of the file. */
  public Map<String, Double> values() {
    Map<String, Double> values = new LinkedHashMap<>();
    putIf(values, CURRENT_LIMIT_RATIO, currentLimitRatio);
    putIf(values, RAMP_UP_S, rampUpS);
    putIf(values, INITIAL_TORQUE_PCT, initialTorquePct);
    putIf(values, INITIAL_VOLTAGE_PCT, initialVoltagePct);
    putIf(values, PULSE_VOLTAGE_PCT, pulseVoltagePct);
    putIf(values, PULSE_S, pulseS);
    putIf(values, RELEASE_TORQUE_PCT, releaseTorquePct);
    putIf(values, RAMP_DOWN_S, rampDownS);
    return values;
  }

  private static void putIf(Map<String, Double> values, NumberKey key, @Nullable Double value) {
    if (value != null) {
      values.put(key.name(), value);
    }
  }

  /**
   * The current limit over the motor's rated line current.
   *
   * <p>Formula: r Is k / Im for a limit in multiples of the starter's rating Is; k = sqrt(3) for a
   * starter inside the delta ({@link Starter#lineOverStarter}), else 1; Im the motor's rated
   * current.
   *
   * @return null when no limit was noted, or when it is a multiple of a starter not known
   */
  public @Nullable Double limitOverMotor(Motor motor, @Nullable Starter starter) {
    if (currentLimitRatio == null || currentLimitOf == LimitOf.MOTOR) {
      return currentLimitRatio;
    }
    return starter == null ? null : currentLimitRatio * starterOverMotor(motor, starter);
  }

  /** The current limit over the starter's rated current; null as in {@link #limitOverMotor}. */
  public @Nullable Double limitOverStarter(Motor motor, @Nullable Starter starter) {
    if (currentLimitRatio == null || currentLimitOf == LimitOf.STARTER) {
      return currentLimitRatio;
    }
    return starter == null ? null : currentLimitRatio / starterOverMotor(motor, starter);
  }

  private static double starterOverMotor(Motor motor, Starter starter) {
    return starter.ratedCurrentA() * starter.lineOverStarter() / motor.ratedCurrentA();
  }

  /** Whether anything was noted. */
  public boolean isEmpty() {
    return control == null && stop == null && values().isEmpty();
  }
}
