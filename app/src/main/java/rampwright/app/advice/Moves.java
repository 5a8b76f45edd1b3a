package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;

/** Settings next to given ones, inside the starter's ranges and on its steps. */
record Moves(SettingRanges ranges) {
  /**
   * One setting of the start moved, each way.
   *
   * @param reach 1: by a usual amount; less: by that share of it
   */
  List<StarterSettings> ofStart(StarterSettings at, double reach) {
    Setting first =
        at.control() == ControlMode.TORQUE_RAMP ? Setting.INITIAL_TORQUE : Setting.INITIAL_VOLTAGE;
    List<StarterSettings> out = new ArrayList<>();
    for (double sign : new double[] {1, -1}) {
      out.add(to(at, Setting.CURRENT_LIMIT, at.currentLimitRatio() * (1 + 0.06 * sign * reach)));
      out.add(to(at, Setting.RAMP_UP, at.rampUpS() * Math.exp(0.3 * sign * reach)));
      out.add(to(at, first, first.of(at) + 6 * sign * reach));
    }
    out.removeIf(next -> next.equals(at));
    return out;
  }

  /** One setting of a soft stop moved, each way. */
  List<StarterSettings> ofStop(StarterSettings at, double reach) {
    List<StarterSettings> out = new ArrayList<>();
    if (at.stop() == StopMode.COAST) {
      return out;
    }
    for (double sign : new double[] {1, -1}) {
      out.add(to(at, Setting.RAMP_DOWN, at.rampDownS() * Math.exp(0.2 * sign * reach)));
      out.add(to(at, Setting.RELEASE_TORQUE, at.releaseTorquePct() + 5 * sign * reach));
    }
    out.removeIf(next -> next.equals(at));
    return out;
  }

  private StarterSettings to(StarterSettings at, Setting setting, double value) {
    return setting.in(at, ranges.of(setting).nearest(value));
  }
}
