package rampwright.analysis.machine;

/**
 * What IEC 60034-12 asks of a cage motor of design N: least torques, largest apparent power at
 * locked rotor.
 *
 * <p>Valid: 0.16 to 630 kW, two to eight poles; outside the nearest entry counts. Tolerances are
 * those of IEC 60034-1: locked-rotor torque -15 %, breakdown torque -10 %, locked-rotor current +20
 * %. High-efficiency designs (NE) may take more current.
 *
 * <p>Source: IEC 60034-12:2002 tables and IEC 60034-1 tolerances, all from memory. Checked by:
 * PlateRulesReferenceTest.
 */
public final class DesignN {
  /** Share a locked-rotor torque may be under its stated value. */
  public static final double TORQUE_TOLERANCE = 0.15;

  /** Share a breakdown torque may be under its stated value. */
  public static final double BREAKDOWN_TOLERANCE = 0.10;

  /** Share a locked-rotor current may be over its stated value. */
  public static final double CURRENT_TOLERANCE = 0.20;

  private static final double[] UP_TO_KW = {
    0.63, 1.0, 1.6, 2.5, 4.0, 6.3, 10, 16, 25, 40, 63, 100, 160, 250, 400, 630
  };

  /** Locked-rotor and breakdown torque over rated, for 2, 4, 6 and 8 poles. */
  private static final double[][] TORQUES = {
    {1.9, 2.0, 2.0, 2.0, 1.7, 1.7, 1.5, 1.6},
    {1.8, 2.0, 1.9, 2.0, 1.7, 1.8, 1.5, 1.7},
    {1.8, 2.0, 1.9, 2.0, 1.6, 1.9, 1.4, 1.8},
    {1.7, 2.0, 1.8, 2.0, 1.6, 1.9, 1.4, 1.8},
    {1.6, 2.0, 1.7, 2.0, 1.5, 1.9, 1.3, 1.8},
    {1.5, 2.0, 1.6, 2.0, 1.5, 1.9, 1.3, 1.8},
    {1.5, 2.0, 1.6, 2.0, 1.5, 1.8, 1.3, 1.7},
    {1.4, 2.0, 1.5, 2.0, 1.4, 1.8, 1.2, 1.7},
    {1.3, 1.9, 1.4, 1.9, 1.4, 1.8, 1.2, 1.7},
    {1.2, 1.9, 1.3, 1.9, 1.3, 1.8, 1.2, 1.7},
    {1.1, 1.8, 1.2, 1.8, 1.2, 1.7, 1.1, 1.7},
    {1.0, 1.8, 1.1, 1.8, 1.1, 1.7, 1.0, 1.6},
    {0.9, 1.7, 1.0, 1.7, 1.0, 1.7, 0.9, 1.6},
    {0.8, 1.7, 0.9, 1.7, 0.9, 1.6, 0.9, 1.6},
    {0.75, 1.6, 0.75, 1.6, 0.75, 1.6, 0.75, 1.6},
    {0.65, 1.6, 0.65, 1.6, 0.65, 1.6, 0.65, 1.6}
  };

  private static final double[] POWER_UP_TO_KW = {0.4, 0.63, 1.0, 1.8, 4.0, 6.3, 25, 63, 630};
  private static final double[] KVA_PER_KW = {22, 19, 17, 15, 14, 13, 12, 11, 10};

  private DesignN() {}

  private static double[] row(double ratedKw) {
    for (int k = 0; k < UP_TO_KW.length; k++) {
      if (ratedKw <= UP_TO_KW[k]) {
        return TORQUES[k];
      }
    }
    return TORQUES[TORQUES.length - 1];
  }

  private static int column(int polePairs) {
    return 2 * (Math.min(4, Math.max(1, polePairs)) - 1);
  }

  /** Least locked-rotor torque over rated torque. */
  public static double lockedTorque(double ratedKw, int polePairs) {
    return row(ratedKw)[column(polePairs)];
  }

  /** Least breakdown torque over rated torque. */
  public static double breakdownTorque(double ratedKw, int polePairs) {
    return row(ratedKw)[column(polePairs) + 1];
  }

  /** Largest apparent power at locked rotor over rated power, kVA per kW. */
  public static double lockedKvaPerKw(double ratedKw) {
    for (int k = 0; k < POWER_UP_TO_KW.length; k++) {
      if (ratedKw <= POWER_UP_TO_KW[k]) {
        return KVA_PER_KW[k];
      }
    }
    return KVA_PER_KW[KVA_PER_KW.length - 1];
  }
}
