package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.RunFigures;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Trajectory;

/**
 * Which limits stand in the way: for each, the best value of its figure that the most likely model
 * reaches over the searched settings while every other limit of that part is kept.
 */
final class Binding {
  private final Chances chances;
  private final MachineModel model;
  private final List<StartSearch.Scored> sample;
  private final StarterSettings proposed;

  Binding(
      Chances chances,
      MachineModel model,
      List<StartSearch.Scored> sample,
      StarterSettings proposed) {
    this.chances = chances;
    this.model = model;
    this.sample = sample;
    this.proposed = proposed;
  }

  List<Advice.Binding> find() {
    List<RunFigures> starts = new ArrayList<>();
    for (StartSearch.Scored each : sample) {
      Trajectory run = chances.start(model, each.settings());
      if (run.completed()) {
        starts.add(chances.figures(run, model));
      }
    }
    Trajectory own = chances.start(model, proposed);
    if (own.completed()) {
      starts.add(chances.figures(own, model));
    }
    List<Advice.Binding> out = new ArrayList<>();
    for (FigureLimit limit : chances.startLimits()) {
      add(out, limit, chances.startLimits(), starts);
    }
    if (!chances.stopLimits().isEmpty()) {
      List<RunFigures> stops = List.of(chances.figures(chances.stop(model, proposed), model));
      for (FigureLimit limit : chances.stopLimits()) {
        add(out, limit, List.of(), stops);
      }
    }
    return out;
  }

  private void add(
      List<Advice.Binding> out,
      FigureLimit limit,
      List<FigureLimit> others,
      List<RunFigures> runs) {
    RunFigure figure = limit.figure();
    if (figure == null) {
      return;
    }
    double nearest = Double.NaN;
    double margin = Double.NEGATIVE_INFINITY;
    for (RunFigures run : runs) {
      double value = run.of(figure);
      double own = limit.margin(value);
      if (!Double.isNaN(own) && own > margin && kept(others, limit, run)) {
        margin = own;
        nearest = value;
      }
    }
    if (Double.isNaN(nearest)) {
      // Nothing keeps the others: what the proposed settings give says how far off this one is.
      RunFigures own = runs.isEmpty() ? null : runs.get(runs.size() - 1);
      nearest = own == null ? Double.NaN : own.of(figure);
      margin = limit.margin(nearest);
    }
    if (margin >= 0) {
      return;
    }
    double needed = needed(limit, nearest);
    out.add(new Advice.Binding(limit.show(), nearest, needed));
  }

  private static double needed(FigureLimit limit, double nearest) {
    @Nullable Double max = limit.max();
    @Nullable Double min = limit.min();
    if (max != null && !(nearest <= max)) {
      return max;
    }
    return min != null ? min : max != null ? max : Double.NaN;
  }

  private static boolean kept(List<FigureLimit> limits, FigureLimit except, RunFigures run) {
    for (FigureLimit limit : limits) {
      RunFigure figure = limit.figure();
      if (!limit.equals(except) && figure != null && !limit.met(run.of(figure))) {
        return false;
      }
    }
    return true;
  }
}
