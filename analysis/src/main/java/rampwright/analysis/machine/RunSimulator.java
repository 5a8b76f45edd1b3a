package rampwright.analysis.machine;

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
  static final double FULL_SPEED_SHARE = 0.95;
  static final double REST_SHARE = 0.01;
  static final double BYPASS_SPEED = 0.9;
  private static final double BREAKAWAY_SPEED = 0.002;
  private static final int MOST_STEPS = 6000;
  private static final double AFTER_RAMP_STEP_S = 0.25;
  private static final double STANDING_STEP_S = 2;
  private static final double STANDING_PACE = 1e-4;

  private final MachineModel model;
  private final StarterSettings settings;
  private final RunPlan plan;
  private final Motion at;

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
    this.at = new Motion(model, settings);
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
    at.speed = from;
    WaterColumn water = model.water();
    at.flow = water == null ? 0 : water.steadyFlow(from);
    at.bypassed = true;
    at.electrical(0, at.speed);
    at.record();
    stop(0, from);
    at.out.close(
        new Trajectory.Instants(Double.NaN, 0, 0, 0, releaseS, restS, at.time),
        settled,
        model.sourceVoltageV() / model.plate().ratedVoltageV(),
        0,
        0);
    return at.out;
  }

  private Trajectory simulate() {
    double settled = model.settledSpeedPu();
    double goal = settled > 0 ? FULL_SPEED_SHARE * settled : 2.0;
    double stopOrder = start(goal);
    double end = at.time;
    if (!Double.isNaN(stopOrder) && plan.simulateStop()) {
      stop(stopOrder, settled > 0 ? settled : 1 - model.plate().ratedSlip());
      end = at.time;
    }
    at.out.close(
        new Trajectory.Instants(
            breakawayS,
            fullSpeedS,
            bypassS,
            at.stopping ? at.stopTime : Double.NaN,
            releaseS,
            restS,
            end),
        settled,
        model.sourceVoltageV() / model.plate().ratedVoltageV(),
        heat,
        Double.isNaN(fullSpeedS) ? limitedS / Math.max(1e-9, at.time) : limitedS / fullSpeedS);
    return at.out;
  }

  /** Runs until the stop order or the end; gives the instant of the stop order, NaN when none. */
  private double start(double goal) {
    double stopAt =
        Double.isNaN(plan.stopAfterStartS()) ? Double.POSITIVE_INFINITY : plan.stopAfterStartS();
    double giveUpAt = Math.min(stopAt, plan.giveUpAfterS());
    double longest = longestStep();
    double longestNow = longest;
    at.electrical(0, at.speed);
    at.record();
    if (!standUntilBreakaway(giveUpAt)) {
      return Double.NaN;
    }
    for (int step = 0; step < MOST_STEPS; step++) {
      boolean running = !Double.isNaN(fullSpeedS);
      double until = running ? Math.min(stopAt, runEnd()) : giveUpAt;
      if (at.time >= until - 1e-9) {
        return running ? at.time : Double.NaN;
      }
      double before = at.speed;
      double beforeTime = at.time;
      double heatRate = (1 - at.speed) * at.point.torque;
      boolean wasLimited = at.point.limited;
      at.advance(Math.min(running ? longest : longestNow, nextCorner() - at.time), until);
      double took = at.time - beforeTime;
      longestNow = longestStep(longest, Math.abs(at.speed - before) / took);
      if (Double.isNaN(breakawayS) && at.speed > BREAKAWAY_SPEED) {
        breakawayS = beforeTime + took * (BREAKAWAY_SPEED - before) / (at.speed - before);
      }
      double counted = took;
      if (!running && at.speed >= goal) {
        counted = took * (goal - before) / Math.max(1e-12, at.speed - before);
        fullSpeedS = beforeTime + counted;
      }
      if (!running) {
        heat += 0.5 * counted * (heatRate + (1 - at.speed) * at.point.torque);
        limitedS += wasLimited ? counted : 0;
      }
      if (!at.bypassed
          && (at.point.full || at.sated)
          && at.speed >= BYPASS_SPEED
          && at.time > at.pulseEndS) {
        at.bypassed = true;
        bypassS = at.time;
      }
      at.record();
    }
    return Double.isNaN(fullSpeedS) ? Double.NaN : at.time;
  }

  /** When the stop order comes if it is counted from full speed and by-pass. */
  private double runEnd() {
    if (!Double.isNaN(plan.stopAfterStartS())) {
      return Double.POSITIVE_INFINITY;
    }
    double from = at.bypassed ? Math.max(bypassS, fullSpeedS) : plan.giveUpAfterS();
    return Math.max(from, fullSpeedS) + plan.stopAfterFullSpeedS();
  }

  private double longestStep() {
    double ramp = settings.rampUpS();
    return Math.max(0.02, Math.min(0.25, ramp / 30));
  }

  /**
   * The same for a start under way: once the ramp is over nothing changes by itself, and where
   * speed stands nothing will.
   *
   * @param pace change of speed in the step before, 1/s
   */
  private double longestStep(double usual, double pace) {
    if (!Double.isInfinite(nextCorner())) {
      return usual;
    }
    return pace < STANDING_PACE ? STANDING_STEP_S : Math.max(usual, AFTER_RAMP_STEP_S);
  }

  private double nextCorner() {
    if (at.time < at.pulseEndS - 1e-9) {
      return at.pulseEndS;
    }
    double rampEnd = at.pulseEndS + settings.rampUpS();
    return at.time < rampEnd - 1e-9 ? rampEnd : Double.POSITIVE_INFINITY;
  }

  /** Stands still until the motor's torque beats the load's hold; false when it never does. */
  private boolean standUntilBreakaway(double giveUpAt) {
    double holding = model.load().holding();
    double stride = Math.max(0.02, settings.rampUpS() / 40);
    for (int step = 0; step < MOST_STEPS; step++) {
      if (at.point.torque > holding) {
        return true;
      }
      if (at.time >= giveUpAt - 1e-9) {
        return false;
      }
      double from = at.time;
      double fromTorque = at.point.torque;
      double corner = nextCorner();
      // Who has not broken away when the ramp is over never will.
      double to =
          Double.isInfinite(corner)
              ? giveUpAt
              : Math.min(Math.min(giveUpAt, corner), at.time + stride);
      at.time = to;
      at.electrical(to, 0);
      if (at.point.torque > holding && to - from > 1e-4) {
        double low = from;
        double high = to;
        for (int k = 0; k < 12; k++) {
          double middle = 0.5 * (low + high);
          at.electrical(middle, 0);
          if (at.point.torque > holding) {
            high = middle;
          } else {
            low = middle;
          }
        }
        at.time = high;
        at.electrical(high, 0);
      }
      heat += 0.5 * (at.time - from) * (fromTorque + at.point.torque);
      limitedS += at.point.limited ? at.time - from : 0;
      at.record();
      if (to == nextCorner() || at.time == at.pulseEndS) {
        at.electrical(at.time + 1e-9, 0);
      }
    }
    return false;
  }

  private void stop(double order, double settled) {
    at.electrical(at.time, at.speed);
    at.stopReference = at.point.believedTorque();
    at.stopping = true;
    at.stopTime = order;
    if (settings.stop() == StopMode.COAST || settings.rampDownS() <= 0) {
      release();
    }
    at.bypassed = false;
    double rest = REST_SHARE * settled;
    double last = order + plan.restLimitS();
    double release = settings.releaseTorquePct() / 100;
    double letGoAt =
        at.released
            ? at.time
            : order
                + settings.rampDownS()
                    * Math.max(0, 1 - release / Math.max(1e-6, at.stopReference));
    double longest = Math.max(0.02, Math.min(0.25, settings.rampDownS() / 30));
    for (int step = 0; step < MOST_STEPS && at.time < last - 1e-9; step++) {
      if (!at.released && at.time >= letGoAt - 1e-9) {
        release();
      }
      double before = at.speed;
      double beforeTime = at.time;
      double until = at.released ? last : Math.min(last, letGoAt);
      if (at.released) {
        at.coast(0.5, until);
      } else {
        at.advance(longest, until);
      }
      at.record();
      if (at.speed <= rest) {
        if (Double.isNaN(restS)) {
          double fall = Math.max(1e-12, before - at.speed);
          double share = Math.min(1, Math.max(0, before - rest) / fall);
          restS = beforeTime + (at.time - beforeTime) * share;
        }
        if (at.released) {
          break;
        }
      }
    }
  }

  private void release() {
    at.released = true;
    releaseS = at.time;
    at.point.off();
    at.record();
  }
}
