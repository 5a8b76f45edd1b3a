package rampwright.exam.plant;

import rampwright.exam.plant.QuasiSteadyPlant.Conduct;

/** One trial on its way: what the starter does, what flows, how the shaft turns. */
final class SteadyTrial {
  private static final double REST_BEFORE_S = 2.0;
  private static final double REST_AFTER_S = 2.0;
  private static final double LONGEST_S = 260;

  /** The starter closes its by-pass when this share of the supply voltage is let through. */
  private static final double FULL_SHARE = 0.985;

  private enum Phase {
    BEFORE,
    START,
    RUN,
    SOFT_STOP,
    DEAD
  }

  private final TrueMachine machine;
  private final TrueStarter starter;
  private final TrueSupply supply;
  private final TrueLoad load;
  private final PlantSettings settings;
  private final Conduct conduct;
  private final TrueMachine.Point point = new TrueMachine.Point();
  private final Run run = new Run();
  private final double sync;
  private final double inertia;
  private final double sourceV;
  private final double step;

  private Phase phase = Phase.BEFORE;
  private double speed;
  private double angle;
  private double share;
  private double estimate;
  private double stopTorque;
  private double current;
  private double busV;
  private double torque;
  private double gapPower;
  private double restSince = Double.NaN;
  private boolean full;

  SteadyTrial(TruePlant plant, PlantSettings settings, TruePlant.Day day, Conduct conduct) {
    this.machine = plant.machine();
    this.starter = plant.starter();
    this.supply = plant.supply();
    this.load = plant.load().scattered(day.loadFactor(), day.stickFactor());
    this.settings = settings;
    this.conduct = conduct;
    this.sync = machine.syncRadPerS();
    this.inertia = plant.inertiaKgM2();
    this.sourceV = supply.lineVoltageV() * day.supplyFactor() / Math.sqrt(3);
    this.step = step();
    this.busV = sourceV;
    this.speed = conduct.spinning() * sync;
    run.voltageBeforeV = sourceV * Math.sqrt(3);
  }

  Run run() {
    int every = (int) Math.rint(Run.STEP_S / step);
    for (long n = 0; n * step < LONGEST_S && !(n * step - restSince >= REST_AFTER_S); n++) {
      double t = n * step;
      if (n % every == 0) {
        run.keep(current, dead() ? run.voltageBeforeV : busV * Math.sqrt(3), speed);
      }
      order(t);
      if (phase == Phase.RUN && !conduct.toRest() && t - run.bypassS >= conduct.runS()) {
        return run;
      }
      drive(t);
      move(t);
    }
    return run;
  }

  private boolean dead() {
    return phase == Phase.DEAD || phase == Phase.BEFORE;
  }

  /** What the person and the starter's supervision decide. */
  private void order(double t) {
    double since = t - REST_BEFORE_S;
    if (phase == Phase.BEFORE && since >= 0) {
      phase = Phase.START;
      run.inceptionS = t;
      share = 0.05;
      point.currentA = 0.5 * machine.ratedCurrentA();
    } else if (phase == Phase.START && since >= conduct.abortS()) {
      run.aborted = true;
      cut(t);
    } else if (phase == Phase.START && !full && since >= starter.timeLimitS()) {
      run.tripped = true;
      cut(t);
    } else if (phase == Phase.START && full) {
      phase = Phase.RUN;
      run.completed = true;
      run.bypassS = t;
    } else if (phase == Phase.RUN && conduct.toRest() && t - run.bypassS >= conduct.runS()) {
      run.stopBeginS = t;
      stopTorque = Math.max(0, estimate);
      if (settings.softStop()) {
        phase = Phase.SOFT_STOP;
      } else {
        cut(t);
      }
    }
  }

  private void cut(double t) {
    phase = Phase.DEAD;
    run.releaseS = t;
    if (Double.isNaN(run.stopBeginS)) {
      run.stopBeginS = t;
    }
  }

  /** Moves the share of voltage let through, and finds what flows. */
  private void drive(double t) {
    double wanted = dead() ? 0 : phase == Phase.RUN ? 1 : wanted(t);
    if (dead()) {
      current = torque = gapPower = 0;
      return;
    }
    share += (wanted - share) * Math.min(1, step / starter.lagS());
    double x = speed / sync;
    electrical(1 - x);
    current = point.currentA * Math.sqrt(1 + square(starter.distortion() * (1 - share)));
    torque = point.torqueNm;
    gapPower = point.gapPowerW;
    estimate =
        starter.gain() * torque * (1 + starter.slope() * x)
            + starter.offset() * machine.ratedTorqueNm();
    full |= phase == Phase.START && share > FULL_SHARE && speed > 0.9 * machine.ratedSpeedRadPerS();
  }

  /** The share of the supply voltage the starter goes for; it may let go instead. */
  private double wanted(double t) {
    double since = t - REST_BEFORE_S;
    double pulse = settings.get(Setting.PULSE);
    boolean starting = phase == Phase.START;
    if (starting && since < pulse && settings.get(Setting.PULSE_VOLTAGE) > 0) {
      return bent(settings.get(Setting.PULSE_VOLTAGE) / 100);
    }
    double rated = machine.ratedTorqueNm();
    double wanted;
    if (phase == Phase.SOFT_STOP) {
      double left = Math.max(0, 1 - (t - run.stopBeginS) / settings.get(Setting.RAMP_DOWN));
      if (stopTorque * left < rated * settings.get(Setting.RELEASE_TORQUE) / 100) {
        cut(t);
        return 0;
      }
      wanted = forTorque(stopTorque * left);
    } else if (settings.torqueRamp()) {
      wanted = forTorque(rated * ramp(settings.get(Setting.INITIAL_TORQUE), since - pulse));
    } else {
      wanted = bent(ramp(settings.get(Setting.INITIAL_VOLTAGE), since - pulse));
    }
    double limit =
        settings.get(Setting.CURRENT_LIMIT) * starter.enteredCurrentA() / starter.currentGain();
    if (current > 0) {
      wanted = Math.min(wanted, share * Math.min(1.6, limit / current));
    }
    return Math.max(0.03, Math.min(1, wanted));
  }

  private double ramp(double fromPct, double since) {
    double from = fromPct / 100;
    double part = Math.max(0, since) / settings.get(Setting.RAMP_UP);
    return Math.min(1, from + (1 - from) * part);
  }

  /** Torque goes with the square of voltage; the estimate is what the starter has. */
  private double forTorque(double reference) {
    double believed = Math.max(estimate, 0.004 * machine.ratedTorqueNm());
    double factor = Math.sqrt(Math.max(0, reference) / believed);
    return share * Math.min(1.6, Math.max(0.6, factor));
  }

  private double bent(double asked) {
    return asked + starter.bend() * asked * (1 - asked);
  }

  /** Current and bus voltage: fixed point, started from the step before. */
  private void electrical(double slip) {
    double r = supply.resistanceOhm();
    double x = supply.reactanceOhm();
    for (int pass = 0; pass < 6; pass++) {
      machine.solve(share * busV, slip, 2, point);
      double i = point.currentA;
      // the starter takes no power: on its supply side the same power at a higher voltage
      double cos = Math.min(1, share * point.cosPhi);
      double sin = Math.sqrt(1 - cos * cos);
      double across = square(sourceV) - square(x * i * cos - r * i * sin);
      double next = Math.sqrt(Math.max(0, across)) - r * i * cos - x * i * sin;
      next = Math.max(0.2 * sourceV, next);
      boolean done = Math.abs(next - busV) < 2e-5 * sourceV;
      busV = next;
      if (done) {
        break;
      }
    }
  }

  private void move(double t) {
    double before = speed;
    if (speed <= 0 && torque <= load.stickNm()) {
      speed = 0;
    } else {
      double drag = machine.lossTorqueNm() * Math.max(0, speed) / machine.ratedSpeedRadPerS();
      double net = torque - drag - load.torqueNm(speed, angle);
      speed = Math.max(0, speed + step * net / inertia);
      angle += step * 0.5 * (before + speed);
      if (Double.isNaN(run.breakawayS) && speed > 0.002 * machine.ratedSpeedRadPerS()) {
        run.breakawayS = t;
      }
    }
    if (speed == 0 && phase == Phase.DEAD && Double.isNaN(restSince)) {
      restSince = t;
    }
    run.rotorLossJ += (1 - 0.5 * (before + speed) / sync) * gapPower * step;
  }

  /** Short against the machine's own time constant on its steep side. */
  private double step() {
    double slope =
        3 * square(machine.phaseVoltageV()) * (1 / machine.ri() + 1 / machine.ro()) / square(sync);
    double constant = inertia / slope;
    return constant > 0.02 ? 0.005 : constant > 0.008 ? 0.0025 : 0.001;
  }

  private static double square(double x) {
    return x * x;
  }
}
