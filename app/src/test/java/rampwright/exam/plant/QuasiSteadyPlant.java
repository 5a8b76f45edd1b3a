package rampwright.exam.plant;

/**
 * Runs a motor up and down, taking its electrical side as settled at every instant.
 *
 * <p>Method: speed by Euler steps of 1 to 5 ms, less than a third of the time constant of the steep
 * side near synchronous speed; at every step the machine is solved for the voltage the starter lets
 * through, with the drop in the supply. Current harmonics raise the RMS value, never the torque.
 *
 * <p>Valid: where electrical transients (tens of milliseconds) are short against the run-up. Rotor
 * heat of a start on full voltage is 9 to 18 % too low against a full transient model.
 */
public final class QuasiSteadyPlant {
  private static final double REST_BEFORE_S = 2.0;
  private static final double REST_AFTER_S = 2.0;
  private static final double LONGEST_S = 260;

  private final TruePlant plant;
  private final TrueMachine machine;
  private final TrueStarter starter;
  private final TrueMachine.Point point = new TrueMachine.Point();
  private double busV;

  public QuasiSteadyPlant(TruePlant plant) {
    this.plant = plant;
    this.machine = plant.machine();
    this.starter = plant.starter();
  }

  /**
   * How a trial is conducted.
   *
   * @param runS from by-pass to the stop order
   * @param abortS from inception to a cut by hand; NaN: none
   * @param toRest false: leave off when full voltage is reached (no stop figures then)
   */
  public record Conduct(double runS, double abortS, boolean toRest) {
    public static final Conduct START_ONLY = new Conduct(0.5, Double.NaN, false);
    public static final Conduct WHOLE = new Conduct(6, Double.NaN, true);
  }

  private enum Phase {
    BEFORE,
    START,
    RUN,
    SOFT_STOP,
    DEAD
  }

  /** One trial. */
  public Run run(PlantSettings settings, TruePlant.Day day, Conduct conduct) {
    Run run = new Run();
    TrueLoad load = plant.load().scattered(day.loadFactor(), day.stickFactor());
    double sync = machine.syncRadPerS();
    double inertia = plant.inertiaKgM2();
    double source = plant.supply().lineVoltageV() * day.supplyFactor() / Math.sqrt(3);
    double step = step(inertia, sync);
    int every = (int) Math.rint(Run.STEP_S / step);
    double rated = machine.ratedTorqueNm();

    Phase phase = Phase.BEFORE;
    double speed = 0;
    double angle = 0;
    double share = 0;
    double estimate = 0;
    double stopTorque = 0;
    double current = 0;
    double bus = source;
    double restSince = Double.NaN;
    boolean bypassed = false;
    run.voltageBeforeV = source * Math.sqrt(3);

    for (long n = 0; n * step < LONGEST_S; n++) {
      double t = n * step;
      if (n % every == 0) {
        run.keep(current, bus * Math.sqrt(3), speed);
      }
      double since = t - REST_BEFORE_S;
      // what the starter and the person do
      if (phase == Phase.BEFORE && since >= 0) {
        phase = Phase.START;
        run.inceptionS = t;
        share = 0.05;
        point.currentA = 0.5 * machine.ratedCurrentA();
      } else if (phase == Phase.START && since >= conduct.abortS()) {
        run.aborted = true;
        phase = cut(run, t);
      } else if (phase == Phase.START && !bypassed && since >= starter.timeLimitS()) {
        run.tripped = true;
        phase = cut(run, t);
      } else if (phase == Phase.START && bypassed) {
        phase = Phase.RUN;
        run.completed = true;
        run.bypassS = t;
      } else if (phase == Phase.RUN && t - run.bypassS >= conduct.runS()) {
        if (!conduct.toRest()) {
          return run;
        }
        run.stopBeginS = t;
        stopTorque = Math.max(0, estimate);
        phase = settings.softStop() ? Phase.SOFT_STOP : cut(run, t);
      }

      double torque = 0;
      double gapPower = 0;
      double speedBefore = speed;
      if (phase == Phase.DEAD || phase == Phase.BEFORE) {
        current = 0;
        bus = source;
      } else {
        double wanted;
        if (phase == Phase.RUN) {
          wanted = 1;
        } else {
          double reference =
              phase == Phase.START
                  ? rated
                      * ramp(
                          settings.get(Setting.INITIAL_TORQUE) / 100,
                          since - settings.get(Setting.PULSE),
                          settings.get(Setting.RAMP_UP))
                  : stopTorque
                      * Math.max(0, 1 - (t - run.stopBeginS) / settings.get(Setting.RAMP_DOWN));
          if (phase == Phase.SOFT_STOP
              && reference < rated * settings.get(Setting.RELEASE_TORQUE) / 100) {
            phase = cut(run, t);
            wanted = 0;
          } else {
            wanted = wanted(settings, phase, since, reference, estimate, share, current);
          }
        }
        share += (wanted - share) * Math.min(1, step / starter.lagS());
        if (phase != Phase.DEAD) {
          double slip = 1 - speed / sync;
          electrical(source, share, slip);
          bus = busV;
          current = point.currentA * Math.sqrt(1 + square(starter.distortion() * (1 - share)));
          torque = point.torqueNm();
          gapPower = point.gapPowerW();
          double x = speed / sync;
          estimate = starter.gain() * torque * (1 + starter.slope() * x) + starter.offset() * rated;
          bypassed |=
              phase == Phase.START && share > 0.985 && speed > 0.9 * machine.ratedSpeedRadPerS();
        } else {
          current = 0;
          bus = source;
        }
      }

      // mechanics
      double drag = machine.lossTorqueNm() * Math.max(0, speed) / machine.ratedSpeedRadPerS();
      if (speed <= 0 && torque <= load.stickNm()) {
        speed = 0;
        if (!Double.isNaN(run.releaseS) && Double.isNaN(restSince)) {
          restSince = t;
        }
      } else {
        double net = torque - drag - load.torqueNm(speed, angle);
        speed = Math.max(0, speed + step * net / inertia);
        angle += step * 0.5 * (speedBefore + speed);
        if (Double.isNaN(run.breakawayS) && speed > 0.002 * machine.ratedSpeedRadPerS()) {
          run.breakawayS = t;
        }
        if (speed == 0 && phase == Phase.DEAD && Double.isNaN(restSince)) {
          restSince = t;
        }
      }
      run.rotorLossJ += (1 - 0.5 * (speedBefore + speed) / sync) * gapPower * step;
      if (t - restSince >= REST_AFTER_S) {
        break;
      }
    }
    return run;
  }

  private static Phase cut(Run run, double t) {
    run.releaseS = t;
    if (Double.isNaN(run.stopBeginS)) {
      run.stopBeginS = t;
    }
    return Phase.DEAD;
  }

  private static double ramp(double from, double since, double over) {
    return Math.min(1, from + (1 - from) * Math.max(0, since) / over);
  }

  /** The share of the supply voltage the starter goes for. */
  private double wanted(
      PlantSettings settings,
      Phase phase,
      double since,
      double reference,
      double estimate,
      double share,
      double current) {
    double pulse = settings.get(Setting.PULSE);
    if (phase == Phase.START && since < pulse && settings.get(Setting.PULSE_VOLTAGE) > 0) {
      return bent(settings.get(Setting.PULSE_VOLTAGE) / 100);
    }
    double wanted;
    if (settings.torqueRamp() || phase == Phase.SOFT_STOP) {
      double believed = Math.max(estimate, 0.004 * machine.ratedTorqueNm());
      double factor = Math.sqrt(Math.max(0, reference) / believed);
      wanted = share * Math.min(1.6, Math.max(0.6, factor));
    } else {
      wanted =
          bent(
              ramp(
                  settings.get(Setting.INITIAL_VOLTAGE) / 100,
                  since - pulse,
                  settings.get(Setting.RAMP_UP)));
    }
    double limit =
        settings.get(Setting.CURRENT_LIMIT) * starter.enteredCurrentA() / starter.currentGain();
    if (current > 0) {
      wanted = Math.min(wanted, share * Math.min(1.6, limit / current));
    }
    return Math.max(0.03, Math.min(1, wanted));
  }

  private double bent(double share) {
    return share + starter.bend() * share * (1 - share);
  }

  /** Current and bus voltage at a share of it: fixed point, started from the step before. */
  private void electrical(double source, double share, double slip) {
    double r = plant.supply().resistanceOhm();
    double x = plant.supply().reactanceOhm();
    double bus = busV > 0 ? busV : source;
    for (int pass = 0; pass < 6; pass++) {
      machine.solve(share * bus, slip, 2, point);
      double i = point.currentA;
      // the starter takes no power: on its supply side the same power at a higher voltage
      double cos = Math.min(1, share * point.cosPhi);
      double sin = Math.sqrt(1 - cos * cos);
      double across = source * source - square(x * i * cos - r * i * sin);
      double next = Math.sqrt(Math.max(0, across)) - r * i * cos - x * i * sin;
      next = Math.max(0.2 * source, next);
      boolean done = Math.abs(next - bus) < 2e-5 * source;
      bus = next;
      if (done) {
        break;
      }
    }
    busV = bus;
  }

  private double step(double inertia, double sync) {
    double slope =
        3 * square(machine.phaseVoltageV()) * (1 / machine.ri() + 1 / machine.ro()) / square(sync);
    double constant = inertia / slope;
    return constant > 0.02 ? 0.005 : constant > 0.008 ? 0.0025 : 0.001;
  }

  private static double square(double x) {
    return x * x;
  }
}
