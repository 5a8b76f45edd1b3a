package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Trajectory;

/**
 * What a limit on the current leaves of the torque, and what current the load asks for, on the most
 * likely model: the quickest start there is under a current limit is one that follows it from the
 * beginning.
 */
final class Torque {
  private static final double LONGEST_S = 120;
  private static final double FINEST = 0.02;
  private static final double HIGHEST = 12;
  // At rest: slower than a hundredth of synchronous speed.
  private static final double STANDING = 0.01;

  private final Chances chances;
  private final MachineModel model;
  private final SettingRange limits;
  private final SettingRange ramps;
  private final StarterSettings proposed;
  private final List<FigureRequirement> holders = new ArrayList<>();
  private final List<FigureRequirement> hurry = new ArrayList<>();
  private double most;
  private @Nullable FigureRequirement holder;

  Torque(Chances chances, MachineModel model, SettingRanges ranges, StarterSettings proposed) {
    this.chances = chances;
    this.model = model;
    this.limits = ranges.of(Setting.CURRENT_LIMIT);
    this.ramps = ranges.of(Setting.RAMP_UP);
    this.proposed = proposed;
    for (Requirement each : chances.starts()) {
      if (each instanceof FigureRequirement one && one.limit().max() != null) {
        switch (one.figure()) {
          case PEAK_CURRENT, PEAK_CURRENT_A, VOLTAGE_DIP, START_DROP -> holders.add(one);
          case START_TIME, I2T, I2T_A2S -> hurry.add(one);
          default -> {}
        }
      } else if (each instanceof FigureRequirement one && one.figure() == RunFigure.VOLTAGE_MIN) {
        holders.add(one);
      }
    }
    most = limits.max();
    for (FigureRequirement each : holders) {
      double own = mostFor(each);
      if (own < most) {
        most = own;
        holder = each;
      }
    }
  }

  /** The limit that holds the current down the most; null when none does. */
  @Nullable Requirement holder() {
    return holder;
  }

  /** Whether a requirement is one that current and torque explain. */
  boolean concerns(Requirement one) {
    return holders.contains(one) || hurry.contains(one);
  }

  /** The quickest start at a current limit. */
  private Rehearsal quickest(double limit) {
    StarterSettings settings =
        new StarterSettings(
            limit,
            ControlMode.VOLTAGE_RAMP,
            Math.max(0.05, ramps.min()),
            proposed.initialTorquePct(),
            80,
            0,
            0,
            proposed.stop(),
            proposed.releaseTorquePct(),
            proposed.rampDownS());
    Trajectory run =
        RunSimulator.run(model, settings, new RunPlan(Double.NaN, 0.1, LONGEST_S, false, 0));
    return chances.rehearsal(run, model, settings);
  }

  private double mostFor(FigureRequirement one) {
    double low = 0.5;
    double high = HIGHEST;
    if (one.margin(quickest(high)) >= 0) {
      return high;
    }
    while (high - low > FINEST / 2) {
      double middle = 0.5 * (low + high);
      if (one.margin(quickest(middle)) >= 0) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** Smallest current limit from which on a start keeps a requirement, null: any completes. */
  private double least(@Nullable FigureRequirement one) {
    double low = Math.max(0.5, most);
    double high = HIGHEST;
    if (!does(one, quickest(high))) {
      return Double.NaN;
    }
    while (high - low > FINEST / 2) {
      double middle = 0.5 * (low + high);
      if (does(one, quickest(middle))) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return Math.ceil(high / 0.05 - 1e-6) * 0.05;
  }

  private static boolean does(@Nullable FigureRequirement one, Rehearsal run) {
    return run.run().completed() && (one == null || maxKept(one, run));
  }

  private static boolean maxKept(FigureRequirement one, Rehearsal run) {
    Double max = one.limit().max();
    return max == null || one.value(run) <= max;
  }

  /** The sentences; empty when current is not what is short. */
  String tell() {
    FigureRequirement held = holder;
    if (held == null) {
      return "";
    }
    Rehearsal at = quickest(most);
    String from =
        String.format(
            Locale.ROOT,
            "%s (%s) allows a current of %s x",
            upper(held.label()),
            held.asked(),
            Wording.number(most));
    if (!at.run().completed()) {
      return from + ", which " + shortage(at.run()) + "." + cure(null, "starts it");
    }
    for (FigureRequirement one : hurry) {
      if (!maxKept(one, at)) {
        return String.format(
                Locale.ROOT,
                "%s: the quickest start at that has a %s of %s, asked %s.",
                from,
                one.label(),
                one.told(at),
                one.asked())
            + cure(one, "is enough for that");
      }
    }
    return "";
  }

  private String shortage(Trajectory run) {
    int last = run.size() - 1;
    double speed = run.speedPu(last);
    String leaves =
        String.format(Locale.ROOT, "leaves %s of rated torque", Wording.number(run.torquePu(last)));
    return speed < STANDING
        ? String.format(
            Locale.ROOT,
            "%s at standstill where breaking away takes %s",
            leaves,
            Wording.number(model.load().holding()))
        : String.format(
            Locale.ROOT,
            "%s at %.0f %% speed where the load takes %s",
            leaves,
            100 * speed,
            Wording.number(run.loadTorquePu(last)));
  }

  private String cure(@Nullable FigureRequirement one, String does) {
    double least = least(one);
    if (Double.isNaN(least)) {
      return " No current limit " + does + ".";
    }
    Rehearsal run = quickest(least);
    List<String> costs = new ArrayList<>();
    for (FigureRequirement each : holders) {
      double value = each.value(run);
      if (each.margin(run) < 0) {
        double by = Math.abs(value - each.needed(value));
        String unit = Wording.unit(each.limit().key());
        String amount =
            Wording.number(by) + (unit.equals("%") ? " points" : unit.isEmpty() ? "" : " " + unit);
        costs.add(
            String.format(
                Locale.ROOT,
                "%s is %s, beyond its limit by %s",
                each.label(),
                each.told(run),
                amount));
      }
    }
    return String.format(
        Locale.ROOT,
        " The smallest current limit that %s is %s x%s.",
        does,
        Wording.number(least),
        costs.isEmpty() ? "" : ": " + String.join("; ", costs));
  }

  private static String upper(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
