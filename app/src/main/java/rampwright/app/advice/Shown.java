package rampwright.app.advice;

import java.util.Set;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.StarterSettings;

/**
 * What the trials made so far have shown of the machine.
 *
 * @param ramps kinds of ramp with which a start was completed
 * @param shaft whether a trial recorded the speed, so that how the machine comes to rest was seen
 */
record Shown(Set<ControlMode> ramps, boolean shaft) {
  Shown {
    ramps = Set.copyOf(ramps);
  }

  /** Whether a completed trial had this kind of ramp. */
  boolean ramp(StarterSettings settings) {
    return ramps.contains(settings.control());
  }
}
