package rampwright.analysis.signal;

import rampwright.analysis.trace.Samples;

/**
 * Waveforms of ideal phase control with resistive load, by switching: unit phase-voltage RMS, unit
 * resistance. Samples lie midway between multiples of the step, so that no switching instant at a
 * multiple of it falls on one.
 */
final class PhaseControl {
  private static final int CYCLES = 4;

  private PhaseControl() {}

  /**
   * Voltages across a star with open neutral behind three pairs of thyristors, [phase]. The pulse
   * of each thyristor lasts 120 degrees from its firing angle, which is counted from the zero
   * crossing of its phase voltage.
   *
   * @param deadPhase phase whose backward thyristor does not fire; -1 for none
   */
  static Samples[] star(double firingDeg, int perCycle, int deadPhase) {
    double[][] load = new double[3][perCycle * CYCLES];
    int[] conducting = new int[3];
    for (int k = 0; k < perCycle * CYCLES; k++) {
      double deg = 360 * (k + 0.5) / perCycle;
      double[] v = new double[3];
      int[] may = new int[3];
      for (int p = 0; p < 3; p++) {
        v[p] = Math.sqrt(2) * Math.sin(Math.toRadians(deg - 120 * p));
        may[p] = conducting[p];
        if (pulse(deg - 120 * p - firingDeg)) {
          may[p] = 1;
        } else if (pulse(deg - 120 * p - 180 - firingDeg) && p != deadPhase) {
          may[p] = -1;
        }
      }
      double[] i = currents(v, may);
      for (int p = 0; p < 3; p++) {
        conducting[p] = (int) Math.signum(i[p]);
        load[p][k] = i[p];
      }
    }
    return new Samples[] {
      Samples.owning(load[0]), Samples.owning(load[1]), Samples.owning(load[2])
    };
  }

  /** Voltage across a resistor behind one pair; {@code backward} false: only one fires. */
  static Samples single(double firingDeg, int perCycle, boolean backward) {
    double[] load = new double[perCycle * CYCLES];
    for (int k = 0; k < load.length; k++) {
      double deg = 360 * ((k + 0.5) / perCycle % 1);
      boolean on = deg < 180 ? deg > firingDeg : backward && deg - 180 > firingDeg;
      load[k] = on ? Math.sqrt(2) * Math.sin(Math.toRadians(deg)) : 0;
    }
    return Samples.owning(load);
  }

  private static boolean pulse(double deg) {
    double within = ((deg % 360) + 360) % 360;
    return within < 120;
  }

  /** Currents of the phases that may conduct, each in its direction; others are dropped. */
  private static double[] currents(double[] v, int[] may) {
    int[] allowed = may.clone();
    while (true) {
      int count = 0;
      double sum = 0;
      for (int p = 0; p < 3; p++) {
        if (allowed[p] != 0) {
          count++;
          sum += v[p];
        }
      }
      double[] i = new double[3];
      if (count < 2) {
        return i;
      }
      int wrong = -1;
      for (int p = 0; p < 3; p++) {
        if (allowed[p] != 0) {
          i[p] = v[p] - sum / count;
          if (i[p] * allowed[p] < 0 && (wrong < 0 || Math.abs(i[p]) > Math.abs(i[wrong]))) {
            wrong = p;
          }
        }
      }
      if (wrong < 0) {
        return i;
      }
      allowed[wrong] = 0;
    }
  }
}
