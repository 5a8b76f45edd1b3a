package rampwright.analysis.figure;

/**
 * Whether a start lost a phase on its way: a motor on two of three phases makes no torque at rest
 * and seldom enough below full speed, so that a current that falls to a run's is none.
 *
 * <p>A meter's lead that comes off leaves the other phases as they were; a lost phase does not: the
 * others jump at the same instant.
 */
final class PhaseLoss {
  private static final double MISSING_SHARE = 0.05;
  private static final double JUMP = 1.25;
  private static final int BESIDE_WAVEFORM = 6;
  private static final int BESIDE_READINGS = 2;

  private PhaseLoss() {}

  /** Whether a phase went, and the others jumped, between the flow's beginning and an index. */
  static boolean before(Readings r, Flow flow, int index) {
    if (index <= flow.first() || index > flow.last()) {
      return false;
    }
    for (int p = 0; p < r.current.length; p++) {
      if (r.current.length > 1 && isMissing(r, p, index) && wentWithAJump(r, flow, p, index)) {
        return true;
      }
    }
    return false;
  }

  private static boolean wentWithAJump(Readings r, Flow flow, int phase, int index) {
    int gone = index;
    while (gone > flow.first() && isMissing(r, phase, gone - 1)) {
      gone--;
    }
    int beside = r.isWaveform() ? BESIDE_WAVEFORM : BESIDE_READINGS;
    if (gone - beside <= flow.first() || gone + beside > flow.last()) {
      return false;
    }
    double was = others(r, phase, gone - beside);
    double is = others(r, phase, gone + beside);
    return is > JUMP * was || was > JUMP * is;
  }

  private static boolean isMissing(Readings r, int phase, int k) {
    return r.current[phase][k] < MISSING_SHARE * others(r, phase, k);
  }

  private static double others(Readings r, int phase, int k) {
    double largest = 0;
    for (int q = 0; q < r.current.length; q++) {
      if (q != phase && r.current[q][k] > largest) {
        largest = r.current[q][k];
      }
    }
    return largest;
  }
}
