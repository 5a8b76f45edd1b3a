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
 */
record Segment(Flow flow, Swing swing, @Nullable RunState run, @Nullable StopBegin stop) {

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
      segments.add(new Segment(flow, swing, run, stop));
    }
    return segments;
  }

  /** End of the run: stop begin, or where the record or the current ends. */
  double runEndS() {
    return stop != null ? stop.atS() : flow.toS();
  }
}
