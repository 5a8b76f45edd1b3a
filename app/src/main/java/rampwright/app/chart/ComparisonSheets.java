package rampwright.app.chart;

import java.awt.Color;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;

/** From several trials, or from two, to a sheet. */
final class ComparisonSheets {
  private static final String TIME = "time from inception";
  private static final List<Mark> ZERO = List.of(new Mark("inception", 0, null, false));

  private ComparisonSheets() {}

  static Sheet overlay(OverlayPlot plot, Ink ink) {
    Span time = plot.window() != null ? plot.window() : together(plot.trials());
    boolean perRated = ratedDiffer(plot.trials(), Rated::currentA);
    boolean perSpeed = ratedDiffer(plot.trials(), Rated::speedRpm);
    LaneBuilder current = new LaneBuilder("Current, highest phase", perRated ? "× In" : "A", time);
    LaneBuilder speed = new LaneBuilder("Speed", perSpeed ? "% of rated" : "rpm", time);
    List<Lane.LegendEntry> legend = new ArrayList<>();
    for (int n = 0; n < plot.trials().size(); n++) {
      TrialCurve trial = plot.trials().get(n);
      LineLook look = ink.line(n);
      legend.add(new Lane.LegendEntry(look, false, trial.label(), trial.note()));
      Double ratedA = trial.rated().currentA();
      double one = perRated && ratedA != null ? ratedA : 1;
      add(current, HighestPhase.of(trial.track(), trial.inceptionS(), one), look, null);
      Double ratedRpm = trial.rated().speedRpm();
      one = perSpeed && ratedRpm != null ? ratedRpm / 100 : 1;
      add(speed, speedOf(trial, one), look, null);
    }
    ratedScale(current, plot.trials());
    List<Lane> lanes = new ArrayList<>();
    lanes.add(current.build(AxisRange.Fit.FROM_ZERO, speed.isEmpty() ? 1 : 1.5));
    if (!speed.isEmpty()) {
      lanes.add(speed.build(AxisRange.Fit.FROM_ZERO, 1));
    }
    return new Sheet(plot.heading(), lanes, time, TIME, ZERO, List.of(), legend, List.of());
  }

  private static @Nullable Curve speedOf(TrialCurve trial, double one) {
    double[] rpm = trial.track().of(ChannelName.SPEED);
    if (rpm == null) {
      return null;
    }
    double[] values = Arrays.stream(rpm).map(v -> v / one).toArray();
    return Curve.of(trial.track().timeS(), values, trial.inceptionS());
  }

  /** Whether every trial names its rated value and they are not all the same. */
  private static boolean ratedDiffer(
      List<TrialCurve> trials, Function<Rated, @Nullable Double> part) {
    List<@Nullable Double> values = new ArrayList<>();
    for (TrialCurve trial : trials) {
      values.add(part.apply(trial.rated()));
    }
    return !values.contains(null) && values.stream().distinct().count() > 1;
  }

  static Sheet difference(DifferencePlot plot, Ink ink) {
    TrialCurve reference = plot.reference();
    TrialCurve other = plot.other();
    List<TrialCurve> both = List.of(reference, other);
    Span time = plot.window() != null ? plot.window() : together(both);
    List<Lane> lanes = new ArrayList<>();
    @Nullable Curve a = HighestPhase.of(reference.track(), reference.inceptionS(), 1);
    @Nullable Curve b = HighestPhase.of(other.track(), other.inceptionS(), 1);
    pair(lanes, "Current, highest phase", "A", both, a, b, time, ink);
    a = Curve.of(reference.track(), ChannelName.SPEED, reference.inceptionS());
    b = Curve.of(other.track(), ChannelName.SPEED, other.inceptionS());
    if (a != null || b != null) {
      pair(lanes, "Speed", "rpm", both, a, b, time, ink);
    }
    List<Lane.LegendEntry> legend =
        List.of(
            new Lane.LegendEntry(ink.line(0), false, reference.label(), reference.note()),
            new Lane.LegendEntry(ink.line(1), false, other.label(), other.note()));
    return new Sheet(plot.heading(), lanes, time, TIME, ZERO, List.of(), legend, plot.figures());
  }

  private static void pair(
      List<Lane> lanes,
      String title,
      String unit,
      List<TrialCurve> both,
      @Nullable Curve a,
      @Nullable Curve b,
      Span time,
      Ink ink) {
    LaneBuilder lane = new LaneBuilder(title, unit, time);
    add(lane, a, ink.line(0), both.get(0).label());
    add(lane, b, ink.line(1), both.get(1).label());
    if (unit.equals("A")) {
      ratedScale(lane, both);
    }
    lanes.add(lane.build(AxisRange.Fit.FROM_ZERO, 1.35));
    LaneBuilder less =
        new LaneBuilder(
            "Difference, " + both.get(1).label() + " less " + both.get(0).label(), unit, time);
    if (a != null && b != null) {
      difference(less, a, b, time, ink);
    }
    lanes.add(less.build(AxisRange.Fit.FROM_ZERO, 1));
  }

  private static void difference(LaneBuilder lane, Curve a, Curve b, Span time, Ink ink) {
    Curve curve = a.differenceTo(b, time);
    if (curve != null) {
      Color above = Ink.pale(ink.lineColours().get(1), 0.28);
      Color below = Ink.pale(ink.lineColours().get(0), 0.28);
      lane.under(Layers.signed(curve, above, below));
      lane.line(curve, ink.plainLine(), null);
      lane.legend(Lane.LegendEntry.band(new LineLook(above, ink.hair(1)), "above"));
      lane.legend(Lane.LegendEntry.band(new LineLook(below, ink.hair(1)), "below"));
    }
  }

  private static void add(
      LaneBuilder lane, @Nullable Curve curve, LineLook look, @Nullable String label) {
    if (curve != null) {
      lane.line(curve, look, label);
    }
  }

  /** A scale in rated currents, where all trials share one. */
  private static void ratedScale(LaneBuilder lane, List<TrialCurve> trials) {
    if (trials.isEmpty()) {
      return;
    }
    Double first = trials.get(0).rated().currentA();
    if (first != null
        && trials.stream().allMatch(t -> Objects.equals(first, t.rated().currentA()))) {
      lane.rightScale(first, "× In");
    }
  }

  /** From a little before inception to the end of the longest trial. */
  private static Span together(List<TrialCurve> trials) {
    double from = 0;
    double to = 0;
    for (TrialCurve trial : trials) {
      double[] timeS = trial.track().timeS();
      if (timeS.length > 0) {
        from = Math.min(from, timeS[0] - trial.inceptionS());
        to = Math.max(to, timeS[timeS.length - 1] - trial.inceptionS());
      }
    }
    from = Math.max(from, -0.05 * to);
    return to > from ? new Span(from, to) : new Span(-0.1, 1);
  }
}
