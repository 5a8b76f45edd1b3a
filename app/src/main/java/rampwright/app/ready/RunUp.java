package rampwright.app.ready;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import rampwright.analysis.fit.FitResult;
import rampwright.analysis.heat.HeatPiece;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.RunFigures;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Trajectory;

/**
 * What settings would do: one start of each of the fit's draws, that is of every machine the sheet
 * and the trials so far leave open.
 */
public final class RunUp {
  /** A start that takes longer is taken to fail; starters give up sooner. */
  private static final double GIVE_UP_S = 120;

  private static final double TURNING = 0.05;
  private static final double SOURCE_SIGMA = 0.01;
  private static final double FEWEST_SHARE = 0.1;
  private static final long SEED = 60947;

  /** One draw and its start. */
  record Draw(MachineModel model, Trajectory run, RunFigures figures) {}

  private final List<Draw> draws;
  private final double limitRatio;

  private RunUp(List<Draw> draws, double limitRatio) {
    this.draws = draws;
    this.limitRatio = limitRatio;
  }

  /** Starts every draw of a fit with the settings. */
  public static RunUp of(FitResult fit, double sourceVoltageV, StarterSettings settings) {
    List<Draw> draws = new ArrayList<>();
    for (MachineModel model :
        fit.models(fit.drawCount(), sourceVoltageV, SOURCE_SIGMA, new Random(SEED))) {
      Trajectory run = RunSimulator.run(model, settings, RunPlan.startOnly(GIVE_UP_S));
      draws.add(new Draw(model, run, RunFigures.of(run, model, RunFigures.PhaseFactors.BALANCED)));
    }
    return new RunUp(List.copyOf(draws), settings.currentLimitRatio());
  }

  List<Draw> draws() {
    return draws;
  }

  /** Share of the draws that reach full speed. */
  double completedShare() {
    return (double) draws.stream().filter(d -> d.run().completed()).count() / draws.size();
  }

  /** A figure at 5, 50 and 95 % of the draws that give it; NaN where none does. */
  double[] range(RunFigure figure) {
    return range(draw -> draw.figures().of(figure));
  }

  /** Anything at 5, 50 and 95 % of the draws that give it. */
  double[] range(ToDoubleFunction<Draw> what) {
    double[] values = draws.stream().mapToDouble(what).filter(Double::isFinite).sorted().toArray();
    return new double[] {at(values, 0.05), at(values, 0.5), at(values, 0.95)};
  }

  private static double at(double[] sorted, double share) {
    return sorted.length == 0
        ? Double.NaN
        : sorted[(int) Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
  }

  /**
   * Least torque over the load's from just after breakaway to full speed, of rated torque; at most
   * 0 for a start that hangs on the way. At breakaway itself a ramp gives just what the load holds.
   */
  static double leastMargin(Draw draw) {
    Trajectory run = draw.run();
    double least = Double.NaN;
    double until = run.completed() ? run.instants().fullSpeedS() : run.instants().endS();
    double from = run.instants().breakawayS();
    for (int k = 0; k < run.size(); k++) {
      if (run.timeS(k) >= from && run.timeS(k) <= until && run.speedPu(k) >= TURNING) {
        double margin = run.torquePu(k) - run.loadTorquePu(k);
        least = Double.isNaN(least) ? margin : Math.min(least, margin);
      }
    }
    if (Double.isNaN(least)) {
      // One that never turns lacks what it would need to break away.
      least = run.torquePu(run.size() - 1) - draw.model().load().holding();
    }
    return run.completed() ? least : Math.min(0, least);
  }

  /**
   * The start that heats more than a share of those that reach full speed, as pieces of current;
   * empty where fewer than one in ten do. How long a failing start is let is not known.
   *
   * @param share 0.95 for the start that heats most but for five in a hundred
   */
  List<HeatPiece> pieces(double share) {
    List<Draw> byHeat = new ArrayList<>(draws.stream().filter(d -> d.run().completed()).toList());
    if (byHeat.size() < FEWEST_SHARE * draws.size()) {
      return List.of();
    }
    byHeat.sort((a, b) -> Double.compare(heat(a), heat(b)));
    Draw draw = byHeat.get((int) Math.min(byHeat.size() - 1, Math.floor(share * byHeat.size())));
    List<HeatPiece> pieces = new ArrayList<>();
    Trajectory run = draw.run();
    double until = run.completed() ? run.instants().fullSpeedS() : run.instants().endS();
    for (int k = 1; k < run.size() && run.timeS(k - 1) < until; k++) {
      double lastsS = Math.min(until, run.timeS(k)) - run.timeS(k - 1);
      double a = run.currentRatio(k - 1);
      double b = run.currentRatio(k);
      double square = (a * a + a * b + b * b) / 3;
      if (lastsS > 0) {
        double windings = square * (1 + draw.model().unseenShare(Math.sqrt(square)));
        pieces.add(new HeatPiece(lastsS, HeatPiece.State.SLIP, windings, windings));
      }
    }
    return pieces;
  }

  private static double heat(Draw draw) {
    return draw.figures().of(RunFigure.I2T);
  }

  /**
   * Share of a figure's spread that goes with a parameter: the squared correlation of logarithms.
   */
  double shareOfSpread(RunFigure figure, ToDoubleFunction<MachineModel> parameter) {
    double[] x = new double[draws.size()];
    double[] y = new double[draws.size()];
    int n = 0;
    for (Draw draw : draws) {
      double value = draw.figures().of(figure);
      double of = parameter.applyAsDouble(draw.model());
      if (Double.isFinite(value) && value > 0 && of > 0) {
        x[n] = Math.log(of);
        y[n++] = Math.log(value);
      }
    }
    return n < 8 ? Double.NaN : squaredCorrelation(Arrays.copyOf(x, n), Arrays.copyOf(y, n));
  }

  /**
   * Share of what decides between reaching full speed and not that goes with a parameter: the
   * squared correlation of its logarithm with a draw's coming to full speed (1) or not (0).
   */
  double shareOfOutcome(ToDoubleFunction<MachineModel> parameter) {
    double[] x = draws.stream().mapToDouble(d -> parameter.applyAsDouble(d.model())).toArray();
    if (Arrays.stream(x).anyMatch(value -> !(value > 0))) {
      return 0;
    }
    double[] y = draws.stream().mapToDouble(d -> d.run().completed() ? 1 : 0).toArray();
    return squaredCorrelation(Arrays.stream(x).map(Math::log).toArray(), y);
  }

  private static double squaredCorrelation(double[] x, double[] y) {
    double mx = Arrays.stream(x).average().orElse(0);
    double my = Arrays.stream(y).average().orElse(0);
    double xy = 0;
    double xx = 0;
    double yy = 0;
    for (int i = 0; i < x.length; i++) {
      xy += (x[i] - mx) * (y[i] - my);
      xx += (x[i] - mx) * (x[i] - mx);
      yy += (y[i] - my) * (y[i] - my);
    }
    return xx <= 0 || yy <= 0 ? 0 : xy * xy / (xx * yy);
  }

  /** Torque of motor and load against speed: median and 5 to 95 %. */
  public TorqueCourse course() {
    return TorqueCourse.of(draws, limitRatio);
  }
}
