package rampwright.app.asset;

import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;

/**
 * What the motor drives.
 *
 * @param kind how its torque goes with speed
 * @param inertiaKgM2 referred to the motor shaft; null when not known
 * @param powerKw at rated speed; null when not known
 * @param breakawayTorquePct of rated motor torque; null when not known
 */
public record Load(
    Kind kind,
    @Nullable Double inertiaKgM2,
    @Nullable Double powerKw,
    @Nullable Double breakawayTorquePct) {

  public static final NumberKey INERTIA_KGM2 =
      new NumberKey(
          "inertia_kgm2", "kg m2", 1e-6, 1e6, "the load's inertia at the motor shaft", "");
  public static final NumberKey POWER_KW =
      new NumberKey(
          "power_kW",
          "kW",
          0,
          50_000,
          "power at rated speed",
          "a number in W belongs divided by 1000");
  public static final NumberKey BREAKAWAY_TORQUE_PCT =
      new NumberKey("breakaway_torque_pct", "%", 0, 300, "of rated motor torque", "");

  /** How load torque goes with speed. */
  public enum Kind {
    QUADRATIC("quadratic"),
    CONSTANT("constant"),
    LINEAR("linear"),
    RECIPROCATING("reciprocating");

    private final String key;

    Kind(String key) {
      this.key = key;
    }

    /** Word used in files. */
    public String key() {
      return key;
    }
  }

  public Load {
    INERTIA_KGM2.checkedOptional(inertiaKgM2);
    POWER_KW.checkedOptional(powerKw);
    BREAKAWAY_TORQUE_PCT.checkedOptional(breakawayTorquePct);
  }
}
