package rampwright.analysis.machine;

import org.jspecify.annotations.Nullable;

/**
 * Where a simulated run is: time, speed and flow, what the starter is about, and the steps from one
 * instant to the next.
 *
 * <p>Method: {@link RunSimulator}.
 */
final class Motion {
  private static final double GAMMA = 1.0 + 1.0 / Math.sqrt(2.0);
  private static final double SATING_ABOVE = 0.85;
  private static final int SATING_PASSES = 3;

  // Between these speeds the motion is never stiff and the matrix of the W-method may be zero.
  private static final double STIFF_BELOW = 0.12;
  private static final double STIFF_ABOVE = 0.8;

  final ElectricalPoint point;
  final Trajectory out = new Trajectory();
  final double pulseEndS;

  double time;
  double speed;
  double flow;
  boolean bypassed;

  /** Whether the last step ended where the reference asks for all the voltage there is. */
  boolean sated;

  boolean stopping;
  boolean released;
  double stopTime;
  double stopReference;

  private final MachineModel model;
  private final StarterSettings settings;
  private final @Nullable WaterColumn water;
  private final double pace;
  private final double limit;

  Motion(MachineModel model, StarterSettings settings) {
    this.model = model;
    this.settings = settings;
    this.point = new ElectricalPoint(model);
    this.water = model.water();
    this.pace = model.accelerationPerS();
    this.pulseEndS = settings.hasPulse() ? settings.pulseS() : 0;
    this.limit = settings.currentLimitRatio();
  }

  /** Electrical state at a time and speed; leaves it in the point. */
  void electrical(double at, double speedPu) {
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
  void coast(double longest, double until) {
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
  void advance(double longest, double until) {
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
    if (point.full && !bypassed && slope > 0 && speed < RunSimulator.BYPASS_SPEED) {
      // By-passing is a step of voltage: the step of time ends on it.
      step = Math.min(step, (RunSimulator.BYPASS_SPEED - speed) / slope + 1e-6);
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

  void record() {
    double load =
        speed > 0 ? model.loadTorque(speed, flow) : Math.min(point.torque, model.load().holding());
    out.add(time, speed, flow, load, point);
  }
}
