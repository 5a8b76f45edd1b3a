package rampwright.app.advice;

import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.StarterSettings;

/** Keeps the peak inside its limit by the current limit itself, on the most likely model. */
record PeakGuard(Chances chances, SettingRanges ranges, MachineModel best) {
  /** Whether the current limit leaves the peak to the load. */
  boolean isOpen(StarterSettings s) {
    return s.currentLimitRatio() > chances.limitForPeak(best);
  }

  /** Largest current limit that can be entered or that keeps the peak. */
  double cap() {
    return Math.min(chances.limitForPeak(best), ranges.of(Setting.CURRENT_LIMIT).max());
  }

  /**
   * The same with a current limit that keeps the peak inside its own limit whatever the load does:
   * costs nothing where the limit never acts, and guards against what the model does not know.
   */
  StarterSettings held(StarterSettings s) {
    double cap = chances.limitForPeak(best);
    if (s.currentLimitRatio() <= cap) {
      return s;
    }
    SettingRange range = ranges.of(Setting.CURRENT_LIMIT);
    double near = range.nearest(cap);
    if (near > cap) {
      near = range.nearest(near - range.step());
    }
    return Setting.CURRENT_LIMIT.in(s, near);
  }
}
