package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;

/** Gathers what a trace shows besides its figures. */
final class Findings {
  private final Readings r;
  private final Thresholds thresholds;
  private final List<Finding> found = new ArrayList<>();

  Findings(Readings r, Thresholds thresholds) {
    this.r = r;
    this.thresholds = thresholds;
  }

  /** Takes in what was found before. */
  void add(List<Finding> more) {
    found.addAll(more);
  }

  /** All findings in time order. */
  List<Finding> inOrder() {
    found.sort(Comparator.comparingDouble(Finding::fromS).thenComparing(Finding::code));
    return List.copyOf(found);
  }

  /**
   * Looks at what concerns the whole record; gives the dips of the supply, for the drop figures.
   */
  List<VoltageFigures.Window> ofRecord(List<Segment> segments) {
    List<Finding> dips = SupplyDips.find(r, segments, thresholds);
    found.addAll(dips);
    found.addAll(r.rest.findings(r.startS(), r.endS()));
    found.addAll(ChannelFindings.clipped(r));
    found.addAll(GapFindings.find(r, thresholds));
    found.addAll(ChannelFindings.swapped(r, segments));
    return dips.stream().map(d -> new VoltageFigures.Window(d.fromS(), d.toS())).toList();
  }

  /** Looks at one start. */
  void ofStart(
      Segment segment, StartRecord start, AnalysisOptions options, @Nullable CycleSeries cycles) {
    Flow flow = segment.flow();
    found.addAll(PhaseFindings.missing(r, flow, thresholds));
    if (segment.begunInStart()) {
      ended(flow, start);
    }
    if (flow.openStart()) {
      return;
    }
    lateBreakaway(flow, start);
    ended(flow, start);
    unbalance(start);
    if (cycles != null) {
      found.addAll(PhaseFindings.oneWay(r, flow, cycles, thresholds));
    }
    CurrentLimit limit = options.limit();
    if (limit != null) {
      found.addAll(LimitFindings.of(r, segment, start, limit, thresholds));
    }
  }

  /** Looks at the time between one start and the next. */
  void repeats(List<Segment> segments) {
    Double perHour = r.motor.startsPerHour();
    if (perHour == null || !(perHour > 0)) {
      return;
    }
    double leastS = 3600 / perHour;
    Flow last = null;
    for (Segment segment : segments) {
      Flow flow = segment.flow();
      if (last != null && !flow.openStart() && flow.fromS() - last.fromS() < leastS) {
        double apartS = flow.fromS() - last.fromS();
        found.add(
            new Finding(
                "repeat-too-soon",
                last.fromS(),
                flow.fromS(),
                apartS,
                text(
                    "started again after %.0f s; %.3g starts an hour leave %.0f s between two",
                    apartS, perHour, leastS)));
      }
      last = flow;
    }
  }

  private void lateBreakaway(Flow flow, StartRecord start) {
    Measured delay = start.figures().get("breakaway_delay_s");
    Measured took = start.figures().get("start_time_s");
    Double delayS = delay == null ? null : delay.value();
    if (delayS == null) {
      return;
    }
    Double startS = took == null ? null : took.value();
    double ofS = startS != null ? startS : flow.toS() - flow.fromS();
    if (delayS > thresholds.lateBreakawayS() && delayS > thresholds.lateBreakawayShare() * ofS) {
      found.add(
          new Finding(
              "late-breakaway",
              flow.fromS(),
              flow.fromS() + delayS,
              delayS,
              text(
                  "the shaft began to turn %.2f s after current did, %.0f %% of the start: until then"
                      + " the motor only heated",
                  delayS, 100 * delayS / ofS)));
    }
  }

  private void ended(Flow flow, StartRecord start) {
    double tookS = flow.toS() - flow.fromS();
    if (start.outcome() == Outcome.STALLED) {
      found.add(
          new Finding(
              "stall",
              flow.fromS(),
              flow.toS(),
              tookS,
              text("current flowed for %.1f s and the start made no progress at its end", tookS)));
    } else if (start.outcome() == Outcome.ABORTED) {
      found.add(
          new Finding(
              "aborted-start",
              flow.fromS(),
              flow.toS(),
              tookS,
              text("current was cut after %.1f s, before full speed was reached", tookS)));
    }
  }

  private void unbalance(StartRecord start) {
    Measured unbalance = start.figures().get("current_unbalance_pct");
    Double value = unbalance == null ? null : unbalance.value();
    if (unbalance != null && value != null && value > thresholds.unbalancePct()) {
      Double fromS = unbalance.fromS();
      Double toS = unbalance.toS();
      found.add(
          new Finding(
              "unbalance",
              fromS == null ? 0 : fromS,
              toS == null ? 0 : toS,
              value,
              text(
                  "phase currents differ from their mean by %.1f %% over the start; limit %.0f %%",
                  value, thresholds.unbalancePct())));
    }
  }

  static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
