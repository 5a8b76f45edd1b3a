package rampwright.exam.plant;

/**
 * The motor as it really is: a double-cage machine whose leakage reactances fall as current rises.
 *
 * <p>Symbols: all resistances and reactances per phase of the equivalent star, ohm, at rated
 * frequency; {@code r1, x1} stator, {@code xm} magnetising, {@code ro, xo} outer cage, {@code ri,
 * xi} inner cage. Saturation: every leakage reactance is multiplied by {@code 1 - depth * i2 / (i2
 * + is2)} with i the phase current and {@code is = saturationA}.
 *
 * @param lineVoltageV rated line-to-line voltage
 * @param ratedCurrentA what the machine draws at rated power (not what its plate says)
 * @param ratedTorqueNm what it gives at rated power
 * @param lossTorqueNm friction and windage at rated speed, taken from the air-gap torque
 */
public record TrueMachine(
    double lineVoltageV,
    double frequencyHz,
    int polePairs,
    double r1,
    double x1,
    double xm,
    double ro,
    double xo,
    double ri,
    double xi,
    double depth,
    double saturationA,
    double ratedCurrentA,
    double ratedTorqueNm,
    double ratedSpeedRadPerS,
    double lossTorqueNm,
    double inertiaKgM2) {

  public double syncRadPerS() {
    return 2 * Math.PI * frequencyHz / polePairs;
  }

  public double phaseVoltageV() {
    return lineVoltageV / Math.sqrt(3);
  }

  /**
   * Current, torque and power factor at a slip and a phase voltage; {@code point.currentA} is the
   * first guess for the saturation and becomes the answer.
   */
  public void solve(double phaseV, double slip, int passes, Point point) {
    double current = point.currentA;
    for (int pass = 0; pass < passes; pass++) {
      double square = current * current;
      double factor = 1 - depth * square / (square + saturationA * saturationA);
      // rotor branches and magnetising branch in parallel, as admittances (good at slip 0 too)
      double bo = slip * xo * factor;
      double bi = slip * xi * factor;
      double no = ro * ro + bo * bo;
      double ni = ri * ri + bi * bi;
      double g = slip * ro / no + slip * ri / ni;
      double b = -slip * bo / no - slip * bi / ni - 1 / xm;
      double y2 = g * g + b * b;
      double rp = g / y2;
      double xp = -b / y2;
      double r = r1 + rp;
      double x = x1 * factor + xp;
      double z = Math.sqrt(r * r + x * x);
      point.cosPhi = r / z;
      point.gapOhm = rp;
      point.impedanceOhm = z;
      double next = phaseV / z;
      boolean done = Math.abs(next - current) < 1e-5 * next;
      current = next;
      if (done) {
        break;
      }
    }
    point.currentA = current;
    point.gapPowerW = 3 * current * current * point.gapOhm;
    point.torqueNm = point.gapPowerW / syncRadPerS();
  }

  /** Steady operation at rated voltage and a given slip. */
  public Point at(double slip) {
    Point point = new Point();
    point.currentA = ratedCurrentA;
    solve(phaseVoltageV(), slip, 60, point);
    return point;
  }

  /** Where the machine works: filled by {@link #solve}. */
  public static final class Point {
    double currentA;
    double torqueNm;
    double cosPhi = 1;
    double gapOhm;
    double gapPowerW;
    double impedanceOhm = 1;

    public double currentA() {
      return currentA;
    }

    public double torqueNm() {
      return torqueNm;
    }

    public double cosPhi() {
      return cosPhi;
    }

    public double gapPowerW() {
      return gapPowerW;
    }
  }
}
