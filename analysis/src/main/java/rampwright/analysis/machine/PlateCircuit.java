package rampwright.analysis.machine;

import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.util.Pair;

/**
 * The double-cage circuit that agrees best with a nameplate.
 *
 * <p>Six plate numbers (rated current, power factor and torque at rated slip, locked-rotor current
 * and torque, breakdown torque) are met in the least-squares sense; the seventh freedom is taken by
 * mild beliefs about how resistance and leakage divide. All in logarithms of per-unit parts.
 */
public final class PlateCircuit {
  /** Number of circuit parts, in the order r1, x1, xm, ra, xa, rb, xb. */
  public static final int PARTS = 7;

  // Agreement asked of each plate number, natural logarithm: rated point tight, tests looser.
  private static final double[] PLATE_SIGMA = {0.01, 0.01, 0.01, 0.01, 0.02, 0.02};
  private static final double BELIEF_SIGMA = 0.6;

  private final Nameplate plate;
  private final TypicalMotor typical;

  private PlateCircuit(Nameplate plate, TypicalMotor typical) {
    this.plate = plate;
    this.typical = typical;
  }

  /** Fits the circuit, in per unit of the plate's base impedance. */
  public static CageCircuit of(Nameplate plate, TypicalMotor typical) {
    return new PlateCircuit(plate, typical).solve();
  }

  /**
   * Natural logarithms of what the circuit makes of the plate: rated current, power factor and
   * torque at rated slip, locked-rotor current and torque, breakdown torque, each over the plate's.
   */
  public static double[] plateErrors(
      CageCircuit circuit, SlipTable table, Nameplate plate, TypicalMotor typical) {
    double perPower = plate.torquePerAirGapPower();
    CageCircuit.Point rated = circuit.at(plate.ratedSlip());
    CageCircuit.Point locked = circuit.at(1.0);
    return new double[] {
      Math.log(rated.admittance()),
      Math.log(rated.powerFactor() / plate.powerFactor()),
      Math.log(rated.airGapPower() * perPower),
      Math.log(locked.admittance() / typical.currentRatio()),
      Math.log(locked.airGapPower() * perPower / typical.torqueRatio()),
      Math.log(table.breakdownTorque() / typical.breakdownRatio())
    };
  }

  /** The circuit whose parts have these natural logarithms. */
  public static CageCircuit fromLogs(double[] logs, int from) {
    return new CageCircuit(
        Math.exp(logs[from]),
        Math.exp(logs[from + 1]),
        Math.exp(logs[from + 2]),
        Math.exp(logs[from + 3]),
        Math.exp(logs[from + 4]),
        Math.exp(logs[from + 5]),
        Math.exp(logs[from + 6]));
  }

  /** Natural logarithms of the circuit's parts. */
  public static double[] logs(CageCircuit circuit) {
    return new double[] {
      Math.log(circuit.r1()),
      Math.log(circuit.x1()),
      Math.log(circuit.xm()),
      Math.log(circuit.ra()),
      Math.log(circuit.xa()),
      Math.log(circuit.rb()),
      Math.log(circuit.xb())
    };
  }

  private CageCircuit solve() {
    double[] belief = belief();
    double[] best = belief;
    double bestCost = Double.POSITIVE_INFINITY;
    for (double spread : new double[] {0.0, 0.5, -0.5}) {
      double[] start = belief.clone();
      start[5] += spread;
      start[4] += spread;
      try {
        LeastSquaresOptimizer.Optimum optimum =
            new LevenbergMarquardtOptimizer()
                .optimize(
                    new LeastSquaresBuilder()
                        .start(start)
                        .model(
                            point -> {
                              double[] at = point.toArray();
                              return new Pair<>(
                                  new ArrayRealVector(residuals(at, belief), false),
                                  new Array2DRowRealMatrix(jacobian(at, belief), false));
                            })
                        .target(new double[PLATE_SIGMA.length + PARTS])
                        .lazyEvaluation(false)
                        .maxEvaluations(150)
                        .maxIterations(150)
                        .build());
        if (optimum.getCost() < bestCost) {
          bestCost = optimum.getCost();
          best = optimum.getPoint().toArray();
        }
      } catch (MathRuntimeException e) {
        // The evaluations ran out on this start; another start or the belief itself serves.
        continue;
      }
      if (bestCost < 1.5) {
        break;
      }
    }
    return fromLogs(best, 0);
  }

  private double[] belief() {
    double leakage = 0.93 / typical.currentRatio();
    double slip = plate.ratedSlip();
    double loss = 1.0 - plate.efficiency();
    return new double[] {
      Math.log(0.35 * loss * plate.powerFactor() + 0.003),
      Math.log(0.45 * leakage),
      Math.log(
          1.0 / Math.max(0.15, 0.8 * Math.sqrt(1 - plate.powerFactor() * plate.powerFactor()))),
      Math.log(1.15 * slip),
      Math.log(1.3 * leakage),
      Math.log(Math.max(2.0 * slip, 1.6 * typical.torqueRatio() / square(typical.currentRatio()))),
      Math.log(0.7 * leakage)
    };
  }

  private static double square(double x) {
    return x * x;
  }

  private double[] residuals(double[] at, double[] belief) {
    CageCircuit circuit = fromLogs(at, 0);
    double[] errors =
        plateErrors(circuit, new SlipTable(circuit, plate.torquePerAirGapPower()), plate, typical);
    double[] out = new double[PLATE_SIGMA.length + PARTS];
    for (int k = 0; k < errors.length; k++) {
      out[k] = errors[k] / PLATE_SIGMA[k];
    }
    for (int k = 0; k < PARTS; k++) {
      out[errors.length + k] = (at[k] - belief[k]) / BELIEF_SIGMA;
    }
    return out;
  }

  private double[][] jacobian(double[] at, double[] belief) {
    double step = 1e-5;
    double[][] out = new double[PLATE_SIGMA.length + PARTS][PARTS];
    for (int column = 0; column < PARTS; column++) {
      double[] up = at.clone();
      double[] down = at.clone();
      up[column] += step;
      down[column] -= step;
      double[] high = residuals(up, belief);
      double[] low = residuals(down, belief);
      for (int row = 0; row < high.length; row++) {
        out[row][column] = (high[row] - low[row]) / (2 * step);
      }
    }
    return out;
  }
}
