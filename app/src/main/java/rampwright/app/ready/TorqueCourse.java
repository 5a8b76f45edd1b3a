package rampwright.app.ready;

import java.util.Arrays;
import java.util.List;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.Trajectory;

/**
 * Torque of motor and load against speed, % of rated torque; as many values as speeds, NaN where
 * fewer than a quarter of the draws come that far.
 *
 * @param speedPct of synchronous speed
 * @param motorPct motor torque along the run-up, median of the draws
 * @param motorLowPct its 5 % point
 * @param limitPct the most the current limit allows at that speed, 5 % point
 * @param loadPct load torque, median
 * @param loadHighPct its 95 % point
 * @param marginPct motor less load along the run-up, 5 % point
 * @param limitMarginPct the most the limit allows less load, 5 % point
 */
public record TorqueCourse(
    double[] speedPct,
    double[] motorPct,
    double[] motorLowPct,
    double[] limitPct,
    double[] loadPct,
    double[] loadHighPct,
    double[] marginPct,
    double[] limitMarginPct) {
  private static final int POINTS = 49;
  private static final double STEP_PCT = 2;
  private static final int PASSES = 3;

  static TorqueCourse of(List<RunUp.Draw> draws, double currentLimitRatio) {
    double[][] out = new double[8][POINTS];
    for (int p = 0; p < POINTS; p++) {
      double speed = STEP_PCT * p / 100;
      double[] motor = new double[draws.size()];
      double[] margin = new double[draws.size()];
      double[] load = new double[draws.size()];
      double[] most = new double[draws.size()];
      double[] most2 = new double[draws.size()];
      int m = 0;
      for (int d = 0; d < draws.size(); d++) {
        RunUp.Draw draw = draws.get(d);
        load[d] = load(draw.model(), speed);
        most[d] = mostAtLimit(draw.model(), speed, currentLimitRatio);
        most2[d] = most[d] - load[d];
        int k = speed <= 0 ? breakaway(draw.run()) : leastAt(draw.run(), speed);
        if (k >= 0) {
          motor[m] = draw.run().torquePu(k);
          margin[m] = motor[m] - (p == 0 ? load[d] : draw.run().loadTorquePu(k));
          m++;
        }
      }
      boolean few = m == 0 || m < draws.size() / 4;
      int all = draws.size();
      out[0][p] = 100 * speed;
      out[1][p] = few ? Double.NaN : 100 * at(motor, m, 0.5);
      out[2][p] = few ? Double.NaN : 100 * at(motor, m, 0.05);
      out[3][p] = 100 * at(most, all, 0.05);
      out[4][p] = 100 * at(load, all, 0.5);
      out[5][p] = 100 * at(load, all, 0.95);
      out[6][p] = few ? Double.NaN : 100 * at(margin, m, 0.05);
      out[7][p] = 100 * at(most2, all, 0.05);
    }
    return new TorqueCourse(out[0], out[1], out[2], out[3], out[4], out[5], out[6], out[7]);
  }

  private static double at(double[] values, int n, double share) {
    Arrays.sort(values, 0, n);
    return values[Math.min(n - 1, (int) (share * n))];
  }

  private static double load(MachineModel model, double speed) {
    if (speed <= 0) {
      return model.load().holding();
    }
    var water = model.water();
    return model.loadTorque(speed, water == null ? 0 : water.steadyFlow(speed));
  }

  /** Torque at the current limit and no more than rated voltage; the supply's dip is left out. */
  private static double mostAtLimit(MachineModel model, double speed, double limitRatio) {
    double slip = 1 - speed;
    double admittance = model.motor().admittance(slip);
    double amps = limitRatio * model.starter().limitGain();
    double voltage = Math.min(1, amps / admittance);
    for (int pass = 0; pass < PASSES; pass++) {
      voltage = Math.min(1, amps / (admittance * model.starter().poleFactor(voltage)));
    }
    return model.motor().torque(slip) * voltage * voltage;
  }

  /** The last point before a run turns. */
  private static int breakaway(Trajectory run) {
    double turnsS = run.instants().breakawayS();
    return Double.isNaN(turnsS) ? run.size() - 1 : run.indexAt(turnsS);
  }

  /**
   * The point around a speed, up to full speed, where a run has the least to spare; below 0 where
   * it does not come that far. A run that slows on the way, as after a breakaway pulse, is at a
   * speed more than once, and what tells is where it slows.
   */
  private static int leastAt(Trajectory run, double speed) {
    double untilS = run.completed() ? run.instants().fullSpeedS() : run.instants().endS();
    int least = -1;
    int passes = -1;
    double spare = Double.POSITIVE_INFINITY;
    for (int k = 0; k < run.size() && run.timeS(k) <= untilS; k++) {
      if (passes < 0 && run.speedPu(k) >= speed) {
        passes = k;
      }
      double here = run.torquePu(k) - run.loadTorquePu(k);
      if (Math.abs(run.speedPu(k) - speed) <= STEP_PCT / 200 && here < spare) {
        spare = here;
        least = k;
      }
    }
    return passes < 0 ? -1 : least < 0 ? passes : least;
  }
}
