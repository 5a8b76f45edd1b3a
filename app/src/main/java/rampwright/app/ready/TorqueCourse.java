package rampwright.app.ready;

import java.util.Arrays;
import java.util.List;
import rampwright.analysis.machine.Trajectory;

/**
 * Torque of motor and load along the run-up, against speed.
 *
 * @param speedPct of synchronous speed
 * @param motorPct motor torque, % of rated torque, median of the draws
 * @param motorLowPct its 5 % point
 * @param loadPct load torque, % of rated torque, median
 * @param loadHighPct its 95 % point
 * @param marginPct motor less load, the 5 % point
 */
public record TorqueCourse(
    double[] speedPct,
    double[] motorPct,
    double[] motorLowPct,
    double[] loadPct,
    double[] loadHighPct,
    double[] marginPct) {
  private static final int POINTS = 49;
  private static final double STEP_PCT = 2;

  static TorqueCourse of(List<RunUp.Draw> draws) {
    double[][] out = new double[6][POINTS];
    int n = 0;
    for (int p = 0; p < POINTS; p++) {
      double speed = STEP_PCT * p / 100;
      double[] motor = new double[draws.size()];
      double[] load = new double[draws.size()];
      double[] margin = new double[draws.size()];
      int m = 0;
      for (RunUp.Draw draw : draws) {
        int k = firstAt(draw.run(), speed);
        if (k >= 0) {
          motor[m] = draw.run().torquePu(k);
          load[m] = p == 0 ? draw.model().load().holding() : draw.run().loadTorquePu(k);
          margin[m] = motor[m] - load[m];
          m++;
        }
      }
      if (m < draws.size() / 4 || m == 0) {
        // So few draws come this far that their spread means nothing.
        break;
      }
      Arrays.sort(motor, 0, m);
      Arrays.sort(load, 0, m);
      Arrays.sort(margin, 0, m);
      out[0][n] = 100 * speed;
      out[1][n] = 100 * motor[m / 2];
      out[2][n] = 100 * motor[(int) (0.05 * m)];
      out[3][n] = 100 * load[m / 2];
      out[4][n] = 100 * load[Math.min(m - 1, (int) (0.95 * m))];
      out[5][n] = 100 * margin[(int) (0.05 * m)];
      n++;
    }
    for (int i = 0; i < out.length; i++) {
      out[i] = Arrays.copyOf(out[i], n);
    }
    return new TorqueCourse(out[0], out[1], out[2], out[3], out[4], out[5]);
  }

  /** The point where a run passes a speed; at standstill the last one before it turns. */
  private static int firstAt(Trajectory run, double speed) {
    if (speed <= 0) {
      double turnsS = run.instants().breakawayS();
      return Double.isNaN(turnsS) ? run.size() - 1 : run.indexAt(turnsS);
    }
    for (int k = 0; k < run.size(); k++) {
      if (run.speedPu(k) >= speed) {
        return k;
      }
    }
    return -1;
  }
}
