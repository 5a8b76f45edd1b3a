package rampwright.analysis.fit;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.CageCircuit;
import rampwright.analysis.machine.LoadCurve;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.PlateCircuit;
import rampwright.analysis.machine.SlipTable;
import rampwright.analysis.machine.StarterLaw;
import rampwright.analysis.machine.Supply;
import rampwright.analysis.machine.TypicalMotor;
import rampwright.analysis.machine.WaterColumn;

/**
 * The numbers of an asset that a fit may move, what is believed of each before any trial, and the
 * machine model they make.
 *
 * <p>Scale-like numbers are kept as natural logarithms, so that a standard deviation of 0.1 is
 * about ten percent.
 */
public final class AssetParameters {
  static final int INERTIA = 0;
  static final int LOAD_FULL = 1;
  static final int LOAD_LEAST = 2;
  static final int BREAKAWAY = 3;
  static final int EXPONENT = 4;
  static final int WIDTH = 5;
  static final int IMPEDANCE = 6;
  static final int X_OVER_R = 7;
  static final int CIRCUIT = 8;
  static final int TORQUE_GAIN = 15;
  static final int TORQUE_OFFSET = 16;
  static final int LIMIT_GAIN = 17;
  static final int HARMONICS = 18;
  static final int GAPS = 19;
  static final int LOSS_TORQUE = 20;
  static final int TORQUE_SLOPE = 21;
  static final int VOLTAGE_BEND = 22;
  static final int STATIC_HEAD = 23;
  static final int COLUMN = 24;
  static final int FLOW_SHARE = 25;

  /** Names, in the order of the vector; {@code ln} marks a natural logarithm. */
  public static final List<String> NAMES =
      List.of(
          "ln inertia_kgm2",
          "ln load_torque",
          "ln load_least_torque",
          "ln breakaway_torque",
          "load_exponent",
          "ln breakaway_width",
          "ln supply_impedance_ohm",
          "ln supply_x_over_r",
          "ln r1",
          "ln x1",
          "ln xm",
          "ln ra",
          "ln xa",
          "ln rb",
          "ln xb",
          "ln torque_gain",
          "torque_offset",
          "ln limit_gain",
          "harmonic_share",
          "gap_share",
          "loss_torque",
          "torque_slope",
          "voltage_bend",
          "static_head_share",
          "ln water_inertia_s",
          "flow_torque_share");

  static final int COUNT = 26;

  /** How many parameters each trial has of its own, in the order of the three places below. */
  static final int OWN = 3;

  /** Logarithm of a trial's load over the asset's usual. */
  static final int OWN_LOAD = 0;

  /** How much later than dated a trial's stop order came, s. */
  static final int OWN_STOP = 1;

  /** Logarithm of a trial's breakaway torque over the usual at that load. */
  static final int OWN_BREAKAWAY = 2;

  private static final double LEAST_REST = 1e-3;

  private final AssetData data;
  private final boolean hasWater;
  private final double sureInertiaKgM2;
  private final double usualLoad;

  AssetParameters(AssetData data, double usualLoad) {
    this.data = data;
    this.usualLoad = usualLoad;
    this.hasWater = data.loadKind() == LoadKind.QUADRATIC;
    this.sureInertiaKgM2 = sureInertiaKgM2(data, TypicalMotor.of(data.plate()));
  }

  /**
   * The part of the inertia that is not in question: with a load whose inertia nobody knows, most
   * of the rotor's, since a load has none below zero. The vector holds the rest.
   */
  static double sureInertiaKgM2(AssetData data, TypicalMotor motor) {
    return data.loadInertiaKgM2() != null ? 0 : motor.inertiaKgM2() * (1 - motor.inertiaSigma());
  }

  /** Inertia of motor and load of a parameter vector, kg m2. */
  double inertiaKgM2(double[] p) {
    return sureInertiaKgM2 + Math.exp(p[INERTIA]);
  }

  /** Multiplies a vector's inertia, as far as it is in question. */
  void multiplyInertia(double[] p, double factor) {
    double wanted = factor * inertiaKgM2(p) - sureInertiaKgM2;
    p[INERTIA] = Math.log(Math.max(LEAST_REST * inertiaKgM2(p), wanted));
  }

  /** Relative standard deviation of the inertia when that of its part in question is known. */
  double inertiaSigma(double[] p, double sigma) {
    return sigma * Math.exp(p[INERTIA]) / inertiaKgM2(p);
  }

  AssetData data() {
    return data;
  }

  /** The model of one of the fitted trials, whose own parameters the vector holds too. */
  MachineModel modelOfTrial(double[] p, SlipTable table, double sourceVoltageV, int trial) {
    int own = COUNT + OWN * trial;
    return own < p.length
        ? model(p, table, sourceVoltageV, p[own + OWN_LOAD], p[own + OWN_BREAKAWAY])
        : model(p, table, sourceVoltageV, 0, 0);
  }

  /** The circuit of a parameter vector, per unit. */
  CageCircuit circuit(double[] p) {
    return PlateCircuit.fromLogs(p, CIRCUIT);
  }

  /** The circuit of a parameter vector tabulated over slip. */
  SlipTable table(double[] p) {
    return new SlipTable(circuit(p), data.plate().torquePerAirGapPower());
  }

  /**
   * The model of a parameter vector.
   *
   * @param table tabulated circuit of the same vector
   * @param sourceVoltageV line voltage before the start
   * @param loadScale natural logarithm of this trial's load torque over the asset's usual
   * @param breakawayScale the same of the breakaway torque, at that load
   */
  MachineModel model(
      double[] p, SlipTable table, double sourceVoltageV, double loadScale, double breakawayScale) {
    double scale = Math.exp(loadScale);
    double full = scale * Math.exp(p[LOAD_FULL]);
    double least = scale * Math.exp(leastTorque(p));
    LoadCurve load =
        new LoadCurve(
            full,
            Math.min(least, 1.5 * full),
            scale * Math.exp(p[BREAKAWAY] + breakawayScale),
            clamp(p[EXPONENT], 0.3, 4),
            clamp(Math.exp(p[WIDTH]), 0.004, 0.3));
    StarterLaw starter =
        new StarterLaw(
            Math.exp(p[TORQUE_GAIN]),
            p[TORQUE_OFFSET],
            clamp(p[LOSS_TORQUE], -0.02, 0.04),
            clamp(p[TORQUE_SLOPE], -0.3, 0.3),
            clamp(p[VOLTAGE_BEND], -0.3, 0.3),
            Math.exp(p[LIMIT_GAIN]),
            clamp(p[HARMONICS], 0, data.wiring().insideDelta() ? 1.2 : 0.4),
            clamp(p[GAPS], 0, 0.5),
            data.wiring());
    @Nullable WaterColumn water =
        hasWater
            ? new WaterColumn(
                clamp(p[STATIC_HEAD], 0, 0.95),
                clamp(Math.exp(p[COLUMN]), 1e-3, 60),
                clamp(p[FLOW_SHARE], 0, 1))
            : null;
    return new MachineModel(
        data.plate(),
        table,
        starter,
        Supply.ofImpedance(Math.exp(p[IMPEDANCE]), Math.exp(p[X_OVER_R])).plus(data.cable()),
        sourceVoltageV,
        load,
        water,
        inertiaKgM2(p),
        hasWater ? data.pipe() : null,
        data.cable());
  }

  /**
   * Logarithm of the least torque. A pump's or fan's is friction, whatever it moves; that of a
   * conveyor, compressor or crusher is a share of its load, so that the vector holds what it were
   * at the usual load.
   */
  private double leastTorque(double[] p) {
    return hasWater ? p[LOAD_LEAST] : p[LOAD_LEAST] + p[LOAD_FULL] - usualLoad;
  }

  /** Lowers a vector's load by a logarithm, at every speed. */
  void lowerLoad(double[] p, double by) {
    p[LOAD_FULL] -= by;
    p[LOAD_LEAST] -= hasWater ? by : 0;
  }

  private static double clamp(double x, double low, double high) {
    return Math.min(high, Math.max(low, x));
  }
}
