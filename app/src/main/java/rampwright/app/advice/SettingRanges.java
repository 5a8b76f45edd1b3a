package rampwright.app.advice;

import java.util.EnumMap;
import java.util.Map;
import rampwright.analysis.machine.StarterSettings;

/** Range and step of each setting of a starter. */
public final class SettingRanges {
  private final EnumMap<Setting, SettingRange> ranges = new EnumMap<>(Setting.class);

  /** Ranges by setting; those not given are the usual ones. */
  public SettingRanges(Map<Setting, SettingRange> given) {
    for (Setting setting : Setting.values()) {
      SettingRange own = given.get(setting);
      ranges.put(setting, own != null ? own : setting.usual());
    }
  }

  /** Range of a setting. */
  public SettingRange of(Setting setting) {
    SettingRange range = ranges.get(setting);
    return range != null ? range : setting.usual();
  }

  /** The settings with every number moved to the nearest that can be entered. */
  public StarterSettings nearest(StarterSettings settings) {
    StarterSettings out = settings;
    for (Setting setting : Setting.values()) {
      out = setting.in(out, of(setting).nearest(setting.of(out)));
    }
    return out;
  }

  /** The same with nothing above a value; the range's own least value stays. */
  SettingRanges capped(Setting setting, double most) {
    EnumMap<Setting, SettingRange> out = new EnumMap<>(ranges);
    SettingRange own = of(setting);
    double top = own.nearest(most);
    if (top > most) {
      top = Math.max(own.min(), top - own.step());
    }
    out.put(setting, new SettingRange(own.min(), Math.min(own.max(), top), own.step()));
    return new SettingRanges(out);
  }
}
