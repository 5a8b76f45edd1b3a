package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * Where to begin a descent: the best few of a random sample of the prior, refined over breakaway,
 * load and inertia, in which the problem has more than one valley: a start that stood still and one
 * that moved look alike from afar.
 */
final class FitStarts {
  private static final int SCOUTS = 90;
  private static final double[] REFINE = {-0.7, 0, 0.7};
  private static final double LOAD_REACH = 0.7;
  private static final double INERTIA_REACH = 0.6;

  private final FitProblem problem;
  private final Batch batch;

  FitStarts(FitProblem problem, Batch batch) {
    this.problem = problem;
    this.batch = batch;
  }

  /** So many starting vectors, the most promising first. */
  List<double[]> find(int count, Random random) {
    double[] centre = problem.centre();
    List<double[]> sample = new ArrayList<>();
    sample.add(centre);
    for (int k = 1; k < SCOUTS; k++) {
      double[] p = centre.clone();
      for (int j = 0; j < AssetParameters.CIRCUIT; j++) {
        p[j] += problem.sigma(j) * random.nextGaussian();
      }
      for (int j = AssetParameters.TORQUE_GAIN; j < AssetParameters.COUNT; j++) {
        p[j] += problem.sigma(j) * random.nextGaussian();
      }
      sample.add(p);
    }
    List<double[]> timed = batch.map(sample.size(), k -> problem.timed(sample.get(k)));
    List<double[]> starts = new ArrayList<>();
    for (double[] rough : best(timed, count)) {
      starts.addAll(best(around(rough), 1));
    }
    return starts;
  }

  private List<double[]> around(double[] rough) {
    List<double[]> near = new ArrayList<>();
    for (double b : REFINE) {
      for (double l : REFINE) {
        for (double i : REFINE) {
          double[] p = rough.clone();
          p[AssetParameters.BREAKAWAY] += b * problem.sigma(AssetParameters.BREAKAWAY);
          p[AssetParameters.LOAD_FULL] += LOAD_REACH * l * problem.sigma(AssetParameters.LOAD_FULL);
          p[AssetParameters.INERTIA] += INERTIA_REACH * i * problem.sigma(AssetParameters.INERTIA);
          near.add(problem.stuck(i == 0 ? problem.timed(p) : p));
        }
      }
    }
    return near;
  }

  private List<double[]> best(List<double[]> sample, int count) {
    List<Double> costs = batch.map(sample.size(), k -> problem.cost(sample.get(k)));
    List<Integer> order = new ArrayList<>();
    for (int k = 0; k < sample.size(); k++) {
      order.add(k);
    }
    order.sort((a, b) -> Double.compare(costs.get(a), costs.get(b)));
    List<double[]> out = new ArrayList<>();
    for (int k = 0; k < count; k++) {
      out.add(sample.get(order.get(k)));
    }
    return out;
  }
}
