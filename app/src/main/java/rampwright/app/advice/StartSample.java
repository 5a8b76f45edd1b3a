package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.StarterSettings;

/** Settings of a start spread evenly over all that may serve; those of the stop are left alone. */
final class StartSample {
  private static final int SAMPLE = 400;

  private final Chances chances;
  private final SettingRanges ranges;
  private final PeakGuard guard;
  private final StarterSettings present;
  private final boolean gentle;
  private final boolean wide;

  /**
   * @param gentle whether breakaway pulses are left out
   * @param wide whether little is known, so that the current limit alone has to make sure of the
   *     peak
   */
  StartSample(
      Chances chances,
      SettingRanges ranges,
      PeakGuard guard,
      StarterSettings present,
      boolean gentle,
      boolean wide) {
    this.chances = chances;
    this.ranges = ranges;
    this.guard = guard;
    this.present = present;
    this.gentle = gentle;
    this.wide = wide;
  }

  /** The sample; seeded pulses apart it is always the same. */
  List<StarterSettings> of(Random random) {
    double peak = 5;
    double longest = 20;
    for (FigureLimit limit : chances.startLimits()) {
      Double max = limit.max();
      if (max != null && limit.figure() == RunFigure.PEAK_CURRENT) {
        peak = max;
      }
      if (max != null && limit.figure() == RunFigure.START_TIME) {
        longest = max;
      }
    }
    List<StarterSettings> out = new ArrayList<>();
    SettingRange limits = ranges.of(Setting.CURRENT_LIMIT);
    SettingRange ramps = ranges.of(Setting.RAMP_UP);
    double rampLow = Math.max(ramps.min(), 0.3);
    double rampHigh = Math.max(rampLow * 1.01, Math.min(ramps.max(), 3.5 * longest));
    for (int k = 0; k < (wide ? SAMPLE / 2 : SAMPLE); k++) {
      double u1 = radical(k + 1, 2);
      double u2 = radical(k + 1, 3);
      double u3 = radical(k + 1, 5);
      boolean torque = radical(k + 1, 7) < 0.5;
      // Half the sample holds the peak by the limit, half leaves the limit wide.
      double limit =
          radical(k + 1, 11) < 0.7
              ? limits.min() + (1.03 * peak - limits.min()) * Math.sqrt(u1)
              : peak * (1 + 0.8 * u1);
      if (wide) {
        // Little is known: the current limit alone makes sure of the peak.
        limit = guard.cap() * (0.75 + 0.25 * Math.sqrt(u1));
      }
      double pulse = radical(k + 1, 13);
      boolean pulsed = !gentle && pulse < 0.12;
      StarterSettings s =
          new StarterSettings(
              Math.min(20, Math.max(0.1, limit)),
              torque ? ControlMode.TORQUE_RAMP : ControlMode.VOLTAGE_RAMP,
              rampLow * Math.pow(rampHigh / rampLow, u2),
              torque ? 75 * u3 : present.initialTorquePct(),
              torque ? present.initialVoltagePct() : 15 + 60 * u3,
              pulsed ? 25 + 40 * random.nextDouble() : 0,
              pulsed ? 0.2 + 0.6 * random.nextDouble() : 0,
              present.stop(),
              present.releaseTorquePct(),
              present.rampDownS());
      out.add(wide ? guard.held(ranges.nearest(s)) : ranges.nearest(s));
    }
    return out;
  }

  /** Van der Corput sequence: fills (0, 1) evenly. */
  private static double radical(int index, int base) {
    double out = 0;
    double share = 1.0 / base;
    int rest = index;
    while (rest > 0) {
      out += share * (rest % base);
      rest /= base;
      share /= base;
    }
    return out;
  }
}
