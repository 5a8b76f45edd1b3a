package rampwright.exam.plant;

import java.util.Locale;
import java.util.Map;

/**
 * What people know of a motor circuit: the nameplate, rounded and a few percent off, and what the
 * asset folder says. NaN: not said.
 */
public record AssetSheet(
    String id,
    double powerKw,
    double lineVoltageV,
    double currentA,
    double frequencyHz,
    double speedRpm,
    double powerFactor,
    double efficiencyPct,
    double lockedCurrentRatio,
    double lockedTorqueRatio,
    double breakdownTorqueRatio,
    double motorInertiaKgM2,
    double starterCurrentA,
    String loadKind,
    double loadInertiaKgM2,
    double faultLevelMva) {

  /** Rated torque as the plate has it, N m. */
  public double torqueNm() {
    return powerKw * 1000 / (speedRpm * Math.PI / 30);
  }

  /** The text of an asset file, with the envelope given. */
  public String toToml(Limits limits) {
    return toToml(limits, "");
  }

  /**
   * The text of an asset file.
   *
   * @param extra more tables, in the file's own words; may be empty
   */
  public String toToml(Limits limits, String extra) {
    StringBuilder text = new StringBuilder();
    text.append("[asset]\n").append("id = \"").append(id).append("\"\n");
    text.append("name = \"").append(id).append("\"\n\n[motor]\n");
    line(text, "rated_power_kW", powerKw);
    line(text, "rated_voltage_V", lineVoltageV);
    line(text, "rated_current_A", currentA);
    line(text, "rated_frequency_Hz", frequencyHz);
    line(text, "rated_speed_rpm", speedRpm);
    line(text, "power_factor", powerFactor);
    line(text, "efficiency_pct", efficiencyPct);
    line(text, "locked_rotor_current_ratio", lockedCurrentRatio);
    line(text, "locked_rotor_torque_ratio", lockedTorqueRatio);
    line(text, "breakdown_torque_ratio", breakdownTorqueRatio);
    line(text, "inertia_kgm2", motorInertiaKgM2);
    text.append("\n[starter]\n");
    line(text, "rated_current_A", starterCurrentA);
    text.append("[starter.settings]\n");
    for (Setting setting : Setting.values()) {
      text.append(
          String.format(
              Locale.ROOT,
              "%s = { min = %s, max = %s, step = %s }%n",
              setting.key(),
              plain(setting.min()),
              plain(setting.max()),
              plain(setting.step())));
    }
    text.append("\n[load]\nkind = \"").append(loadKind).append("\"\n");
    line(text, "inertia_kgm2", loadInertiaKgM2);
    text.append("\n[supply]\n");
    line(text, "voltage_V", lineVoltageV);
    line(text, "fault_level_MVA", faultLevelMva);
    text.append(extra);
    text.append("\n[envelope]\n");
    for (Map.Entry<String, Limits.Limit> entry : limits.byFigure().entrySet()) {
      Limits.Limit limit = entry.getValue();
      text.append(entry.getKey()).append(" = { ");
      if (!Double.isNaN(limit.min())) {
        text.append("min = ").append(plain(limit.min()));
        text.append(Double.isNaN(limit.max()) ? "" : ", ");
      }
      if (!Double.isNaN(limit.max())) {
        text.append("max = ").append(plain(limit.max()));
      }
      text.append(" }\n");
    }
    return text.toString().replace("\r", "");
  }

  private static void line(StringBuilder text, String key, double value) {
    if (!Double.isNaN(value)) {
      text.append(key).append(" = ").append(plain(value)).append('\n');
    }
  }

  /** A number with at most six digits and no trailing zeros. */
  static String plain(double value) {
    String text =
        new java.math.BigDecimal(value)
            .round(new java.math.MathContext(6))
            .stripTrailingZeros()
            .toPlainString();
    return text.contains(".") ? text : text + ".0";
  }
}
