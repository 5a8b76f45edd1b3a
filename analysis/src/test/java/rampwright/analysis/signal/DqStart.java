package rampwright.analysis.signal;

import java.util.EnumMap;
import java.util.Map;
import org.hipparchus.ode.ODEState;
import org.hipparchus.ode.OrdinaryDifferentialEquation;
import org.hipparchus.ode.nonstiff.DormandPrince853Integrator;
import org.hipparchus.ode.sampling.StepNormalizer;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;

/**
 * A direct start of an unloaded induction motor, sampled: the oracle for the torque estimate.
 *
 * <p>Two-axis model in the stationary frame, states flux linkages (stator q and d, rotor q and d, V
 * s) and electrical rotor speed (rad/s). Balanced sine supply, switched on at the peak of phase a
 * at t = 0; before that the motor rests.
 *
 * <p>Source: Krause, Wasynczuk, Sudhoff, Analysis of Electric Machinery, stationary frame equations
 * and the machine table (parameters of the 3 hp machine second-hand).
 */
record DqStart(
    double lineVoltageV,
    double frequencyHz,
    int poles,
    double statorOhm,
    double statorLeakageOhm,
    double magnetizingOhm,
    double rotorLeakageOhm,
    double rotorOhm,
    double inertiaKgM2) {

  static final DqStart KRAUSE_3_HP =
      new DqStart(220, 60, 4, 0.435, 0.754, 26.13, 0.754, 0.816, 0.089);

  /** What was simulated: three-wire channels and the model's own torque and speed. */
  record Run(double stepS, Map<ChannelName, Samples> channels, double[] torqueNm, double[] speed) {
    ThreeWire circuit() {
      return ThreeWire.of(channels).orElseThrow();
    }
  }

  /** The start, sampled at a rate: rest without voltage, then the supply for a time. */
  Run run(double rateHz, double restS, double lengthS, double voltageShare) {
    int rest = (int) Math.round(restS * rateHz);
    int size = rest + (int) Math.round(lengthS * rateHz) + 1;
    double[][] v = new double[3][size];
    double[][] i = new double[3][size];
    double[] torque = new double[size];
    double[] speed = new double[size];
    DormandPrince853Integrator integrator =
        new DormandPrince853Integrator(1e-9, 1e-3, 1e-12, 1e-10);
    StepNormalizer sampler =
        new StepNormalizer(
            1 / rateHz,
            (state, isLast) -> {
              int k = rest + (int) Math.round(state.getTime() * rateHz);
              if (k < size) {
                record(state.getTime(), state.getPrimaryState(), voltageShare, k, v, i, torque);
                speed[k] = state.getPrimaryState()[4];
              }
            });
    integrator.addStepHandler(sampler);
    integrator.integrate(
        equations(voltageShare), new ODEState(0, new double[5]), lengthS + 0.5 / rateHz);
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    for (int p = 0; p < 3; p++) {
      double[] line = new double[size];
      for (int k = 0; k < size; k++) {
        line[k] = v[p][k] - v[(p + 1) % 3][k];
      }
      channels.put(ChannelName.LINE_VOLTAGES.get(p), Samples.owning(line));
      channels.put(ChannelName.CURRENTS.get(p), Samples.owning(i[p]));
    }
    return new Run(1 / rateHz, channels, torque, speed);
  }

  double radPerS() {
    return 2 * Math.PI * frequencyHz;
  }

  private double phaseVoltage(double timeS, int phase, double share) {
    double peak = share * lineVoltageV * Math.sqrt(2.0 / 3);
    return peak * Math.cos(radPerS() * timeS - phase * 2 * Math.PI / 3);
  }

  /** Currents from flux linkages of one axis: stator, rotor. */
  private double[] axis(double stator, double rotor) {
    double ls = (statorLeakageOhm + magnetizingOhm) / radPerS();
    double lr = (rotorLeakageOhm + magnetizingOhm) / radPerS();
    double lm = magnetizingOhm / radPerS();
    double det = ls * lr - lm * lm;
    return new double[] {(lr * stator - lm * rotor) / det, (ls * rotor - lm * stator) / det};
  }

  private double torqueNm(double[] y, double[] q, double[] d) {
    return 1.5 * poles / 2 * (y[1] * q[0] - y[0] * d[0]);
  }

  private OrdinaryDifferentialEquation equations(double share) {
    return new OrdinaryDifferentialEquation() {
      @Override
      public int getDimension() {
        return 5;
      }

      @Override
      public double[] computeDerivatives(double t, double[] y) {
        double[] q = axis(y[0], y[2]);
        double[] d = axis(y[1], y[3]);
        double vq = phaseVoltage(t, 0, share);
        double vd = (phaseVoltage(t, 2, share) - phaseVoltage(t, 1, share)) / Math.sqrt(3);
        return new double[] {
          vq - statorOhm * q[0],
          vd - statorOhm * d[0],
          -rotorOhm * q[1] + y[4] * y[3],
          -rotorOhm * d[1] - y[4] * y[2],
          poles / 2.0 / inertiaKgM2 * torqueNm(y, q, d)
        };
      }
    };
  }

  private void record(
      double t, double[] y, double share, int k, double[][] v, double[][] i, double[] torque) {
    double[] q = axis(y[0], y[2]);
    double[] d = axis(y[1], y[3]);
    i[0][k] = q[0];
    i[1][k] = -q[0] / 2 - Math.sqrt(0.75) * d[0];
    i[2][k] = -q[0] / 2 + Math.sqrt(0.75) * d[0];
    for (int p = 0; p < 3; p++) {
      v[p][k] = phaseVoltage(t, p, share);
    }
    torque[k] = torqueNm(y, q, d);
  }
}
