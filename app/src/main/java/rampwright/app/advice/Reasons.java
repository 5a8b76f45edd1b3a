package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;

/**
 * Why each setting is changed, in plain words: what would happen with the rest changed and this one
 * left, by the most likely model.
 */
final class Reasons {
  // A margin moved by less is not worth telling; one this wide is not missed.
  private static final double LITTLE = 0.004;
  private static final double AMPLE = 0.3;

  private final List<Requirement> requirements = new ArrayList<>();
  private final Chances chances;
  private final MachineModel model;
  private final StarterSettings from;
  private final StarterSettings to;
  private final ToDoubleFunction<StarterSettings> chance;

  /**
   * @param model what the settings are tried on
   * @param chance that all limits are met, over all models
   */
  Reasons(
      Chances chances,
      MachineModel model,
      StarterSettings from,
      StarterSettings to,
      ToDoubleFunction<StarterSettings> chance) {
    this.chance = chance;
    requirements.addAll(chances.starts());
    requirements.addAll(chances.stops());
    this.chances = chances;
    this.model = model;
    this.from = from;
    this.to = to;
  }

  List<Advice.Change> list() {
    List<Advice.Change> out = new ArrayList<>();
    Rehearsal all = rehearsed(to);
    if (from.control() != to.control()) {
      out.add(
          new Advice.Change("control", from.control().key(), to.control().key(), controlWhy(all)));
    }
    if (from.stop() != to.stop()) {
      out.add(
          new Advice.Change(
              "stop",
              from.stop().key(),
              to.stop().key(),
              to.stop() == StopMode.SOFT
                  ? "the limits on the stop need a led stop"
                  : "the limits on the stop are kept without leading it"));
    }
    for (Setting setting : Setting.values()) {
      double before = setting.of(from);
      double after = setting.of(to);
      if (before != after && matters(setting)) {
        out.add(
            new Advice.Change(
                setting.key(), setting.show(before), setting.show(after), why(setting, all)));
      }
    }
    return out;
  }

  /** Each control has its own numbers: the other one is told with those it had. */
  private String controlWhy(Rehearsal all) {
    Rehearsal left = rehearsed(from);
    for (Requirement each : requirements) {
      if (each.margin(left) < 0 && each.margin(all) >= 0) {
        return String.format(
            Locale.ROOT,
            "the %s keeps the limits with more room; as it was, %s would be %s (asked: %s)",
            to.control().key(),
            each.label(),
            each.told(left),
            each.asked());
      }
    }
    return "the " + to.control().key() + " keeps the limits with more room";
  }

  /** Settings the chosen control ignores are not told as changes. */
  private boolean matters(Setting setting) {
    boolean torque = to.control() == ControlMode.TORQUE_RAMP;
    return switch (setting) {
      case INITIAL_TORQUE -> torque;
      case INITIAL_VOLTAGE -> !torque;
      case RELEASE_TORQUE, RAMP_DOWN -> to.stop() == StopMode.SOFT;
      default -> true;
    };
  }

  private Rehearsal rehearsed(StarterSettings settings) {
    return chances.rehearsal(chances.whole(model, settings), model, settings);
  }

  private String why(Setting setting, Rehearsal all) {
    Rehearsal left = rehearsed(setting.in(to, setting.of(from)));
    String before = setting.show(setting.of(from));
    if (all.run().completed() && !left.run().completed()) {
      return String.format(Locale.ROOT, "left at %s the start would not reach full speed", before);
    }
    @Nullable Requirement worst = null;
    double loss = LITTLE;
    for (Requirement each : requirements) {
      double now = each.margin(all);
      double lost = Math.min(now, AMPLE) - each.margin(left);
      if (lost > loss) {
        loss = lost;
        worst = each;
      }
    }
    if (worst == null) {
      return byChance(setting, before);
    }
    return String.format(
        Locale.ROOT,
        "left at %s, %s would be %s; so it is %s (asked: %s)",
        before,
        worst.label(),
        worst.told(left),
        worst.told(all),
        worst.asked());
  }

  /** For a change that shows on other models than the most likely one. */
  private String byChance(Setting setting, String before) {
    double cap = chances.limitForPeak(model);
    if (setting == Setting.CURRENT_LIMIT
        && to.currentLimitRatio() <= cap
        && from.currentLimitRatio() > cap) {
      return "holds the peak within its limit even where the load takes more than thought";
    }
    double now = chance.applyAsDouble(to);
    if (now < FewerChanges.HOPE) {
      return "part of the nearest settings found; none is likely to meet everything";
    }
    double left = chance.applyAsDouble(setting.in(to, setting.of(from)));
    if (now - left > FewerChanges.AS_GOOD) {
      return String.format(
          Locale.ROOT,
          "left at %s, the chance of meeting everything would be %.1f %% instead of %.1f %%",
          before,
          100 * left,
          100 * now);
    }
    double more =
        chances.heatOfStart(model, setting.in(to, setting.of(from)))
            / chances.heatOfStart(model, to);
    return more > FewerChanges.AS_COOL
        ? String.format(
            Locale.ROOT,
            "left at %s, the start would take %.0f %% more heat",
            before,
            100 * (more - 1))
        : "follows the other changes; alone it moves no limit by much";
  }
}
