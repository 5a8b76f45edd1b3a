package rampwright.analysis.machine;

import java.util.Locale;

/**
 * The water behind a pump as one rigid column with a check valve.
 *
 * <p>Formula: t dq/dt = c n^2 - (c - 1) q^2 - h - (1 - h) q^2, q not below zero. Symbols: q flow of
 * its steady flow at synchronous speed; n speed of synchronous speed; h static head of total head
 * (staticShare); c shut-off head of rated head, 1.25 (common practice for radial pumps, no source);
 * t = L v / (g H), the column's inertia time, s (inertiaS). Pump torque that grows with speed is
 * split into n^2 (1 - u) + n q u, u = flowTorqueShare.
 *
 * <p>With no static head and no inertia q = n and the torque is the square law.
 *
 * <p>Source: rigid-column momentum, e.g. Chaudhry, Applied Hydraulic Transients, ch. on lumped
 * systems (from memory).
 */
public record WaterColumn(double staticShare, double inertiaS, double flowTorqueShare) {
  /** Shut-off head over rated head. */
  public static final double SHUT_OFF = 1.25;

  public WaterColumn {
    if (!(staticShare >= 0 && staticShare < 1.2)
        || !(inertiaS >= 0)
        || !(flowTorqueShare >= 0 && flowTorqueShare <= 1)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "water column: static share %s must be in [0, 1.2), inertia time %s s not negative,"
                  + " flow share of torque %s in [0, 1]",
              staticShare,
              inertiaS,
              flowTorqueShare));
    }
  }

  /** Steady flow at a speed; zero while the pump cannot lift the check valve. */
  public double steadyFlow(double speedPu) {
    double head = SHUT_OFF * speedPu * speedPu - staticShare;
    return head <= 0 ? 0 : Math.sqrt(head / (SHUT_OFF - staticShare));
  }

  /**
   * Flow after a step, by the implicit Euler rule (stable at any step).
   *
   * @param flow before the step
   * @param speedPu speed at the end of the step
   * @param stepS length of the step, s
   */
  public double flowAfter(double flow, double speedPu, double stepS) {
    double drive = SHUT_OFF * speedPu * speedPu - staticShare;
    double drag = SHUT_OFF - staticShare;
    double pace = inertiaS <= 1e-6 ? 1e9 : stepS / inertiaS;
    double right = flow + pace * drive;
    if (right <= 0) {
      return 0;
    }
    return 2 * right / (1 + Math.sqrt(1 + 4 * pace * drag * right));
  }

  /** Share of the speed-dependent torque at a speed and flow: n^2 (1 - u) + n q u. */
  public double torqueShare(double speedPu, double flow) {
    return speedPu * (speedPu * (1 - flowTorqueShare) + flow * flowTorqueShare);
  }
}
