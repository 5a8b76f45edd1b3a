package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.List;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.SlipTable;

/**
 * The weighted residuals of a parameter vector against an asset's trials, priors and plate.
 *
 * <p>Shape of the vector: {@link AssetParameters#NAMES}, then for each trial the logarithm of its
 * load over the asset's usual and how much later than dated its stop order came, s. Shape of the
 * residuals: one for each parameter against its prior, the plate numbers, then each trial's.
 */
final class FitProblem {
  private static final int ALL = -1;
  private static final double LEAST_SHIFT_SIGMA_S = 0.02;
  // A difference quotient over this share of a standard deviation: above the noise of the
  // simulator's step control, below the curvature.
  private static final double STEP_SHARE = 0.04;

  private final Batch batch;
  private final AssetParameters parameters;
  private final AssetPrior prior;
  private final List<TrialResiduals> trials = new ArrayList<>();
  private final List<BinnedTrial> binned = new ArrayList<>();
  private final int size;
  private final int rows;
  private final double ratedVoltageV;

  FitProblem(AssetData data, List<TrialObservation> observations, Batch batch) {
    this.batch = batch;
    parameters = new AssetParameters(data);
    prior = new AssetPrior(data);
    ratedVoltageV = data.plate().ratedVoltageV();
    int count = 0;
    for (TrialObservation observation : observations) {
      BinnedTrial bins = new BinnedTrial(observation, data.plate(), data.supplyVoltageV());
      binned.add(bins);
      TrialResiduals residuals = new TrialResiduals(bins);
      trials.add(residuals);
      count += residuals.size();
    }
    size = AssetParameters.COUNT + 2 * trials.size();
    rows = count + size + AssetPrior.PLATE_NUMBERS;
  }

  AssetParameters parameters() {
    return parameters;
  }

  /** Length of a parameter vector. */
  int size() {
    return size;
  }

  /** Number of residuals. */
  int rows() {
    return rows;
  }

  int trialCount() {
    return trials.size();
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

  /** Prior standard deviation of a parameter. */
  double sigma(int parameter) {
    int own = parameter - AssetParameters.COUNT;
    if (own >= 0) {
      boolean shift = own % 2 == 1;
      return shift
          ? Math.max(LEAST_SHIFT_SIGMA_S, binned.get(own / 2).trial.stopBeginSigmaS())
          : AssetPrior.LOAD_SCATTER;
    }
    return prior.sigma(parameter);
  }

  /** Whether a parameter changes anything in this asset. */
  boolean active(int parameter) {
    int own = parameter - AssetParameters.COUNT;
    if (own >= 0 && own % 2 == 1) {
      return binned.get(own / 2).stopInDoubt();
    }
    boolean water = parameter >= AssetParameters.STATIC_HEAD && parameter < AssetParameters.COUNT;
    return !water || parameters.data().loadKind() == LoadKind.QUADRATIC;
  }

  /** Sum of the squared residuals. */
  double cost(double[] p) {
    double sum = 0;
    for (double r : residuals(p)) {
      sum += r * r;
    }
    return sum;
  }

  double[] residuals(double[] p) {
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
              parameters.model(p, table, source, p[AssetParameters.COUNT + 2 * k]),
              p[AssetParameters.COUNT + 2 * k + 1],
              out,
              row);
      row += trials.get(k).size();
    }
    return out;
  }

  /**
   * Derivatives of the residuals, forward differences.
   *
   * @param at the residuals of the same vector
   */
  double[][] jacobian(double[] p, double[] at) {
    double[][] out = new double[rows][size];
    List<double[]> columns = batch.map(size, column -> column(p, at, column));
    for (int column = 0; column < size; column++) {
      double[] values = columns.get(column);
      for (int row = 0; row < rows; row++) {
        out[row][column] = values[row];
      }
    }
    return out;
  }

  private double[] column(double[] p, double[] at, int column) {
    double[] out = new double[rows];
    if (!active(column)) {
      out[column] = 1 / sigma(column);
      return out;
    }
    double step = STEP_SHARE * sigma(column);
    double[] moved = p.clone();
    moved[column] += step;
    int own = column - AssetParameters.COUNT;
    double[] up = residuals(moved, own >= 0 ? own / 2 : ALL, at);
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
