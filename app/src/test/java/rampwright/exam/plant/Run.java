package rampwright.exam.plant;

import java.util.Arrays;

/**
 * What happened in one trial, without a meter: values every {@link #STEP_S} and the instants.
 *
 * <p>Times are from the beginning of the record. NaN: it did not happen.
 */
public final class Run {
  /** Spacing of the kept values, s. */
  public static final double STEP_S = 0.01;

  private float[] currentA = new float[4096];
  private float[] lineV = new float[4096];
  private float[] speedRadPerS = new float[4096];
  private int size;

  double inceptionS = Double.NaN;
  double breakawayS = Double.NaN;
  double bypassS = Double.NaN;
  double stopBeginS = Double.NaN;
  double releaseS = Double.NaN;
  double rotorLossJ;
  boolean completed;
  boolean tripped;
  boolean aborted;
  double voltageBeforeV;
  double distortionSquare;

  void keep(double current, double line, double speed) {
    if (size == currentA.length) {
      currentA = Arrays.copyOf(currentA, 2 * size);
      lineV = Arrays.copyOf(lineV, 2 * size);
      speedRadPerS = Arrays.copyOf(speedRadPerS, 2 * size);
    }
    currentA[size] = (float) current;
    lineV[size] = (float) line;
    speedRadPerS[size] = (float) speed;
    size++;
  }

  public int size() {
    return size;
  }

  public double timeS(int index) {
    return index * STEP_S;
  }

  /** Mean of the three phase currents (RMS), A. */
  public double currentA(int index) {
    return currentA[index];
  }

  /** Mean of the three line-to-line voltages on the supply side, V. */
  public double lineV(int index) {
    return lineV[index];
  }

  public double speedRadPerS(int index) {
    return speedRadPerS[index];
  }

  public boolean completed() {
    return completed;
  }

  public boolean tripped() {
    return tripped;
  }

  /** When full voltage was there for good. */
  public double bypassS() {
    return bypassS;
  }

  public double stopBeginS() {
    return stopBeginS;
  }
}
