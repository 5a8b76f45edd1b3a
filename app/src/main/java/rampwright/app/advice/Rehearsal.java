package rampwright.app.advice;

import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigures;
import rampwright.analysis.machine.RunFigures.PhaseFactors;
import rampwright.analysis.machine.Trajectory;

/**
 * One simulated trial with what is needed to hold it against a requirement.
 *
 * @param run what happens
 * @param figures taken from it
 * @param model of the machine
 * @param phases how the phases differ from their mean
 * @param tried whether a trial with this kind of ramp is among those fitted
 */
record Rehearsal(
    Trajectory run, RunFigures figures, MachineModel model, PhaseFactors phases, boolean tried) {
  // Less is a touch that pins no peak.
  private static final double LIMITED_SHARE = 0.02;

  /** Whether the current limit rules part of the start, which pins the peak. */
  boolean limited() {
    return run.limitedShare() > LIMITED_SHARE;
  }
}
