package rampwright.app.advice;

import java.util.function.ToDoubleFunction;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.StarterSettings;

/**
 * Takes back what a proposal changes to no purpose: each setting a person need not touch is one
 * less to enter wrongly, and leaves the next trial nearer to what was seen.
 */
final class FewerChanges {
  // A hundredth is what the words show; half of it is lost in rounding.
  static final double AS_GOOD = 0.005;
  static final double AS_COOL = 1.01;

  private final Chances chances;
  private final MachineModel model;
  private final ToDoubleFunction<StarterSettings> chance;

  /**
   * @param model what the start's heat is taken from
   * @param chance that all limits are met, over all models
   */
  FewerChanges(Chances chances, MachineModel model, ToDoubleFunction<StarterSettings> chance) {
    this.chances = chances;
    this.model = model;
    this.chance = chance;
  }

  /** The proposal with every setting as it was that makes it neither less likely nor hotter. */
  StarterSettings of(StarterSettings from, StarterSettings proposed) {
    StarterSettings out = proposed;
    double floor = chance.applyAsDouble(proposed) - AS_GOOD;
    double mostHeat = AS_COOL * heat(proposed);
    double guard = chances.limitForPeak(model);
    boolean moved = true;
    // What one setting is needed for may go with the next.
    while (moved) {
      StarterSettings before = out;
      out = pass(from, out, floor, mostHeat, guard);
      moved = !out.equals(before);
    }
    return out;
  }

  private StarterSettings pass(
      StarterSettings from, StarterSettings proposed, double floor, double mostHeat, double guard) {
    StarterSettings out = proposed;
    for (Setting setting : Setting.values()) {
      if (setting.of(from) == setting.of(out) || unguarded(setting, from, out, guard)) {
        continue;
      }
      StarterSettings back = setting.in(out, setting.of(from));
      if (chance.applyAsDouble(back) >= floor && !(heat(back) > mostHeat)) {
        out = back;
      }
    }
    return out;
  }

  /** Whether taking it back would give up the current limit's hold on the peak. */
  private static boolean unguarded(
      Setting setting, StarterSettings from, StarterSettings to, double guard) {
    return setting == Setting.CURRENT_LIMIT
        && from.currentLimitRatio() > guard
        && to.currentLimitRatio() <= guard;
  }

  private double heat(StarterSettings settings) {
    return chances.figures(chances.start(model, settings), model).of(RunFigure.I2T);
  }
}
