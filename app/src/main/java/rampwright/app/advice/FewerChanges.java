package rampwright.app.advice;

import java.util.function.ToDoubleFunction;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.StarterSettings;

/**
 * Takes back what a proposal changes to no purpose: each setting a person need not touch is one
 * less to enter wrongly, and leaves the next trial nearer to what was seen.
 */
final class FewerChanges {
  // A hundredth is what the words show; half of it is lost in rounding.
  static final double AS_GOOD = 0.005;
  static final double AS_COOL = 1.01;

  // Below this every setting looks idle, and the nearest ones are what is asked for.
  static final double HOPE = 0.05;

  private final Chances chances;
  private final MachineModel model;
  private final ToDoubleFunction<StarterSettings> startChance;
  private final ToDoubleFunction<StarterSettings> stopChance;

  /**
   * @param model what the start's heat is taken from
   * @param startChance that all limits on the start are met, over all models
   * @param stopChance the same of the stop
   */
  FewerChanges(
      Chances chances,
      MachineModel model,
      ToDoubleFunction<StarterSettings> startChance,
      ToDoubleFunction<StarterSettings> stopChance) {
    this.chances = chances;
    this.model = model;
    this.startChance = startChance;
    this.stopChance = stopChance;
  }

  /** The proposal with every setting as it was that makes it neither less likely nor hotter. */
  StarterSettings of(StarterSettings from, StarterSettings proposed) {
    StarterSettings out = proposed;
    boolean moved = true;
    // What one setting is needed for may go with the next.
    while (moved) {
      StarterSettings before = out;
      out = part(from, out, proposed, false);
      out = part(from, out, proposed, true);
      moved = !out.equals(before);
    }
    return out;
  }

  /**
   * Start and stop are looked at apart: a stop that cannot be had would make every setting of the
   * start look idle.
   */
  private StarterSettings part(
      StarterSettings from, StarterSettings now, StarterSettings proposed, boolean stop) {
    ToDoubleFunction<StarterSettings> chance = stop ? stopChance : startChance;
    double whole = chance.applyAsDouble(proposed);
    if (whole < HOPE) {
      return now;
    }
    double mostHeat = AS_COOL * chances.heatOfStart(model, proposed);
    double guard = chances.limitForPeak(model);
    StarterSettings out = now;
    for (Setting setting : Setting.values()) {
      if (setting.ofStop() != stop
          || setting.of(from) == setting.of(out)
          || unguarded(setting, from, out, guard)) {
        continue;
      }
      StarterSettings back = setting.in(out, setting.of(from));
      if (chance.applyAsDouble(back) >= whole - AS_GOOD
          && !(chances.heatOfStart(model, back) > mostHeat)) {
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
}
