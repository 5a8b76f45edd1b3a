package rampwright.analysis.signal;

/**
 * What a plain sum over samples lacks at one end of a window, as weights on the four samples around
 * that end.
 *
 * <p>Formula: with s the distance from the end into the window, x(s) a cubic through four samples
 * and the first sample in the window at s = a, the integral of x(s) exp(-j theta s) over s > 0 and
 * the sum of x(a + k) exp(-j theta (a + k)) over k = 0, 1, ... differ by sum c_p K_p, where c_p are
 * the coefficients of the cubic and
 *
 * <pre>
 * K_p = (j d/dtheta)^p K_0,   K_0 = 1/(j theta) - exp(-j theta (a - 1/2)) / (2 j sin(theta/2))
 * K_p = B_(p+1)(a) / (p+1)    for theta = 0 (Bernoulli polynomials)
 * </pre>
 *
 * <p>Both sums are taken in Abel's sense; the far end of a window is the same thing mirrored, with
 * the complex conjugate. The weights are exact in theta, so that a high order sees no more error of
 * a slow signal than a low one.
 *
 * <p>Valid: 0 <= a <= 1, 0 <= theta < pi.
 *
 * <p>Source: own derivation in analysis/docs/signal.md, section 1; for theta = 0 it is the
 * Euler-Maclaurin formula.
 */
final class EndWeights {
  /** Samples used at each end. */
  static final int POINTS = 4;

  private final double a;

  /** Coefficient of s^p in the cubic that is 1 at point j and 0 at the others: [j][p]. */
  private final double[][] cubic = new double[POINTS][POINTS];

  /**
   * Weights for one end.
   *
   * @param a distance from the end to the first sample inside the window, in samples
   * @param points distances of the four samples from the end, positive into the window
   */
  EndWeights(double a, double[] points) {
    this.a = a;
    for (int j = 0; j < POINTS; j++) {
      double p = points[(j + 1) % POINTS];
      double q = points[(j + 2) % POINTS];
      double r = points[(j + 3) % POINTS];
      double scale = 1 / ((points[j] - p) * (points[j] - q) * (points[j] - r));
      cubic[j][0] = -p * q * r * scale;
      cubic[j][1] = (p * q + p * r + q * r) * scale;
      cubic[j][2] = -(p + q + r) * scale;
      cubic[j][3] = scale;
    }
  }

  /** Weight of point j for a plain integral, theta = 0. */
  double mean(int j) {
    double[] c = cubic[j];
    double k0 = a - 0.5;
    double k1 = ((a - 1) * a + 1.0 / 6) / 2;
    double k2 = a * (a - 0.5) * (a - 1) / 3;
    double k3 = (a * a * (a - 1) * (a - 1) - 1.0 / 30) / 4;
    return c[0] * k0 + c[1] * k1 + c[2] * k2 + c[3] * k3;
  }

  /**
   * Adds the weights for theta to a column of {@code into}.
   *
   * @param theta angle from sample to sample, rad, above 0
   * @param mirrored the far end of a window: conjugate
   * @param into rows of {@code width}; point j goes to {@code row + j}
   * @param re column of the real part
   * @param im column of the imaginary part
   */
  void addTo(double theta, boolean mirrored, double[] into, int row, int width, int re, int im) {
    double u = a - 0.5;
    double half = theta / 2;
    double sin = Math.sin(half);
    double cot = Math.cos(half) / sin;
    double csc2 = 1 / (sin * sin);
    // S = exp(-j theta u) / (2 j sin): real part -sin(theta u), imaginary part -cos(theta u).
    double sRe = -Math.sin(theta * u) / (2 * sin);
    double sIm = -Math.cos(theta * u) / (2 * sin);
    // q = u - j cot/2, r = -csc2/4; factors of S: 1, q, q^2 + r, q^3 + 3 q r + j csc2 cot/4.
    double v = -cot / 2;
    double r = -csc2 / 4;
    double q2Re = u * u - v * v;
    double q2Im = 2 * u * v;
    double q3Re = u * q2Re - v * q2Im + 3 * u * r;
    double q3Im = u * q2Im + v * q2Re + 3 * v * r + csc2 * cot / 4;
    q2Re += r;
    double inverse = 1 / theta;
    double inverse2 = inverse * inverse;
    // Integrals p! / (j theta)^(p+1): -j/theta, -1/theta^2, 2j/theta^3, 6/theta^4.
    double k0Re = -sRe;
    double k0Im = -inverse - sIm;
    double k1Re = -inverse2 - (sRe * u - sIm * v);
    double k1Im = -(sRe * v + sIm * u);
    double k2Re = -(sRe * q2Re - sIm * q2Im);
    double k2Im = 2 * inverse * inverse2 - (sRe * q2Im + sIm * q2Re);
    double k3Re = 6 * inverse2 * inverse2 - (sRe * q3Re - sIm * q3Im);
    double k3Im = -(sRe * q3Im + sIm * q3Re);
    double sign = mirrored ? -1 : 1;
    for (int j = 0; j < POINTS; j++) {
      double[] c = cubic[j];
      int at = (row + j) * width;
      into[at + re] += c[0] * k0Re + c[1] * k1Re + c[2] * k2Re + c[3] * k3Re;
      into[at + im] += sign * (c[0] * k0Im + c[1] * k1Im + c[2] * k2Im + c[3] * k3Im);
    }
  }
}
