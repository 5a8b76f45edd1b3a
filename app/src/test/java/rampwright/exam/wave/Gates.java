package rampwright.exam.wave;

/** Says which thyristors get a gate signal, and when all are bridged by the by-pass contactor. */
public interface Gates {
  /**
   * @param angleRad of the phase's voltage, in [0, 2 pi)
   * @param forward true: the thyristor that carries current into the motor
   */
  boolean fires(int phase, boolean forward, double angleRad, double t);

  /** True: the contactor is closed, current is never interrupted. */
  boolean bypassed(double t);

  /** Told once a step what flows: for starters that regulate. */
  default void observe(double t, Bridge bridge) {}

  /** A contactor: closed from the beginning. */
  Gates CONTACTOR =
      new Gates() {
        @Override
        public boolean fires(int phase, boolean forward, double angleRad, double t) {
          return true;
        }

        @Override
        public boolean bypassed(double t) {
          return true;
        }
      };

  /** Firing at a fixed angle after the zero of the phase voltage, held to 210 degrees. */
  static Gates fixed(double alphaRad) {
    return new Gates() {
      @Override
      public boolean fires(int phase, boolean forward, double angleRad, double t) {
        return inWindow(angleRad, alphaRad, forward);
      }

      @Override
      public boolean bypassed(double t) {
        return false;
      }
    };
  }

  /**
   * True between alpha and 210 degrees of the phase's half cycle. It must last past 180 degrees:
   * without a neutral, current between two phases can begin up to 150 degrees of the one, which is
   * 210 degrees for its partner.
   */
  static boolean inWindow(double angleRad, double alphaRad, boolean forward) {
    double angle = forward ? angleRad : angleRad + Math.PI;
    double turn = 2 * Math.PI;
    angle -= turn * Math.floor(angle / turn);
    return angle >= alphaRad && angle < Math.PI * 7 / 6;
  }
}
