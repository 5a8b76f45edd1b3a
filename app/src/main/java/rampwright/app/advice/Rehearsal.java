package rampwright.app.advice;

import java.util.List;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.RunFigures;
import rampwright.analysis.machine.RunFigures.PhaseFactors;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Trajectory;

/**
 * One simulated trial with what is needed to hold it against a requirement.
 *
 * @param run what happens
 * @param figures taken from it
 * @param model of the machine
 * @param phases how the phases differ from their mean
 * @param shown what earlier trials have shown
 * @param settings it is made with
 * @param experience what earlier trials say of the model's figures
 */
record Rehearsal(
    Trajectory run,
    RunFigures figures,
    MachineModel model,
    PhaseFactors phases,
    Shown shown,
    StarterSettings settings,
    Experience experience) {
  // Less is a touch that pins no peak.
  private static final double LIMITED_SHARE = 0.02;

  /** Share of the runs, by what each counts for, whose start reaches full speed. */
  static double completing(List<Rehearsal> runs, double[] weights) {
    double share = 0;
    double all = 0;
    for (int k = 0; k < runs.size(); k++) {
      share += runs.get(k).run().completed() ? weights[k] : 0;
      all += weights[k];
    }
    return all > 0 ? share / all : 0;
  }

  /** Whether the current limit rules part of the start, which pins the peak. */
  boolean limited() {
    return run.limitedShare() > LIMITED_SHARE;
  }

  /** A figure as the model and the trials near to these settings have it; NaN: not to be had. */
  double of(RunFigure figure) {
    double value = figures.of(figure);
    return experience.corrected(figure, value, share(figure, value), settings);
  }

  /** Standard deviation of what the figure may still be off by, in its unit. */
  double sigma(RunFigure figure) {
    double value = figures.of(figure);
    if (!(value > 0)) {
      return discrepancy(figure, value);
    }
    return of(figure) * experience.share(figure, share(figure, value), settings);
  }

  /**
   * Dip at the starter over the dip where voltages are measured; NaN where there is none to speak
   * of.
   */
  double starterDipShare() {
    double measured = figures.of(RunFigure.VOLTAGE_DIP);
    return measured > 0 ? figures.starterDipPct() / measured : Double.NaN;
  }

  private double share(RunFigure figure, double value) {
    return discrepancy(figure, value) / value;
  }

  /** Standard deviation of what the model leaves out of a figure, in its unit. */
  double discrepancy(RunFigure figure, double value) {
    return Discrepancy.sigma(figure, value, limited(), shown.ramp(settings), shown.shaft());
  }
}
