package rampwright.analysis.fit;

import rampwright.analysis.machine.CageCircuit;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.Nameplate;
import rampwright.analysis.machine.Pipe;
import rampwright.analysis.machine.PipeHead;
import rampwright.analysis.machine.PlateCircuit;
import rampwright.analysis.machine.SlipTable;
import rampwright.analysis.machine.TypicalMotor;
import rampwright.analysis.machine.Wiring;

/**
 * What is believed of an asset's parameters before any trial: means, standard deviations, and the
 * plate numbers the circuit must keep near.
 *
 * <p>The spreads are common practice, no source: plates rounded and several percent off, load
 * inertia from a data sheet within a quarter, a load torque within a quarter when nothing is said,
 * a starter's torque estimate within a few percent.
 */
final class AssetPrior {
  /** Standard deviation of the logarithm of a trial's load over the asset's usual. */
  static final double LOAD_SCATTER = 0.035;

  // How far plate numbers may be off the machine, natural logarithm: rated current, power factor,
  // torque at rated slip.
  private static final double RATED_CURRENT_SIGMA = 0.04;
  private static final double RATED_COSINE_SIGMA = 0.05;
  private static final double RATED_TORQUE_SIGMA = 0.12;
  private static final double CIRCUIT_SIGMA = 0.45;

  // What a load adds to the rotor's inertia, as a share of it, and the spread of its logarithm.
  private static final double QUADRATIC_ADDS = 0.8;
  private static final double QUADRATIC_ADDS_SIGMA = 1.4;
  private static final double OTHERS_ADD = 2.0;
  private static final double OTHERS_ADD_SIGMA = 0.8;

  /** Spread of a static share that is on the sheet, and of the logarithm of the water's inertia. */
  private static final double STATIC_SHARE_SIGMA = 0.08;

  private static final double COLUMN_SIGMA = 0.35;
  private static final double LEAST_COLUMN_S = 0.02;

  private final Nameplate plate;
  private final TypicalMotor typical;
  private final double[] mean = new double[AssetParameters.COUNT];
  private final double[] sigma = new double[AssetParameters.COUNT];

  AssetPrior(AssetData data) {
    plate = data.plate();
    typical = TypicalMotor.of(plate);
    inertia(data);
    load(data);
    supply(data);
    CageCircuit circuit = PlateCircuit.of(plate, typical);
    double[] logs = PlateCircuit.logs(circuit);
    for (int k = 0; k < PlateCircuit.PARTS; k++) {
      set(AssetParameters.CIRCUIT + k, logs[k], CIRCUIT_SIGMA);
    }
    set(AssetParameters.TORQUE_GAIN, 0, 0.045);
    set(AssetParameters.TORQUE_OFFSET, 0, 0.01);
    set(AssetParameters.TORQUE_SLOPE, 0, 0.03);
    set(AssetParameters.VOLTAGE_BEND, 0, 0.03);
    set(AssetParameters.LIMIT_GAIN, 0, 0.025);
    // Inside a delta those of a winding, by the closed form; in line what trials showed.
    boolean delta = data.wiring().insideDelta();
    set(AssetParameters.HARMONICS, delta ? Wiring.USUAL_DELTA_SHARE : 0.14, delta ? 0.1 : 0.07);
    set(AssetParameters.GAPS, 0.13, 0.045);
    set(AssetParameters.LOSS_TORQUE, 0.005, 0.006);
  }

  double mean(int parameter) {
    return mean[parameter];
  }

  double sigma(int parameter) {
    return sigma[parameter];
  }

  TypicalMotor typical() {
    return typical;
  }

  /** Number of plate numbers held by {@link #plateResiduals}. */
  static final int PLATE_NUMBERS = 6;

  /** How far a circuit is off the plate, in standard deviations. */
  double[] plateResiduals(CageCircuit circuit, SlipTable table) {
    double[] errors = PlateCircuit.plateErrors(circuit, table, plate, typical);
    double[] sigmas = {
      RATED_CURRENT_SIGMA,
      RATED_COSINE_SIGMA,
      RATED_TORQUE_SIGMA,
      typical.currentSigma(),
      typical.torqueSigma(),
      typical.breakdownSigma()
    };
    for (int k = 0; k < errors.length; k++) {
      errors[k] /= sigmas[k];
    }
    return errors;
  }

  private void set(int parameter, double value, double spread) {
    mean[parameter] = value;
    sigma[parameter] = spread;
  }

  private void inertia(AssetData data) {
    double motor = typical.inertiaKgM2();
    Double load = data.loadInertiaKgM2();
    if (load != null) {
      double total = motor + load;
      double spread = Math.hypot(motor * typical.inertiaSigma(), 0.25 * load) / total;
      set(AssetParameters.INERTIA, Math.log(total), Math.max(0.06, spread));
      return;
    }
    // Pumps add a tenth to a half of the rotor, fans three to ten times the rotor; both are
    // "quadratic". Mixers, compressors, conveyors and crushers add a half to eight times.
    boolean quadratic = data.loadKind() == LoadKind.QUADRATIC;
    set(
        AssetParameters.INERTIA,
        Math.log(motor * (quadratic ? QUADRATIC_ADDS : OTHERS_ADD)),
        quadratic ? QUADRATIC_ADDS_SIGMA : OTHERS_ADD_SIGMA);
  }

  private void load(AssetData data) {
    Double power = data.loadPowerW();
    // Crushers, compressors and conveyors are often started empty; pumps and fans are not.
    boolean quadratic = data.loadKind() == LoadKind.QUADRATIC;
    double full = power != null ? power / plate.ratedPowerW() : quadratic ? 0.68 : 0.6;
    double fullSigma = power != null ? 0.12 : quadratic ? 0.25 : 0.4;
    set(AssetParameters.LOAD_FULL, Math.log(full), fullSigma);
    switch (data.loadKind()) {
      case QUADRATIC -> shape(0.045, 0.8, 0.14, 0.5, 2.0, 0.15);
      case LINEAR -> shape(0.24, 0.5, 0.38, 0.4, 1.1, 0.3);
      case CONSTANT -> shape(0.85 * full, 0.3, 0.85, 0.4, 1.0, 0.4);
      case RECIPROCATING -> shape(0.36, 0.5, 0.47, 0.4, 1.1, 0.35);
    }
    Double breakaway = data.breakawayTorquePct();
    if (breakaway != null && breakaway > 0) {
      set(AssetParameters.BREAKAWAY, Math.log(breakaway / 100), 0.3);
    }
    set(AssetParameters.WIDTH, Math.log(0.03), 0.6);
    set(AssetParameters.STATIC_HEAD, 0.25, 0.22);
    set(AssetParameters.COLUMN, Math.log(0.25), 1.5);
    set(AssetParameters.FLOW_SHARE, 0.5, 0.2);
    Pipe pipe = data.pipe();
    PipeHead head = pipe == null ? null : pipe.head();
    if (pipe != null && head != null) {
      // Levels move by some percent of the head and a duty point lies beside the one on the sheet;
      // the water of branches and of the pump itself is on no sheet.
      set(AssetParameters.STATIC_HEAD, head.staticShare(), STATIC_SHARE_SIGMA);
      set(
          AssetParameters.COLUMN,
          Math.log(Math.max(LEAST_COLUMN_S, head.inertiaS(pipe.lengthM(), pipe.velocityMPerS()))),
          COLUMN_SIGMA);
    }
  }

  private void shape(
      double least,
      double leastSigma,
      double breakaway,
      double breakawaySigma,
      double exponent,
      double exponentSigma) {
    set(AssetParameters.LOAD_LEAST, Math.log(least), leastSigma);
    set(AssetParameters.BREAKAWAY, Math.log(breakaway), breakawaySigma);
    set(AssetParameters.EXPONENT, exponent, exponentSigma);
  }

  private void supply(AssetData data) {
    Double impedance = data.supplyImpedanceOhm();
    // Nothing said: the motor's rated power is often some two percent of the fault level.
    double guess = 0.025 * plate.baseImpedanceOhm();
    set(
        AssetParameters.IMPEDANCE,
        Math.log(impedance != null && impedance > 0 ? impedance : guess),
        impedance != null && impedance > 0 ? 0.25 : 0.9);
    set(AssetParameters.X_OVER_R, Math.log(4), 0.7);
  }
}
