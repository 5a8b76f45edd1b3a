package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.SlipTable;
import rampwright.analysis.machine.Trajectory;

/**
 * The weighted residuals of a parameter vector against an asset's trials, priors and plate.
 *
 * <p>Shape of the vector: {@link AssetParameters#NAMES}, then for each trial the logarithm of its
 * load over the asset's usual, how much later than dated its stop order came, s, and the logarithm
 * of its breakaway torque over the usual at that load. Shape of the residuals: one for each
 * parameter against its prior, the plate numbers, then each trial's.
 */
final class FitProblem implements Residuals {
  private static final int ALL = -1;
  private static final int TIMING_PASSES = 5;
  private static final int TIMED_TRIALS = 2;
  private static final double LONGEST_FACTOR = 2.5;
  private static final double BREAKAWAY_SHARE = 0.8;
  private static final double LARGEST_MOVE = 1.5;
  private static final double NEAR_MOVE = 0.02;
  private static final double EASE = 0.2;
  private static final int STICKING = 5;
  private static final double STICKING_STEP = 0.04;
  private static final double STANDING = 0.05;
  private static final double LEAST_SHIFT_SIGMA_S = 0.02;
  // A difference quotient over this share of a standard deviation: above the noise of the
  // simulator's step control, below the curvature. A wide prior must not make the step wide: an
  // inertia moved by 4 % shifts the fall of current by six times its standard deviation, where
  // residuals have long turned flat, so that descents stood still and the posterior came out
  // several times too narrow.
  private static final double STEP_SHARE = 0.04;
  private static final double LARGEST_STEP = 0.004;
  private static final double LITTLE = 0.5;

  private final Batch batch;
  private final AssetParameters parameters;
  private final AssetPrior prior;
  private final List<TrialResiduals> trials = new ArrayList<>();
  private final List<BinnedTrial> binned = new ArrayList<>();
  private final int size;
  private final int rows;
  private final double ratedVoltageV;
  private final double wide;

  FitProblem(AssetData data, List<TrialObservation> observations, Batch batch) {
    this.batch = batch;
    wide = 1;
    prior = new AssetPrior(data);
    parameters = new AssetParameters(data, prior.mean(AssetParameters.LOAD_FULL));
    ratedVoltageV = data.plate().ratedVoltageV();
    int count = 0;
    for (TrialObservation observation : observations) {
      BinnedTrial bins = new BinnedTrial(observation, data);
      binned.add(bins);
      TrialResiduals residuals = new TrialResiduals(bins);
      trials.add(residuals);
      count += residuals.size();
    }
    size = AssetParameters.COUNT + AssetParameters.OWN * trials.size();
    rows = count + size + AssetPrior.PLATE_NUMBERS;
  }

  private FitProblem(FitProblem other, double wide) {
    batch = other.batch;
    parameters = other.parameters;
    prior = other.prior;
    trials.addAll(other.trials);
    binned.addAll(other.binned);
    size = other.size;
    rows = other.rows;
    ratedVoltageV = other.ratedVoltageV;
    this.wide = wide;
  }

  /** The same problem with readings that many times as uncertain. */
  FitProblem widened(double factor) {
    return new FitProblem(this, factor);
  }

  AssetParameters parameters() {
    return parameters;
  }

  @Override
  public int size() {
    return size;
  }

  /** Number of residuals. */
  int rows() {
    return rows;
  }

  int trialCount() {
    return trials.size();
  }

  @Override
  public boolean hasTrials() {
    return !trials.isEmpty();
  }

  /** Prior mean of a parameter. */
  double mean(int parameter) {
    return parameter < AssetParameters.COUNT ? prior.mean(parameter) : 0;
  }

  /** Prior means of all parameters. */
  double[] centre() {
    double[] centre = new double[size];
    for (int k = 0; k < size; k++) {
      centre[k] = mean(k);
    }
    return centre;
  }

  @Override
  public double sigma(int parameter) {
    int own = parameter - AssetParameters.COUNT;
    if (own < 0) {
      return prior.sigma(parameter);
    }
    return switch (own % AssetParameters.OWN) {
      case AssetParameters.OWN_STOP ->
          Math.max(
              LEAST_SHIFT_SIGMA_S, binned.get(own / AssetParameters.OWN).trial.stopBeginSigmaS());
      case AssetParameters.OWN_BREAKAWAY -> FitResult.BREAKAWAY_SCATTER;
      default -> AssetPrior.LOAD_SCATTER;
    };
  }

  /** Whether a parameter changes anything in this asset. */
  boolean active(int parameter) {
    int own = parameter - AssetParameters.COUNT;
    if (own >= 0) {
      return switch (own % AssetParameters.OWN) {
        case AssetParameters.OWN_STOP -> binned.get(own / AssetParameters.OWN).stopInDoubt();
        // One trial cannot tell what is its own.
        case AssetParameters.OWN_BREAKAWAY -> trials.size() > 1;
        default -> true;
      };
    }
    boolean water = parameter >= AssetParameters.STATIC_HEAD && parameter < AssetParameters.COUNT;
    return !water || parameters.data().loadKind() == LoadKind.QUADRATIC;
  }

  /**
   * The same vector with the inertia that makes the simulated starts as long as the observed ones:
   * with all torques as they are, acceleration goes with one over inertia.
   */
  double[] timed(double[] p) {
    double[] out = p.clone();
    SlipTable table = parameters.table(out);
    List<Integer> timing = timing();
    for (int pass = 0; pass < TIMING_PASSES; pass++) {
      double sum = 0;
      int count = 0;
      for (int k : timing) {
        BinnedTrial trial = binned.get(k);
        double observed = observedS(trial);
        double source = trial.sourceVoltagePu * ratedVoltageV;
        MachineModel model = parameters.modelOfTrial(out, table, source, k);
        Trajectory run =
            RunSimulator.run(
                model, trial.trial.settings(), RunPlan.startOnly(LONGEST_FACTOR * observed));
        if (run.completed()) {
          double delay = Math.min(run.instants().breakawayS(), BREAKAWAY_SHARE * observed);
          sum += Math.log((observed - delay) / (run.instants().fullSpeedS() - delay));
          count++;
        } else if (shortfall(run, model) > 0) {
          sum -= Math.log(LONGEST_FACTOR);
          count++;
        } else {
          ease(out, run, shortfall(run, model));
          count++;
        }
      }
      if (count == 0) {
        return out;
      }
      double move = sum / count;
      parameters.multiplyInertia(
          out, Math.exp(Math.max(-LARGEST_MOVE, Math.min(LARGEST_MOVE, move))));
      if (count == timing.size() && Math.abs(move) < NEAR_MOVE && sum != 0) {
        return out;
      }
    }
    return out;
  }

  /**
   * The same vector with the breakaway of each trial that failed, but would not on this vector, as
   * much larger as it takes to stand still, if a little does; no descent finds that jump.
   */
  double[] stuck(double[] p) {
    double[] out = p.clone();
    if (trials.size() < 2) {
      return out;
    }
    SlipTable table = parameters.table(out);
    for (int k = 0; k < binned.size(); k++) {
      BinnedTrial trial = binned.get(k);
      if (trial.completed) {
        continue;
      }
      int place = AssetParameters.COUNT + AssetParameters.OWN * k + AssetParameters.OWN_BREAKAWAY;
      double usual = out[place];
      int step = 0;
      while (step <= STICKING && completes(out, table, k)) {
        step++;
        out[place] = usual + step * STICKING_STEP;
      }
      if (step > STICKING) {
        out[place] = usual;
      }
    }
    return out;
  }

  private boolean completes(double[] p, SlipTable table, int k) {
    BinnedTrial trial = binned.get(k);
    MachineModel model =
        parameters.modelOfTrial(p, table, trial.sourceVoltagePu * ratedVoltageV, k);
    return RunSimulator.run(model, trial.trial.settings(), RunPlan.startOnly(trial.cutS))
        .completed();
  }

  /** The last few trials whose start's length is known. */
  private List<Integer> timing() {
    List<Integer> out = new ArrayList<>();
    for (int k = binned.size() - 1; k >= 0 && out.size() < TIMED_TRIALS; k--) {
      if (binned.get(k).completed && !Double.isNaN(observedS(binned.get(k)))) {
        out.add(k);
      }
    }
    return out;
  }

  private static double observedS(BinnedTrial trial) {
    return Double.isNaN(trial.fullSpeedS) ? trial.halfFallS : trial.fullSpeedS;
  }

  /** Logarithm of the torque at the end of a start that failed, over what the load holds then. */
  private static double shortfall(Trajectory run, MachineModel model) {
    int last = run.size() - 1;
    boolean standing = run.speedPu(last) <= 0;
    double load = standing ? model.load().holding() : run.loadTorquePu(last);
    return Math.log(Math.max(1e-3, run.torquePu(last)) / Math.max(1e-3, load));
  }

  /** Where a simulated start sticks and the observed one did not, the load it sticks at is less. */
  private void ease(double[] p, Trajectory run, double shortfall) {
    double move = Math.max(-LARGEST_MOVE, shortfall - EASE);
    if (run.speedPu(run.size() - 1) < STANDING) {
      p[AssetParameters.BREAKAWAY] += move;
      p[AssetParameters.LOAD_LEAST] += Math.min(0, 0.5 * move);
    } else {
      parameters.lowerLoad(p, -move);
    }
  }

  @Override
  public double[] residuals(double[] p) {
    return residuals(p, ALL, new double[0]);
  }

  /** Residuals; those of other trials than the one that changed are taken from before. */
  private double[] residuals(double[] p, int changed, double[] before) {
    double[] out = changed == ALL ? new double[rows] : before.clone();
    int row = 0;
    for (int k = 0; k < size; k++) {
      out[row++] = (p[k] - mean(k)) / sigma(k);
    }
    SlipTable table = parameters.table(p);
    System.arraycopy(
        prior.plateResiduals(parameters.circuit(p), table), 0, out, row, AssetPrior.PLATE_NUMBERS);
    row += AssetPrior.PLATE_NUMBERS;
    for (int k = 0; k < trials.size(); k++) {
      if (changed != ALL && changed != k) {
        row += trials.get(k).size();
        continue;
      }
      double source = binned.get(k).sourceVoltagePu * ratedVoltageV;
      trials
          .get(k)
          .into(
              parameters.modelOfTrial(p, table, source, k),
              p[AssetParameters.COUNT + AssetParameters.OWN * k + AssetParameters.OWN_STOP],
              wide,
              out,
              row);
      row += trials.get(k).size();
    }
    return out;
  }

  /** Derivatives of the residuals, forward differences. */
  @Override
  public double[][] jacobian(double[] p, double[] at) {
    return jacobian(p, at, null);
  }

  /**
   * The same, but the columns of parameters of which the trials tell little, by the derivatives of
   * a vector nearby, are taken over from there: on the way down they hardly matter.
   */
  double[][] jacobian(double[] p, double[] at, double @Nullable [][] nearby) {
    double[][] out = new double[rows][size];
    List<double[]> columns =
        batch.map(
            size,
            column ->
                nearby != null && told(nearby, column) < LITTLE
                    ? copied(nearby, column)
                    : column(p, at, column));
    for (int column = 0; column < size; column++) {
      double[] values = columns.get(column);
      for (int row = 0; row < rows; row++) {
        out[row][column] = values[row];
      }
    }
    return out;
  }

  /** What the trials tell of a parameter, in units of what the prior does. */
  private double told(double[][] jacobian, int column) {
    double sum = 0;
    for (int row = size + AssetPrior.PLATE_NUMBERS; row < rows; row++) {
      sum += jacobian[row][column] * jacobian[row][column];
    }
    return sum * sigma(column) * sigma(column);
  }

  private double[] copied(double[][] jacobian, int column) {
    double[] out = new double[rows];
    for (int row = 0; row < rows; row++) {
      out[row] = jacobian[row][column];
    }
    return out;
  }

  private double[] column(double[] p, double[] at, int column) {
    double[] out = new double[rows];
    if (!active(column)) {
      out[column] = 1 / sigma(column);
      return out;
    }
    double step = Math.min(STEP_SHARE * sigma(column), LARGEST_STEP);
    double[] moved = p.clone();
    moved[column] += step;
    int own = column - AssetParameters.COUNT;
    double[] up = residuals(moved, own >= 0 ? own / AssetParameters.OWN : ALL, at);
    for (int row = 0; row < rows; row++) {
      out[row] = (up[row] - at[row]) / step;
    }
    return out;
  }

  /** Root mean square of each trial's residuals. */
  double[] trialResiduals(double[] p) {
    double[] value = residuals(p);
    double[] out = new double[trials.size()];
    int row = size + AssetPrior.PLATE_NUMBERS;
    for (int k = 0; k < out.length; k++) {
      double sum = 0;
      int count = 0;
      for (int j = 0; j < trials.get(k).size(); j++) {
        double r = value[row + j];
        if (r != 0) {
          sum += r * r;
          count++;
        }
      }
      out[k] = Math.sqrt(sum / Math.max(1, count));
      row += trials.get(k).size();
    }
    return out;
  }
}
