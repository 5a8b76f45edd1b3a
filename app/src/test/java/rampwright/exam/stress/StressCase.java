package rampwright.exam.stress;

import java.util.List;
import java.util.Map;
import java.util.Set;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.trace.Trace;

/**
 * One trace with its truth.
 *
 * @param kind what is unlike a tidy trace
 * @param name which one it is
 * @param motor what is known of the motor
 * @param trace the readings or samples
 * @param starts the truth of each start, in time order
 * @param wanted codes of findings that must be there
 * @param allowed codes of findings that may be there
 */
record StressCase(
    String kind,
    String name,
    MotorContext motor,
    Trace trace,
    List<Start> starts,
    Set<String> wanted,
    Set<String> allowed) {

  /**
   * Truth of one start.
   *
   * @param outcomes what it may be called
   * @param figures figures and instants by key, on the trace's time base; what cannot be had, or is
   *     not to be held against the truth in this case, is absent
   */
  record Start(Set<String> outcomes, Map<String, Double> figures) {}
}
