package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One flow of current, told apart into start, run and stop.
 *
 * @param flow where current flows
 * @param swing its current with a swing of the load averaged out
 * @param run the run it led to; null when it led to none
 * @param stop when the stop began; null when the record shows no stop
 * @param begunInStart whether the record begins with current flowing, before full speed
 */
record Segment(
    Flow flow,
    Swing swing,
    @Nullable RunState run,
    @Nullable StopBegin stop,
    boolean begunInStart) {
  private static final double SPEED_REACHED = 0.95;

  static List<Segment> all(Readings r) {
    List<Segment> segments = new ArrayList<>();
    for (Flow flow : Pauses.bridged(r, Flow.find(r))) {
      Swing swing = Swing.of(r, flow);
      RunState run = RunState.find(r, flow, swing);
      StopBegin stop;
      if (run != null) {
        stop = StopBegin.find(r, flow, run, swing);
      } else {
        stop =
            flow.openEnd()
                ? null
                : new StopBegin(flow.toS(), flow.toUncertaintyS(), "current ceases");
      }
      segments.add(new Segment(flow, swing, run, stop, begunInStart(r, flow, run)));
    }
    return segments;
  }

  /** End of the run: stop begin, or where the record or the current ends. */
  double runEndS() {
    return stop != null ? stop.atS() : flow.toS();
  }

  /** Why what needs the start's beginning is not to be had; null where the record shows it. */
  @Nullable String whyNoBeginning() {
    if (!flow.openStart()) {
      return null;
    }
    return begunInStart
        ? "the record begins during the start"
        : "the record begins with the motor running";
  }

  /** By speed still below full speed; without it, by a current no motor runs at. */
  private static boolean begunInStart(Readings r, Flow flow, @Nullable RunState run) {
    if (!flow.openStart()) {
      return false;
    }
    SpeedTrack speed = r.speed;
    Double ratedRpm = r.motor.ratedSpeedRpm();
    double full = run != null ? run.speedRpm() : ratedRpm != null ? ratedRpm : Double.NaN;
    if (speed != null && !Double.isNaN(full)) {
      double first = speed.mean(flow.fromS(), flow.fromS() + Math.max(0.1, 3 * r.stepS));
      if (!Double.isNaN(first)) {
        return first < SPEED_REACHED * full;
      }
    }
    if (run != null) {
      return run.first() > flow.first();
    }
    Double ratedA = r.motor.ratedCurrentA();
    return ratedA != null && r.high[flow.first()] > RunState.MOST_RUN_RATIO * ratedA;
  }
}
