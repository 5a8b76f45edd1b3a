package rampwright.exam.wave;

import rampwright.exam.plant.TrueLoad;

/**
 * Machine, thyristors, supply and load, stepped through time.
 *
 * <p>Method: fourth-order Runge-Kutta within a conduction state; a thyristor goes out where its
 * current crosses zero (the step is cut there by linear interpolation); one comes in at the first
 * step at which it is gated and its voltage is forward. With two phases conducting the third is
 * held at zero current; with none the rotor flux dies away alone.
 */
public final class Bridge {
  private static final double SQRT3_2 = Math.sqrt(3) / 2;

  private final WaveMachine machine;
  private final WaveSupply supply;
  private final TrueLoad load;
  private final double lp;
  private final double inductance;
  private final double resistance;

  /** i_alpha, i_beta, then psi_alpha, psi_beta of each cage, then speed and angle of the shaft. */
  private final double[] state;

  private final double[] trial;
  private final double[][] slopes = new double[4][];
  private final boolean[] conducts = new boolean[3];
  private final int[] direction = new int[3];
  private final boolean[] lost = new boolean[3];
  private final boolean[] deadForward = new boolean[3];
  private final int speedAt;
  private double time;
  private double torqueNm;
  private double rotorLossJ;
  private boolean closed;

  public Bridge(WaveMachine machine, WaveSupply supply, TrueLoad load) {
    this.machine = machine;
    this.supply = supply;
    this.load = load;
    this.lp = machine.lp();
    this.inductance = machine.lls() + lp + supply.inductanceH();
    this.resistance = machine.rs() + supply.resistanceOhm();
    this.speedAt = 2 + 2 * machine.cages();
    this.state = new double[speedAt + 2];
    this.trial = new double[speedAt + 2];
    for (int n = 0; n < 4; n++) {
      slopes[n] = new double[speedAt + 2];
    }
  }

  public double time() {
    return time;
  }

  public double current(int phase) {
    return phaseOf(state[0], state[1], phase);
  }

  public double speedRadPerS() {
    return state[speedAt];
  }

  public double torqueNm() {
    return torqueNm;
  }

  public double rotorLossJ() {
    return rotorLossJ;
  }

  public WaveMachine machine() {
    return machine;
  }

  public WaveSupply supply() {
    return supply;
  }

  public boolean conducts(int phase) {
    return conducts[phase];
  }

  /** From now on the phase carries no current any more (its fuse, between meter and starter). */
  public void losePhase(int phase) {
    lost[phase] = true;
  }

  /** From now on the thyristor that carries current into the motor does not fire. */
  public void killForward(int phase) {
    deadForward[phase] = true;
  }

  /** Advances by at most {@code h} seconds; less when a thyristor goes out within. */
  public void step(double h, Gates gates) {
    closed = gates.bypassed(time) && !lost[0] && !lost[1] && !lost[2];
    if (closed) {
      conducts[0] = conducts[1] = conducts[2] = true;
    } else {
      fire(gates);
    }
    double[] before = state.clone();
    double lossBefore = rotorPower();
    rungeKutta(h);
    double taken = h;
    if (!closed) {
      taken = extinguish(before, h, gates);
    }
    time += taken;
    rotorLossJ += 0.5 * (lossBefore + rotorPower()) * taken;
    if (state[speedAt] < 0) {
      state[speedAt] = 0;
    }
    torqueNm = torque(state);
    gates.observe(taken, this);
  }

  private double extinguish(double[] before, double h, Gates gates) {
    double cut = 1;
    int out = -1;
    int many = 0;
    for (int p = 0; p < 3; p++) {
      if (!conducts[p]) {
        continue;
      }
      many++;
      double was = phaseOf(before[0], before[1], p) * direction[p];
      double is = phaseOf(state[0], state[1], p) * direction[p];
      if (is < 0) {
        double fraction = was <= 0 ? 0.25 : Math.max(0.05, was / (was - is));
        if (fraction < cut || out < 0) {
          cut = fraction;
          out = p;
        }
      }
    }
    if (out < 0) {
      return h;
    }
    for (int n = 0; n < state.length; n++) {
      state[n] = before[n] + cut * (state[n] - before[n]);
    }
    conducts[out] = false;
    if (many < 3) {
      conducts[0] = conducts[1] = conducts[2] = false;
      state[0] = state[1] = 0;
    } else {
      // the other two carry one current
      int p = (out + 1) % 3;
      int q = (out + 2) % 3;
      double i = 0.5 * (phaseOf(state[0], state[1], p) - phaseOf(state[0], state[1], q));
      setPair(p, q, i);
      if (gates.bypassed(time)) {
        direction[out] = -direction[out];
      }
    }
    return cut * h;
  }

  private void setPair(int p, int q, double i) {
    double[] abc = new double[3];
    abc[p] = i;
    abc[q] = -i;
    state[0] = abc[0];
    state[1] = (abc[1] - abc[2]) / (2 * SQRT3_2);
  }

  private void fire(Gates gates) {
    int many = 0;
    for (int p = 0; p < 3; p++) {
      many += conducts[p] ? 1 : 0;
    }
    if (many == 3) {
      for (int p = 0; p < 3; p++) {
        if (direction[p] == 0) {
          direction[p] = current(p) >= 0 ? 1 : -1;
        }
      }
      return;
    }
    double ea = 0;
    double eb = 0;
    derivatives(state, slopes[0], time);
    for (int k = 0; k < machine.cages(); k++) {
      ea += lp * slopes[0][2 + 2 * k] / machine.llr()[k];
      eb += lp * slopes[0][3 + 2 * k] / machine.llr()[k];
    }
    double enough = 1e-3 * supply.lineVoltageV();
    if (many == 2) {
      int x = !conducts[0] ? 0 : !conducts[1] ? 1 : 2;
      int p = (x + 1) % 3;
      int q = (x + 2) % 3;
      double neutral = 0.5 * (source(p) + source(q) + phaseOf(ea, eb, x));
      double u = source(x) - neutral - phaseOf(ea, eb, x);
      if (u > enough && gated(x, true, gates)) {
        begin(x, 1);
      } else if (u < -enough && gated(x, false, gates)) {
        begin(x, -1);
      }
      return;
    }
    double best = enough;
    int from = -1;
    int to = -1;
    for (int p = 0; p < 3; p++) {
      for (int q = 0; q < 3; q++) {
        double u = source(p) - source(q) - phaseOf(ea, eb, p) + phaseOf(ea, eb, q);
        if (p != q && u > best && gated(p, true, gates) && gated(q, false, gates)) {
          best = u;
          from = p;
          to = q;
        }
      }
    }
    if (from >= 0) {
      begin(from, 1);
      begin(to, -1);
    }
  }

  private void begin(int phase, int sign) {
    conducts[phase] = true;
    direction[phase] = sign;
  }

  private boolean gated(int phase, boolean forward, Gates gates) {
    if (lost[phase] || (forward && deadForward[phase])) {
      return false;
    }
    double turn = 2 * Math.PI;
    double angle = supply.angle(phase, time);
    angle -= turn * Math.floor(angle / turn);
    return gates.fires(phase, forward, angle, time);
  }

  private double source(int phase) {
    return source(phase, time);
  }

  private double source(int phase, double t) {
    return supply.amplitude(t) * Math.sin(supply.angle(phase, t));
  }

  private static double phaseOf(double alpha, double beta, int phase) {
    return phase == 0 ? alpha : -0.5 * alpha + (phase == 1 ? SQRT3_2 : -SQRT3_2) * beta;
  }

  private double torque(double[] s) {
    double la = 0;
    double lb = 0;
    for (int k = 0; k < machine.cages(); k++) {
      la += lp * s[2 + 2 * k] / machine.llr()[k];
      lb += lp * s[3 + 2 * k] / machine.llr()[k];
    }
    return 1.5 * machine.polePairs() * (la * s[1] - lb * s[0]);
  }

  private double rotorPower() {
    double power = 0;
    double ma = airgap(state, 0);
    double mb = airgap(state, 1);
    for (int k = 0; k < machine.cages(); k++) {
      double ia = (state[2 + 2 * k] - ma) / machine.llr()[k];
      double ib = (state[3 + 2 * k] - mb) / machine.llr()[k];
      power += 1.5 * machine.rr()[k] * (ia * ia + ib * ib);
    }
    return power;
  }

  private double airgap(double[] s, int axis) {
    double sum = s[axis];
    for (int k = 0; k < machine.cages(); k++) {
      sum += s[2 + 2 * k + axis] / machine.llr()[k];
    }
    return lp * sum;
  }

  private void derivatives(double[] s, double[] d, double t) {
    double ma = airgap(s, 0);
    double mb = airgap(s, 1);
    double w = machine.polePairs() * s[speedAt];
    double ea = 0;
    double eb = 0;
    for (int k = 0; k < machine.cages(); k++) {
      double leak = machine.llr()[k];
      double pa = s[2 + 2 * k];
      double pb = s[3 + 2 * k];
      d[2 + 2 * k] = -machine.rr()[k] * (pa - ma) / leak - w * pb;
      d[3 + 2 * k] = -machine.rr()[k] * (pb - mb) / leak + w * pa;
      ea += lp * d[2 + 2 * k] / leak;
      eb += lp * d[3 + 2 * k] / leak;
    }
    stator(s, d, t, ea, eb);
    double torque = torque(s);
    double speed = s[speedAt];
    if (speed <= 0 && torque <= load.stickNm()) {
      d[speedAt] = 0;
    } else {
      d[speedAt] = (torque - load.torqueNm(speed, s[speedAt + 1])) / machine.inertia();
    }
    d[speedAt + 1] = speed;
  }

  private void stator(double[] s, double[] d, double t, double ea, double eb) {
    int many = (conducts[0] ? 1 : 0) + (conducts[1] ? 1 : 0) + (conducts[2] ? 1 : 0);
    if (many == 3) {
      double va = source(0, t);
      double vb = (source(1, t) - source(2, t)) / (2 * SQRT3_2);
      d[0] = (va - ea - resistance * s[0]) / inductance;
      d[1] = (vb - eb - resistance * s[1]) / inductance;
    } else if (many == 2) {
      int x = !conducts[0] ? 0 : !conducts[1] ? 1 : 2;
      int p = (x + 1) % 3;
      int q = (x + 2) % 3;
      double e = phaseOf(ea, eb, p) - phaseOf(ea, eb, q);
      double i = phaseOf(s[0], s[1], p);
      double slope = (source(p, t) - source(q, t) - e - 2 * resistance * i) / (2 * inductance);
      double[] abc = new double[3];
      abc[p] = slope;
      abc[q] = -slope;
      d[0] = abc[0];
      d[1] = (abc[1] - abc[2]) / (2 * SQRT3_2);
    } else {
      d[0] = 0;
      d[1] = 0;
    }
  }

  private void rungeKutta(double h) {
    derivatives(state, slopes[0], time);
    for (int stage = 1; stage < 4; stage++) {
      double part = stage == 3 ? h : 0.5 * h;
      for (int n = 0; n < state.length; n++) {
        trial[n] = state[n] + part * slopes[stage - 1][n];
      }
      derivatives(trial, slopes[stage], time + part);
    }
    for (int n = 0; n < state.length; n++) {
      state[n] += h / 6 * (slopes[0][n] + 2 * slopes[1][n] + 2 * slopes[2][n] + slopes[3][n]);
    }
  }

  /** Line-to-neutral voltages at the busbar (supply side of the starter), V. */
  public void busbar(double[] into) {
    derivatives(state, slopes[0], time);
    for (int p = 0; p < 3; p++) {
      into[p] =
          source(p)
              - supply.resistanceOhm() * current(p)
              - supply.inductanceH() * phaseOf(slopes[0][0], slopes[0][1], p);
    }
  }

  /** Voltages at the motor, phase to its star point, V. */
  public void motorVoltage(double[] into) {
    derivatives(state, slopes[0], time);
    double ea = 0;
    double eb = 0;
    for (int k = 0; k < machine.cages(); k++) {
      ea += lp * slopes[0][2 + 2 * k] / machine.llr()[k];
      eb += lp * slopes[0][3 + 2 * k] / machine.llr()[k];
    }
    for (int p = 0; p < 3; p++) {
      into[p] =
          machine.rs() * current(p)
              + (machine.lls() + lp) * phaseOf(slopes[0][0], slopes[0][1], p)
              + phaseOf(ea, eb, p);
    }
  }
}
