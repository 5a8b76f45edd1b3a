package rampwright.analysis.machine;

import org.jspecify.annotations.Nullable;

/**
 * Simulates a start and the stop after it, quickly: some tens of microseconds a run, for fitting
 * and for searching settings.
 *
 * <p>Method: dn/dt = a (T - TL) by the two-stage second-order W-method ROS2 with gamma = 1 + 1/sqrt
 * 2 and the motion's own slope as matrix (Verwer, Spee, Blom, Hundsdorfer, SIAM J. Sci. Comput. 20,
 * 1999; from memory), steps chosen so that speed moves by at most two hundredths, less near full
 * speed; flow by implicit Euler. Instants are interpolated inside steps. {@link RunUpReference}
 * does the same with an adaptive high-order solver and event location; they agree within 0.5 % of
 * times (RunSimulatorReferenceTest).
 *
 * <p>Starter law: pulse (a voltage level, not limited), then the ramp; after a torque ramp the
 * reference stays at rated torque; by-passed when at full voltage near rated speed. Soft stop: the
 * reference falls from the believed torque at the stop order to zero in the ramp-down time, limit
 * active, and current ceases when it is below the release torque.
 */
public final class RunSimulator {
  private static final double GAMMA = 1.0 + 1.0 / Math.sqrt(2.0);
  static final double FULL_SPEED_SHARE = 0.95;
  static final double REST_SHARE = 0.01;
  static final double BYPASS_SPEED = 0.9;
  private static final double SATING_ABOVE = 0.85;
  private static final int SATING_PASSES = 3;
  private static final double BREAKAWAY_SPEED = 0.002;
  private static final int MOST_STEPS = 6000;

  // Between these speeds the motion is never stiff and the matrix of the W-method may be zero.
  private static final double STIFF_BELOW = 0.12;
  private static final double STIFF_ABOVE = 0.8;

  private final MachineModel model;
  private final StarterSettings settings;
  private final RunPlan plan;
  private final ElectricalPoint point;
  private final @Nullable WaterColumn water;
  private final double pace;
  private final double pulseEndS;
  private final double limit;

  private final Trajectory out = new Trajectory();
  private double time;
  private double speed;
  private double flow;
  private boolean bypassed;
  // Whether the last step ended where the reference asks for all the voltage there is.
  private boolean sated;
  private boolean stopping;
  private boolean released;
  private double stopTime;
  private double stopReference;

  private double breakawayS = Double.NaN;
  private double fullSpeedS = Double.NaN;
  private double bypassS = Double.NaN;
  private double releaseS = Double.NaN;
  private double restS = Double.NaN;
  private double heat;
  private double limitedS;

  private RunSimulator(MachineModel model, StarterSettings settings, RunPlan plan) {
    this.model = model;
    this.settings = settings;
    this.plan = plan;
    this.point = new ElectricalPoint(model);
    this.water = model.water();
    this.pace = model.accelerationPerS();
    this.pulseEndS = settings.hasPulse() ? settings.pulseS() : 0;
    this.limit = settings.currentLimitRatio();
  }

  /** Simulates one run. */
  public static Trajectory run(MachineModel model, StarterSettings settings, RunPlan plan) {
    return new RunSimulator(model, settings, plan).simulate();
  }

  /**
   * Simulates a stop from steady running at full voltage; the stop order is at time zero.
   *
   * @param longestS the stop is followed for at most this long
   */
  public static Trajectory runDown(MachineModel model, StarterSettings settings, double longestS) {
    RunSimulator run = new RunSimulator(model, settings, new RunPlan(0, 0, 0, true, longestS));
    return run.slowDown();
  }

  private Trajectory slowDown() {
    double settled = model.settledSpeedPu();
    double from = settled > 0 ? settled : 1 - model.plate().ratedSlip();
    speed = from;
    flow = water == null ? 0 : water.steadyFlow(from);
    bypassed = true;
    electrical(0, speed);
    record();
    stop(0, from);
    out.close(
        new Trajectory.Instants(Double.NaN, 0, 0, 0, releaseS, restS, time),
        settled,
        model.sourceVoltageV() / model.plate().ratedVoltageV(),
        0,
        0);
    return out;
  }

  private Trajectory simulate() {
    double settled = model.settledSpeedPu();
    double goal = settled > 0 ? FULL_SPEED_SHARE * settled : 2.0;
    double stopOrder = start(goal);
    double end = time;
    if (!Double.isNaN(stopOrder) && plan.simulateStop()) {
      stop(stopOrder, settled > 0 ? settled : 1 - model.plate().ratedSlip());
      end = time;
    }
    out.close(
        new Trajectory.Instants(
            breakawayS,
            fullSpeedS,
            bypassS,
            stopping ? stopTime : Double.NaN,
            releaseS,
            restS,
            end),
        settled,
        model.sourceVoltageV() / model.plate().ratedVoltageV(),
        heat,
        Double.isNaN(fullSpeedS) ? limitedS / Math.max(1e-9, time) : limitedS / fullSpeedS);
    return out;
  }

  /** Runs until the stop order or the end; gives the instant of the stop order, NaN when none. */
  private double start(double goal) {
    double stopAt =
        Double.isNaN(plan.stopAfterStartS()) ? Double.POSITIVE_INFINITY : plan.stopAfterStartS();
    double giveUpAt = Math.min(stopAt, plan.giveUpAfterS());
    double longest = longestStep();
    electrical(0, speed);
    record();
    if (!standUntilBreakaway(giveUpAt)) {
      return Double.NaN;
    }
    for (int step = 0; step < MOST_STEPS; step++) {
      boolean running = !Double.isNaN(fullSpeedS);
      double until = running ? Math.min(stopAt, runEnd()) : giveUpAt;
      if (time >= until - 1e-9) {
        return running ? time : Double.NaN;
      }
      double before = speed;
      double beforeTime = time;
      double heatRate = (1 - speed) * point.torque;
      boolean wasLimited = point.limited;
      advance(Math.min(longest, nextCorner() - time), until);
      double took = time - beforeTime;
      if (Double.isNaN(breakawayS) && speed > BREAKAWAY_SPEED) {
        breakawayS = beforeTime + took * (BREAKAWAY_SPEED - before) / (speed - before);
      }
      double counted = took;
      if (!running && speed >= goal) {
        counted = took * (goal - before) / Math.max(1e-12, speed - before);
        fullSpeedS = beforeTime + counted;
      }
      if (!running) {
        heat += 0.5 * counted * (heatRate + (1 - speed) * point.torque);
        limitedS += wasLimited ? counted : 0;
      }
      if (!bypassed && (point.full || sated) && speed >= BYPASS_SPEED && time > pulseEndS) {
        bypassed = true;
        bypassS = time;
      }
      record();
    }
    return Double.isNaN(fullSpeedS) ? Double.NaN : time;
  }

  /** When the stop order comes if it is counted from full speed and by-pass. */
  private double runEnd() {
    if (!Double.isNaN(plan.stopAfterStartS())) {
      return Double.POSITIVE_INFINITY;
    }
    double from = bypassed ? Math.max(bypassS, fullSpeedS) : plan.giveUpAfterS();
    return Math.max(from, fullSpeedS) + plan.stopAfterFullSpeedS();
  }

  private double longestStep() {
    double ramp = settings.rampUpS();
    return Math.max(0.02, Math.min(0.25, ramp / 30));
  }

  private double nextCorner() {
    if (time < pulseEndS - 1e-9) {
      return pulseEndS;
    }
    double rampEnd = pulseEndS + settings.rampUpS();
    return time < rampEnd - 1e-9 ? rampEnd : Double.POSITIVE_INFINITY;
  }

  /** Stands still until the motor's torque beats the load's hold; false when it never does. */
  private boolean standUntilBreakaway(double giveUpAt) {
    double holding = model.load().holding();
    double stride = Math.max(0.02, settings.rampUpS() / 40);
    for (int step = 0; step < MOST_STEPS; step++) {
      if (point.torque > holding) {
        return true;
      }
      if (time >= giveUpAt - 1e-9) {
        return false;
      }
      double from = time;
      double fromTorque = point.torque;
      double to = Math.min(Math.min(giveUpAt, nextCorner()), time + stride);
      time = to;
      electrical(to, 0);
      if (point.torque > holding && to - from > 1e-4) {
        double low = from;
        double high = to;
        for (int k = 0; k < 12; k++) {
          double middle = 0.5 * (low + high);
          electrical(middle, 0);
          if (point.torque > holding) {
            high = middle;
          } else {
            low = middle;
          }
        }
        time = high;
        electrical(high, 0);
      }
      heat += 0.5 * (time - from) * (fromTorque + point.torque);
      limitedS += point.limited ? time - from : 0;
      record();
      if (to == nextCorner() || time == pulseEndS) {
        electrical(time + 1e-9, 0);
      }
    }
    return false;
  }

  private void stop(double order, double settled) {
    electrical(time, speed);
    stopReference = point.believedTorque();
    stopping = true;
    stopTime = order;
    if (settings.stop() == StopMode.COAST || settings.rampDownS() <= 0) {
      release();
    }
    bypassed = false;
    double rest = REST_SHARE * settled;
    double last = order + plan.restLimitS();
    double release = settings.releaseTorquePct() / 100;
    double letGoAt =
        released
            ? time
            : order
                + settings.rampDownS() * Math.max(0, 1 - release / Math.max(1e-6, stopReference));
    double longest = Math.max(0.02, Math.min(0.25, settings.rampDownS() / 30));
    for (int step = 0; step < MOST_STEPS && time < last - 1e-9; step++) {
      if (!released && time >= letGoAt - 1e-9) {
        release();
      }
      double before = speed;
      double beforeTime = time;
      double until = released ? last : Math.min(last, letGoAt);
      if (released) {
        coast(0.5, until);
      } else {
        advance(longest, until);
      }
      record();
      if (speed <= rest) {
        double fall = Math.max(1e-12, before - speed);
        restS = beforeTime + (time - beforeTime) * Math.min(1, Math.max(0, before - rest) / fall);
        if (released) {
          break;
        }
      }
    }
    if (!Double.isNaN(restS) && released && restS < releaseS) {
      restS = Math.max(restS, order);
    }
  }

  private void release() {
    released = true;
    releaseS = time;
    point.off();
    record();
  }

  /** Electrical state at a time and speed; leaves it in the point. */
  private void electrical(double at, double speedPu) {
    if (released) {
      point.off();
    } else if (stopping) {
      double falling = 1 - (at - stopTime) / settings.rampDownS();
      point.torque(speedPu, stopReference * Math.max(0, falling), limit);
    } else if (bypassed) {
      point.fullVoltage(speedPu);
    } else if (at < pulseEndS) {
      point.voltage(speedPu, settings.pulseVoltagePct() / 100, Double.POSITIVE_INFINITY);
    } else {
      double ramp = settings.rampUpS() <= 0 ? 1 : (at - pulseEndS) / settings.rampUpS();
      ramp = Math.min(1, Math.max(0, ramp));
      if (settings.control() == ControlMode.VOLTAGE_RAMP) {
        double first = settings.initialVoltagePct() / 100;
        point.voltage(speedPu, first + (1 - first) * ramp, limit);
      } else {
        double first = settings.initialTorquePct() / 100;
        point.torque(speedPu, first + (1 - first) * ramp, limit);
      }
    }
  }

  private double slopeAt(double at, double speedPu) {
    electrical(at, speedPu);
    return slopeOf(speedPu);
  }

  private double slopeHere() {
    return slopeOf(speed);
  }

  private double slopeOf(double speedPu) {
    double load = speedPu > 0 ? model.loadTorque(speedPu, flow) : model.load().holding();
    double netTorque = point.torque - load;
    if (speedPu <= 0 && netTorque < 0) {
      return 0;
    }
    return pace * netTorque;
  }

  /** One step of coasting by the classical fourth-order rule. */
  private void coast(double longest, double until) {
    double slope = slopeHere();
    double move = 0.003 + 0.017 * Math.min(1, speed / 0.2);
    double step = Math.min(Math.min(longest, until - time), move / Math.max(1e-9, -slope));
    double k2 = slopeAt(time, Math.max(0, speed + 0.5 * step * slope));
    double k3 = slopeAt(time, Math.max(0, speed + 0.5 * step * k2));
    double k4 = slopeAt(time, Math.max(0, speed + step * k3));
    speed = Math.max(0, speed + step / 6 * (slope + 2 * k2 + 2 * k3 + k4));
    time += step;
    if (water != null) {
      flow = water.flowAfter(flow, speed, step);
    }
    electrical(time, speed);
  }

  /** One step of at most the given length, not past an instant. */
  private void advance(double longest, double until) {
    // The state at the beginning of the step is the one the last step ended with.
    double slope = slopeHere();
    double matrix = 0;
    if (speed < STIFF_BELOW || speed > STIFF_ABOVE) {
      double probe = speed > 0.5 ? -1e-4 : 1e-4;
      matrix = (slopeAt(time, speed + probe) - slope) / probe;
    }
    double slip = Math.abs(1 - speed);
    double share = Math.min(1, slip / 0.25);
    double move = 0.003 + 0.017 * share;
    double step = Math.min(longest, move / Math.max(1e-9, Math.abs(slope)));
    if (matrix > 0) {
      step = Math.min(step, 0.5 / matrix);
      matrix = 0;
    }
    if (point.full && !bypassed && slope > 0 && speed < BYPASS_SPEED) {
      // By-passing is a step of voltage: the step of time ends on it.
      step = Math.min(step, (BYPASS_SPEED - speed) / slope + 1e-6);
    }
    step = Math.max(step, 1e-4);
    if (time + step > until) {
      step = until - time;
    }
    if (!bypassed && !stopping && !point.full && speed > SATING_ABOVE && time > pulseEndS) {
      step = untilSated(step, slope);
    }
    double w = 1 - GAMMA * step * matrix;
    double k1 = slope / w;
    double k2 = (slopeAt(time + step, Math.max(0, speed + step * k1)) - 2 * k1) / w;
    speed = Math.max(0, speed + step * (1.5 * k1 + 0.5 * k2));
    time += step;
    if (water != null) {
      flow = water.flowAfter(flow, speed, step);
    }
    electrical(time, speed);
  }

  /**
   * A step, shortened to end where the reference asks for all the voltage there is: torque has a
   * corner there that no step may straddle, or the method hangs on it. False position on the
   * demand, along the trapezoid's prediction.
   */
  private double untilSated(double step, double slope) {
    sated = false;
    double before = point.demand;
    double after = demandAfter(step, slope);
    double low = 0;
    double high = step;
    double at = step;
    if (before < 1 && after >= 1) {
      for (int pass = 0; pass < SATING_PASSES; pass++) {
        at = low + (high - low) * (1 - before) / (after - before);
        double found = demandAfter(at, slope);
        if (found < 1) {
          low = at;
          before = found;
        } else {
          high = at;
          after = found;
        }
      }
      sated = true;
    }
    electrical(time, speed);
    return Math.max(1e-5, at);
  }

  private double demandAfter(double step, double slope) {
    // Until the corner the torque follows a rising reference: the slope does not fall.
    double later = Math.max(slope, slopeAt(time + step, speed + step * slope));
    electrical(time + step, speed + 0.5 * step * (slope + later));
    return point.demand;
  }

  private void record() {
    double load =
        speed > 0 ? model.loadTorque(speed, flow) : Math.min(point.torque, model.load().holding());
    out.add(time, speed, flow, load, point);
  }
}
