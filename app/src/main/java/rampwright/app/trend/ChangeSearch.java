package rampwright.app.trend;

import java.util.Arrays;

/**
 * How much better one further change explains what a fit leaves over: a step at each start, or a
 * drift that begins at each. The evidence is the Bayes factor of one added regressor with a normal
 * prior, the value's variance unknown: sqrt(q / (A + q)) (1 - D / R)^(-v/2), with A the squared
 * length left of the regressor, q = s^2 / g^2, D the squares it takes away, R the squares there are
 * and v the degrees of freedom. Source: derived from the marginal likelihood of conjugate linear
 * regression (Gelman et al., Bayesian Data Analysis, 3rd ed., section 14.8, from memory). Summed
 * over all places, each with the chance that a change happens just there, it pays for having
 * searched them; while nothing changes the sum grows with the time watched alone, which keeps the
 * rate of false alarms (the procedure of Shiryaev and Roberts, from memory).
 */
final class ChangeSearch {
  /** Fewest starts after a change; fewer are a bad day. */
  static final int FEWEST_AFTER = 4;

  /** Fewest starts before a change; fewer are no baseline. */
  static final int FEWEST_BEFORE = 8;

  /** A drift needs a few more, else a step and a drift are the same. */
  static final int FEWEST_OF_DRIFT = 20;

  /** Prior standard deviation of a step's size and of a drift's rise over its time, relative. */
  static final double PRIOR_SIZE = 0.15;

  /** Share of its squared length a regressor must keep to be told from those already fitted. */
  private static final double LEAST_SHARE = 1e-9;

  /** Steps in a year of one figure, before it is looked at: common practice, no source. */
  static final double STEPS_PER_YEAR = 0.3;

  /** Beginnings of a drift in a year: common practice, no source. */
  private static final double DRIFTS_PER_YEAR = 0.1;

  /** Chance of a drift from the first start on: common practice, no source. */
  private static final double DRIFT_FROM_THE_FIRST = 0.05;

  /** Chance of a step within the few hours or days of a trial series; likewise. */
  private static final double STEP_AT_LEAST = 0.02;

  private final double[] logStep;
  private final double[] logDrift;
  private final double logStepSum;
  private final double logDriftSum;

  private ChangeSearch(double[] logStep, double[] logDrift) {
    this.logStep = logStep;
    this.logDrift = logDrift;
    this.logStepSum = logSum(logStep);
    this.logDriftSum = logSum(logDrift);
  }

  /**
   * Of values in order of time.
   *
   * @param timeYears of each start, rising
   * @param sd standard deviation of one value
   * @param inflation of the variance of means by the correlation of neighbours, from 1
   */
  static ChangeSearch of(WeightedFit fit, double[] timeYears, double sd, double inflation) {
    int n = fit.size();
    double[] logStep = new double[n];
    double[] logDrift = new double[n];
    Arrays.fill(logStep, Double.NEGATIVE_INFINITY);
    Arrays.fill(logDrift, Double.NEGATIVE_INFINITY);
    Tail tail = new Tail(fit.terms());
    double freedom = Math.max(1, fit.weightSum() - fit.terms()) / inflation;
    double last = timeYears[n - 1];
    for (int k = n - 1; k >= 0; k--) {
      tail.take(fit, k, timeYears[k] - last);
      int after = n - k;
      if (after >= FEWEST_AFTER && k >= FEWEST_BEFORE) {
        logStep[k] =
            evidence(
                fit,
                STEPS_PER_YEAR * share(timeYears, k) + STEP_AT_LEAST / n,
                tail.products,
                tail.weight,
                tail.residual,
                PRIOR_SIZE,
                sd,
                inflation,
                freedom);
      }
      double rise = last - timeYears[k];
      boolean fromTheFirst = k == 0 && after >= FEWEST_BEFORE + FEWEST_AFTER;
      boolean later = k >= FEWEST_BEFORE && after >= FEWEST_OF_DRIFT;
      if ((fromTheFirst || later) && rise > 0) {
        double begin = timeYears[k] - last;
        logDrift[k] =
            evidence(
                fit,
                k == 0 ? DRIFT_FROM_THE_FIRST : DRIFTS_PER_YEAR * share(timeYears, k),
                tail.hingeProducts(begin),
                tail.hingeSquares(begin),
                tail.hingeResidual(begin),
                PRIOR_SIZE / rise,
                sd,
                inflation,
                freedom);
      }
    }
    return new ChangeSearch(logStep, logDrift);
  }

  /**
   * The time a change at this start stands for, years: half its gap, half the mean gap, since a
   * machine changes with the time that passes and with the starts it makes.
   */
  private static double share(double[] timeYears, int k) {
    int n = timeYears.length;
    double mean = (timeYears[n - 1] - timeYears[0]) / (n - 1);
    return ((k == 0 ? mean : timeYears[k] - timeYears[k - 1]) + mean) / 2;
  }

  /** Logarithm of the chance before the starts were seen times the Bayes factor. */
  private static double evidence(
      WeightedFit fit,
      double before,
      double[] products,
      double squares,
      double along,
      double prior,
      double sd,
      double inflation,
      double freedom) {
    double length = fit.lengthLeft(squares, products);
    if (length <= LEAST_SHARE * squares) {
      return Double.NEGATIVE_INFINITY;
    }
    double loose = sd * sd * inflation / (prior * prior);
    double taken = along * along / (length + loose);
    double share = Math.min(1 - 1e-12, taken / fit.rss());
    // log(1 - share) is off by 1e-16 where log1p would not be: of no account, and several times
    // sooner
    return Math.log(before * Math.sqrt(loose / (length + loose)))
        - freedom / 2 * Math.log(1 - share);
  }

  /** Log of the odds of a step somewhere against none. */
  double logStep() {
    return logStepSum;
  }

  /** Log of the odds of a drift, from the first start or from a later one, against none. */
  double logDrift() {
    return logDriftSum;
  }

  int bestStep() {
    return best(logStep);
  }

  int bestDrift() {
    return best(logDrift);
  }

  /** Chance of each place of the step, given that there is one. */
  double[] stepPlaces() {
    return shares(logStep);
  }

  /** Chance of each beginning of the drift, given that there is one. */
  double[] driftBegins() {
    return shares(logDrift);
  }

  private static int best(double[] logs) {
    int best = 0;
    for (int i = 1; i < logs.length; i++) {
      if (logs[i] > logs[best]) {
        best = i;
      }
    }
    return best;
  }

  private static double[] shares(double[] logs) {
    double top = logs[best(logs)];
    double[] shares = new double[logs.length];
    double sum = 0;
    for (int i = 0; i < logs.length; i++) {
      shares[i] = top == Double.NEGATIVE_INFINITY ? 0 : Math.exp(logs[i] - top);
      sum += shares[i];
    }
    for (int i = 0; i < logs.length && sum > 0; i++) {
      shares[i] /= sum;
    }
    return shares;
  }

  private static double logSum(double[] logs) {
    double top = logs[best(logs)];
    if (top == Double.NEGATIVE_INFINITY) {
      return top;
    }
    double sum = 0;
    for (double log : logs) {
      sum += Math.exp(log - top);
    }
    return top + Math.log(sum);
  }

  /** Sums from a start to the last one, so that each place costs the same. Times from the last. */
  private static final class Tail {
    private final double[] products;
    private final double[] timeProducts;
    private final double[] hinge;
    private double weight;
    private double residual;
    private double timeResidual;
    private double time;
    private double timeSquares;

    Tail(int terms) {
      products = new double[terms];
      timeProducts = new double[terms];
      hinge = new double[terms];
    }

    void take(WeightedFit fit, int i, double t) {
      double w = fit.weight(i);
      weight += w;
      residual += w * fit.residual(i);
      timeResidual += w * t * fit.residual(i);
      time += w * t;
      timeSquares += w * t * t;
      for (int a = 0; a < products.length; a++) {
        products[a] += w * fit.column(a, i);
        timeProducts[a] += w * t * fit.column(a, i);
      }
    }

    double[] hingeProducts(double begin) {
      for (int a = 0; a < hinge.length; a++) {
        hinge[a] = timeProducts[a] - begin * products[a];
      }
      return hinge;
    }

    double hingeSquares(double begin) {
      return timeSquares - 2 * begin * time + begin * begin * weight;
    }

    double hingeResidual(double begin) {
      return timeResidual - begin * residual;
    }
  }
}
