package rampwright.analysis.machine;

/**
 * Admittance, power factor and torque of a circuit tabulated over slip, for speed.
 *
 * <p>Nodes are even in u = s / (s + 0.25), that is close near synchronous speed and wide at
 * standstill; values between follow a cubic. Against the circuit itself the error is below 0.2 % of
 * the value from 0.1 % slip to standstill (SlipTableTest). Slip below zero: torque falls on
 * linearly (generating), admittance and power factor as at zero; above 1.1 as at 1.1.
 */
public final class SlipTable {
  private static final int NODES = 112;
  private static final double KNEE = 0.25;
  private static final double LARGEST_SLIP = 1.1;
  private static final double STEP = LARGEST_SLIP / (LARGEST_SLIP + KNEE) / (NODES - 1);

  private final double[] admittance = new double[NODES];
  private final double[] powerFactor = new double[NODES];
  private final double[] torque = new double[NODES];
  private final double torqueSlope;
  private final double peakTorque;

  /**
   * Tabulates a circuit.
   *
   * @param circuit per unit of the base impedance
   * @param torquePerAirGapPower per-unit torque for one per unit of air-gap power
   */
  public SlipTable(CageCircuit circuit, double torquePerAirGapPower) {
    double best = 0;
    int bestNode = 0;
    for (int k = 0; k < NODES; k++) {
      double u = k * STEP;
      CageCircuit.Point point = circuit.at(KNEE * u / (1.0 - u));
      admittance[k] = point.admittance();
      powerFactor[k] = point.powerFactor();
      torque[k] = point.airGapPower() * torquePerAirGapPower;
      if (torque[k] > best && u < 0.75) {
        best = torque[k];
        bestNode = k;
      }
    }
    torque[0] = 0;
    torqueSlope = torque[1] / slipOf(1);
    if (bestNode > 0 && bestNode < NODES - 1) {
      double below = torque[bestNode - 1];
      double above = torque[bestNode + 1];
      double curve = below - 2 * best + above;
      best -= curve < 0 ? (above - below) * (above - below) / (8 * curve) : 0;
    }
    peakTorque = best;
  }

  private static double slipOf(int node) {
    double u = node * STEP;
    return KNEE * u / (1.0 - u);
  }

  /** Where a slip above zero lies in the table; one division serves all three tables. */
  static double place(double slip) {
    double s = Math.min(slip, LARGEST_SLIP * 0.999999);
    return s / (s + KNEE) / STEP;
  }

  private static double between(double[] nodes, double place, double parity) {
    int k = (int) place;
    double part = place - k;
    double here = nodes[k];
    double next = nodes[k + 1];
    double before = k > 0 ? nodes[k - 1] : parity * next;
    double after = k + 2 < NODES ? nodes[k + 2] : 2 * next - here;
    // Towards synchronous speed current is even in slip, torque and power odd (nearly).
    // Catmull-Rom cubic: through the nodes, slope from the neighbours.
    double a = 0.5 * (next - before);
    double b = before - 2.5 * here + 2 * next - 0.5 * after;
    double c = 0.5 * (after - before) + 1.5 * (here - next);
    return here + part * (a + part * (b + part * c));
  }

  /** Stator current over voltage, per unit. */
  public double admittance(double slip) {
    return slip <= 0 ? admittance[0] : admittanceAt(place(slip));
  }

  double admittanceAt(double place) {
    return between(admittance, place, 1);
  }

  /** Power factor of the stator current. */
  public double powerFactor(double slip) {
    return slip <= 0 ? powerFactor[0] : powerFactorAt(place(slip));
  }

  double powerFactorAt(double place) {
    return between(powerFactor, place, -1);
  }

  /** Air-gap torque over terminal voltage squared, per unit of rated torque. */
  public double torque(double slip) {
    return slip <= 0 ? torqueSlope * slip : torqueAt(place(slip));
  }

  double torqueAt(double place) {
    return between(torque, place, -1);
  }

  /** Largest torque over voltage squared up to slip 0.75. */
  public double breakdownTorque() {
    return peakTorque;
  }
}
