package rampwright.analysis.signal;

import java.util.EnumMap;
import java.util.Map;
import org.hipparchus.complex.Complex;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;

/**
 * A motor behind three ideal pairs of thyristors, turning at a fixed speed: waveforms on both sides
 * of the thyristors and the torque, for checks of the torque estimates.
 *
 * <p>Vector form of the two-axis model with stator current and rotor flux as states (L' the
 * transient inductance, k = Lm/Lr): L' di/dt = v - R i - k dF/dt; dF/dt = -(Rr/Lr)(F - Lm i) + j w
 * F; torque 1.5 poles/2 Im(conj(L' i + k F) i). A blocked phase carries no current and shows k
 * dF/dt. Midpoint steps of 5 us; the motor is settled for 0.2 s before recording.
 *
 * <p>Source: as {@link DqStart}; thyristor logic own.
 */
final class DqPhaseControl {
  private static final double STEP_S = 5e-6;
  private static final double SETTLE_S = 0.2;
  private static final double RECORD_S = 0.4;

  private final DqStart machine;
  private final double firingDeg;
  private final double speed;
  private final double transient0;
  private final double k;
  private final double rotorRate;
  private final double lm;

  private Complex current = Complex.ZERO;
  private Complex flux = Complex.ZERO;
  private final int[] direction = new int[3];

  /**
   * A motor at a fixed slip.
   *
   * @param firingDeg firing angle from the zero crossing of the phase voltage
   */
  DqPhaseControl(DqStart machine, double firingDeg, double slip) {
    this.machine = machine;
    this.firingDeg = firingDeg;
    this.speed = (1 - slip) * machine.radPerS();
    double lr = (machine.rotorLeakageOhm() + machine.magnetizingOhm()) / machine.radPerS();
    double ls = (machine.statorLeakageOhm() + machine.magnetizingOhm()) / machine.radPerS();
    this.lm = machine.magnetizingOhm() / machine.radPerS();
    this.k = lm / lr;
    this.transient0 = ls - lm * lm / lr;
    this.rotorRate = machine.rotorOhm() / lr;
  }

  /** What was recorded: supply-side and terminal-side channels with the same currents. */
  record Run(
      double rateHz,
      Map<ChannelName, Samples> supply,
      Map<ChannelName, Samples> terminal,
      Samples torqueNm) {}

  Run run(double rateHz) {
    int every = (int) Math.round(1 / rateHz / STEP_S);
    int settle = (int) Math.round(SETTLE_S / STEP_S);
    int size = (int) Math.round(RECORD_S * rateHz);
    double[][] supply = new double[3][size];
    double[][] terminal = new double[3][size];
    double[][] currents = new double[3][size];
    double[] torque = new double[size];
    for (int step = 0; step < settle + size * every; step++) {
      double deg = 360 * machine.frequencyHz() * step * STEP_S;
      double[] v = voltages(deg);
      boolean[] on = conducting(deg, v);
      int at = step < settle || (step - settle) % every != 0 ? -1 : (step - settle) / every;
      if (at >= 0) {
        Complex rise = currentRate(v, on, current, flux);
        Complex back = fluxRate(current, flux).multiply(k);
        Complex atTerminal =
            current.multiply(machine.statorOhm()).add(rise.multiply(transient0)).add(back);
        for (int p = 0; p < 3; p++) {
          supply[p][at] = v[p] - v[(p + 1) % 3];
          terminal[p][at] = phase(atTerminal, p) - phase(atTerminal, (p + 1) % 3);
          currents[p][at] = phase(current, p);
        }
        Complex stator = current.multiply(transient0).add(flux.multiply(k));
        torque[at] =
            1.5 * machine.poles() / 2 * stator.conjugate().multiply(current).getImaginaryPart();
      }
      advance(deg, v, on);
    }
    return new Run(
        rateHz, channels(supply, currents), channels(terminal, currents), Samples.owning(torque));
  }

  private void advance(double deg, double[] v, boolean[] on) {
    Complex midCurrent = current.add(currentRate(v, on, current, flux).multiply(STEP_S / 2));
    Complex midFlux = flux.add(fluxRate(current, flux).multiply(STEP_S / 2));
    double[] midV = voltages(deg + 180 * machine.frequencyHz() * STEP_S);
    current = current.add(currentRate(midV, on, midCurrent, midFlux).multiply(STEP_S));
    flux = flux.add(fluxRate(midCurrent, midFlux).multiply(STEP_S));
    for (int p = 0; p < 3; p++) {
      if (on[p] && phase(current, p) * direction[p] <= 0) {
        on[p] = false;
      }
      direction[p] = on[p] ? direction[p] : 0;
    }
    // What little current a phase had left goes to the two that go on, or the last two stop too.
    current = confined(current, on);
  }

  private boolean[] conducting(double deg, double[] v) {
    boolean[] on = new boolean[3];
    boolean[] fresh = new boolean[3];
    for (int p = 0; p < 3; p++) {
      if (direction[p] == 0) {
        int fired = fired(deg - 120 * p);
        fresh[p] = fired != 0;
        direction[p] = fired;
      }
      on[p] = direction[p] != 0;
    }
    for (int round = 0; round < 3; round++) {
      Complex rise = currentRate(v, on, current, flux);
      for (int p = 0; p < 3; p++) {
        if (on[p] && fresh[p] && phase(rise, p) * direction[p] <= 0) {
          on[p] = false;
          direction[p] = 0;
          break;
        }
      }
    }
    return on;
  }

  private int fired(double deg) {
    double within = (((deg - firingDeg) % 360) + 360) % 360;
    return within < 120 ? 1 : within >= 180 && within < 300 ? -1 : 0;
  }

  private Complex fluxRate(Complex i, Complex f) {
    return f.subtract(i.multiply(lm)).multiply(-rotorRate).add(f.multiply(new Complex(0, speed)));
  }

  private Complex currentRate(double[] v, boolean[] on, Complex i, Complex f) {
    Complex drop = i.multiply(machine.statorOhm()).add(fluxRate(i, f).multiply(k));
    Complex supply = axis(0).multiply(v[0]).add(axis(1).multiply(v[1])).add(axis(2).multiply(v[2]));
    Complex free = supply.multiply(2.0 / 3).subtract(drop).divide(transient0);
    return confined(free, on);
  }

  /** The part of a vector that the phases that are on can carry. */
  private static Complex confined(Complex x, boolean[] on) {
    int count = (on[0] ? 1 : 0) + (on[1] ? 1 : 0) + (on[2] ? 1 : 0);
    if (count == 3) {
      return x;
    }
    if (count < 2) {
      return Complex.ZERO;
    }
    int off = on[0] ? on[1] ? 2 : 1 : 0;
    return x.subtract(axis(off).multiply(phase(x, off)));
  }

  private double[] voltages(double deg) {
    double[] v = new double[3];
    for (int p = 0; p < 3; p++) {
      double peak = machine.lineVoltageV() * Math.sqrt(2.0 / 3);
      v[p] = peak * Math.sin(Math.toRadians(deg - 120 * p));
    }
    return v;
  }

  private static Complex axis(int p) {
    return new Complex(Math.cos(p * 2 * Math.PI / 3), Math.sin(p * 2 * Math.PI / 3));
  }

  private static double phase(Complex x, int p) {
    Complex a = axis(p);
    return x.getRealPart() * a.getRealPart() + x.getImaginaryPart() * a.getImaginaryPart();
  }

  private static Map<ChannelName, Samples> channels(double[][] lines, double[][] currents) {
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    for (int p = 0; p < 3; p++) {
      channels.put(ChannelName.LINE_VOLTAGES.get(p), Samples.of(lines[p]));
      channels.put(ChannelName.CURRENTS.get(p), Samples.of(currents[p]));
    }
    return channels;
  }
}
