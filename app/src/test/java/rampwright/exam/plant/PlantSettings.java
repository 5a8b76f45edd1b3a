package rampwright.exam.plant;

import java.util.Locale;
import java.util.Map;

/**
 * What is set on the starter for one trial.
 *
 * @param torqueRamp true: the ramp is one of torque; false: of voltage
 * @param softStop true: the torque is ramped down; false: the motor coasts
 * @param values one number for each {@link Setting}, in its order; not to be written to
 */
@SuppressWarnings("ArrayRecordComponent")
public record PlantSettings(boolean torqueRamp, boolean softStop, double[] values) {

  public PlantSettings {
    if (values.length != Setting.values().length) {
      throw new IllegalArgumentException("settings need " + Setting.values().length + " numbers");
    }
    values = values.clone();
  }

  /** A plain first guess: 20 % torque or 40 % voltage, 10 s, 3.5 times rated current, coasting. */
  public static PlantSettings plain(boolean torqueRamp) {
    return new PlantSettings(torqueRamp, false, new double[] {20, 40, 10, 3.5, 0, 0, 10, 10});
  }

  public double get(Setting setting) {
    return values[setting.ordinal()];
  }

  /** The same with one number changed to the nearest one that can be entered. */
  public PlantSettings with(Setting setting, double value) {
    double[] changed = values.clone();
    changed[setting.ordinal()] = setting.enterable(value);
    return new PlantSettings(torqueRamp, softStop, changed);
  }

  public PlantSettings withTorqueRamp(boolean ramp) {
    return new PlantSettings(ramp, softStop, values);
  }

  public PlantSettings withSoftStop(boolean soft) {
    return new PlantSettings(torqueRamp, soft, values);
  }

  /** Settings from the keys of a settings file; what is missing is taken from {@code other}. */
  public static PlantSettings of(Map<String, ?> keyed, PlantSettings other) {
    PlantSettings result = other;
    Object control = keyed.get("control");
    if (control != null) {
      result = result.withTorqueRamp("torque ramp".equals(control));
    }
    Object stop = keyed.get("stop");
    if (stop != null) {
      result = result.withSoftStop("soft".equals(stop));
    }
    for (Setting setting : Setting.values()) {
      if (keyed.get(setting.key()) instanceof Number number) {
        result = result.with(setting, number.doubleValue());
      }
    }
    return result;
  }

  /** The text of a settings file. */
  public String toToml() {
    StringBuilder text = new StringBuilder();
    text.append("control = \"").append(torqueRamp ? "torque ramp" : "voltage ramp").append("\"\n");
    text.append("stop = \"").append(softStop ? "soft" : "coast").append("\"\n");
    for (Setting setting : Setting.values()) {
      text.append(String.format(Locale.ROOT, "%s = %s%n", setting.key(), get(setting)));
    }
    return text.toString().replace("\r", "");
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof PlantSettings that
        && torqueRamp == that.torqueRamp
        && softStop == that.softStop
        && java.util.Arrays.equals(values, that.values);
  }

  @Override
  public int hashCode() {
    return java.util.Arrays.hashCode(values) * 4 + (torqueRamp ? 2 : 0) + (softStop ? 1 : 0);
  }

  @Override
  public String toString() {
    return toToml().replace("\n", "; ");
  }
}
