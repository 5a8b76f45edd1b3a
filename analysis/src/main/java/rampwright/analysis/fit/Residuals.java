package rampwright.analysis.fit;

/**
 * A least-squares problem whose parameters have priors, as far as its posterior needs to know it.
 */
interface Residuals {
  /** Length of a parameter vector. */
  int size();

  /** Prior standard deviation of a parameter. */
  double sigma(int parameter);

  /** Whether anything but the priors speaks. */
  boolean hasTrials();

  /** The weighted residuals of a parameter vector. */
  double[] residuals(double[] p);

  /**
   * Derivatives of the residuals.
   *
   * @param at the residuals of the same vector
   */
  double[][] jacobian(double[] p, double[] at);

  /** Sum of the squared residuals. */
  default double cost(double[] p) {
    double sum = 0;
    for (double r : residuals(p)) {
      sum += r * r;
    }
    return sum;
  }
}
