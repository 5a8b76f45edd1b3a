package rampwright.analysis.machine;

import java.util.Arrays;

/**
 * A simulated run: what happens from current inception (time 0) to the end of the record.
 *
 * <p>Shape: arrays of length {@link #size}; times increase, two equal times mark a jump. Instants
 * that never came are NaN.
 */
public final class Trajectory {
  private static final int FIRST_ROOM = 160;

  private double[] timeS = new double[FIRST_ROOM];
  private double[] speedPu = new double[FIRST_ROOM];
  private double[] currentRatio = new double[FIRST_ROOM];
  private double[] measuredVoltagePu = new double[FIRST_ROOM];
  private double[] busVoltagePu = new double[FIRST_ROOM];
  private double[] motorVoltagePu = new double[FIRST_ROOM];
  private double[] torquePu = new double[FIRST_ROOM];
  private double[] loadTorquePu = new double[FIRST_ROOM];
  private double[] flow = new double[FIRST_ROOM];
  private int size;

  /** Instants of a run, s after inception; NaN where an instant never came. */
  public record Instants(
      double breakawayS,
      double fullSpeedS,
      double bypassS,
      double stopBeginS,
      double releaseS,
      double restS,
      double endS) {}

  private Instants instants =
      new Instants(
          Double.NaN, Double.NaN, Double.NaN, Double.NaN, Double.NaN, Double.NaN, Double.NaN);
  private double settledSpeedPu;
  private double sourceVoltagePu;
  private double rotorHeatPu;
  private double limitedShare;

  Trajectory() {}

  void add(double time, double speed, double flowPu, double load, ElectricalPoint point) {
    if (size == timeS.length) {
      int room = 2 * size;
      timeS = Arrays.copyOf(timeS, room);
      speedPu = Arrays.copyOf(speedPu, room);
      currentRatio = Arrays.copyOf(currentRatio, room);
      measuredVoltagePu = Arrays.copyOf(measuredVoltagePu, room);
      busVoltagePu = Arrays.copyOf(busVoltagePu, room);
      motorVoltagePu = Arrays.copyOf(motorVoltagePu, room);
      torquePu = Arrays.copyOf(torquePu, room);
      loadTorquePu = Arrays.copyOf(loadTorquePu, room);
      flow = Arrays.copyOf(flow, room);
    }
    timeS[size] = time;
    speedPu[size] = speed;
    currentRatio[size] = point.current;
    measuredVoltagePu[size] = point.measuredVoltage;
    busVoltagePu[size] = point.busVoltage;
    motorVoltagePu[size] = point.motorVoltage;
    torquePu[size] = point.torque;
    loadTorquePu[size] = load;
    flow[size] = flowPu;
    size++;
  }

  void close(
      Instants found, double settled, double sourcePu, double heatPu, double limitShareOfRamp) {
    instants = found;
    settledSpeedPu = settled;
    sourceVoltagePu = sourcePu;
    rotorHeatPu = heatPu;
    limitedShare = limitShareOfRamp;
  }

  /** Number of points. */
  public int size() {
    return size;
  }

  /** Time after inception, s. */
  public double timeS(int index) {
    return timeS[index];
  }

  /** Speed, of synchronous speed. */
  public double speedPu(int index) {
    return speedPu[index];
  }

  /** RMS current over rated current where it is measured, mean of the phases. */
  public double currentRatio(int index) {
    return currentRatio[index];
  }

  /** Line voltage where it is measured, of rated voltage. */
  public double measuredVoltagePu(int index) {
    return measuredVoltagePu[index];
  }

  /** Voltage on the starter's line side, of rated voltage. */
  public double busVoltagePu(int index) {
    return busVoltagePu[index];
  }

  /** Fundamental voltage at the motor terminals, of rated voltage. */
  public double motorVoltagePu(int index) {
    return motorVoltagePu[index];
  }

  /** Motor torque, of rated torque. */
  public double torquePu(int index) {
    return torquePu[index];
  }

  /** Load torque, of rated torque. */
  public double loadTorquePu(int index) {
    return loadTorquePu[index];
  }

  /** Flow of a water column, of its steady flow at synchronous speed; 0 without one. */
  public double flow(int index) {
    return flow[index];
  }

  /** Instants of the run. */
  public Instants instants() {
    return instants;
  }

  /** Whether full speed was reached. */
  public boolean completed() {
    return !Double.isNaN(instants.fullSpeedS());
  }

  /** Speed at which the motor settles at full voltage, of synchronous speed. */
  public double settledSpeedPu() {
    return settledSpeedPu;
  }

  /** Line voltage before the start, of rated voltage. */
  public double sourceVoltagePu() {
    return sourceVoltagePu;
  }

  /**
   * Heat made in the rotor circuit from inception to full speed (or the end of a failed start), in
   * seconds of rated torque times synchronous speed: integral of slip times air-gap torque.
   */
  public double rotorHeatPu() {
    return rotorHeatPu;
  }

  /** Share of the time to full speed in which the current limit ruled. */
  public double limitedShare() {
    return limitedShare;
  }

  /** Index of the last point at or before a time; 0 before the first. */
  public int indexAt(double time) {
    int low = 0;
    int high = size - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (timeS[middle] <= time) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low;
  }
}
