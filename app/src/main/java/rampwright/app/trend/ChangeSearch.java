package rampwright.app.trend;

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

  /** Below it six terms of the series are exact to 1e-13 of the sum. */
  private static final double SMALL_SHARE = 0.008;

  /** Logarithm of what adds nothing to a sum. */
  private static final double NOTHING = -60;

  private final Places step;
  private final Places drift;
  private final double logStep;
  private final double logDrift;

  private ChangeSearch(Places step, Places drift) {
    this.step = step;
    this.drift = drift;
    this.logStep = step.logSum();
    this.logDrift = drift.logSum();
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
    Places step = new Places(n);
    Places drift = new Places(n);
    Tail tail = new Tail(fit.terms());
    double freedom = Math.max(1, fit.weightSum() - fit.terms()) / inflation;
    double last = timeYears[n - 1];
    for (int k = n - 1; k >= 0; k--) {
      tail.take(fit, k, timeYears[k] - last);
      int after = n - k;
      if (after >= FEWEST_AFTER && k >= FEWEST_BEFORE) {
        evidence(
            step,
            k,
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
        evidence(
            drift,
            k,
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
    return new ChangeSearch(step, drift);
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

  /** The chance before the starts were seen and the Bayes factor, at one place. */
  private static void evidence(
      Places places,
      int k,
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
    if (length > LEAST_SHARE * squares) {
      double loose = sd * sd * inflation / (prior * prior);
      double taken = along * along / (length + loose);
      double share = Math.min(1 - 1e-12, taken / fit.rss());
      places.put(
          k, before * Math.sqrt(loose / (length + loose)), freedom / 2 * minusLogOfRest(share));
    }
  }

  /**
   * -log(1 - share), within 1e-13 of its size: most shares are small, and the general way takes
   * several times as long.
   */
  private static double minusLogOfRest(double share) {
    if (share > SMALL_SHARE) {
      return -Math.log1p(-share);
    }
    return share
        * (1
            + share
                * (1.0 / 2
                    + share
                        * (1.0 / 3 + share * (1.0 / 4 + share * (1.0 / 5 + share * (1.0 / 6))))));
  }

  /** Log of the odds of a step somewhere against none. */
  double logStep() {
    return logStep;
  }

  /** Log of the odds of a drift, from the first start or from a later one, against none. */
  double logDrift() {
    return logDrift;
  }

  int bestStep() {
    return step.best();
  }

  int bestDrift() {
    return drift.best();
  }

  /** Chance of each place of the step, given that there is one. */
  double[] stepPlaces() {
    return step.shares();
  }

  /** Chance of each beginning of the drift, given that there is one. */
  double[] driftBegins() {
    return drift.shares();
  }

  /**
   * What speaks for a change at each place, as factors and logarithms that go with them: only their
   * sum needs an exponential each, and the factors no logarithm.
   */
  private static final class Places {
    private final double[] factors;
    private final double[] logs;
    private double top = Double.NEGATIVE_INFINITY;

    Places(int n) {
      factors = new double[n];
      logs = new double[n];
    }

    void put(int k, double factor, double log) {
      factors[k] = factor;
      logs[k] = log;
      top = Math.max(top, log);
    }

    /** Relative to the largest logarithm; 0 where no change can be. */
    private double at(int k) {
      double below = logs[k] - top;
      return factors[k] == 0 || below < NOTHING ? 0 : factors[k] * Math.exp(below);
    }

    private double sum() {
      double sum = 0;
      for (int k = 0; k < factors.length; k++) {
        sum += at(k);
      }
      return sum;
    }

    double logSum() {
      return top == Double.NEGATIVE_INFINITY ? top : top + Math.log(sum());
    }

    int best() {
      int best = 0;
      double most = at(0);
      for (int k = 1; k < factors.length; k++) {
        double here = at(k);
        if (here > most) {
          best = k;
          most = here;
        }
      }
      return best;
    }

    double[] shares() {
      double sum = sum();
      double[] shares = new double[factors.length];
      for (int k = 0; k < shares.length && sum > 0; k++) {
        shares[k] = at(k) / sum;
      }
      return shares;
    }
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
