package rampwright.analysis.machine;

import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.solvers.BracketedUnivariateSolver;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import org.hipparchus.ode.ODEIntegrator;
import org.hipparchus.ode.ODEState;
import org.hipparchus.ode.ODEStateAndDerivative;
import org.hipparchus.ode.OrdinaryDifferentialEquation;
import org.hipparchus.ode.events.Action;
import org.hipparchus.ode.events.AdaptableInterval;
import org.hipparchus.ode.events.ODEEventDetector;
import org.hipparchus.ode.events.ODEEventHandler;
import org.hipparchus.ode.nonstiff.DormandPrince853Integrator;

/**
 * Time to full speed and rotor heat of one start at high accuracy, by a Dormand-Prince 8(5,3)
 * integrator with event location; the yardstick of {@link RunSimulator}.
 *
 * <p>State: speed (of synchronous), rotor heat (integral of slip times torque, seconds of rated
 * torque at synchronous speed). No water column. The start must break away at once: torque above
 * the load's hold at time zero.
 */
public final class RunUpReference {
  private RunUpReference() {}

  /** Electrical drive of a start: the torque at a time and speed, per unit. */
  public interface Torque {
    /** Motor torque, per unit of rated torque. */
    double at(double timeS, double speedPu);
  }

  /** Outcome: time and heat when the speed was reached, NaN when it was not. */
  public record Result(double timeS, double rotorHeatPu) {}

  /**
   * Runs up until a speed is reached.
   *
   * @param motor motor torque
   * @param load load torque against time and speed
   * @param accelerationPerS speed gained per second by one per unit of net torque
   * @param goalPu speed to reach, of synchronous
   * @param longestS gives up after this time
   */
  public static Result run(
      Torque motor, Torque load, double accelerationPerS, double goalPu, double longestS) {
    ODEIntegrator integrator = new DormandPrince853Integrator(1e-9, 1.0, 1e-10, 1e-10);
    integrator.addEventDetector(new Reached(goalPu));
    ODEStateAndDerivative end =
        integrator.integrate(
            new OrdinaryDifferentialEquation() {
              @Override
              public int getDimension() {
                return 2;
              }

              @Override
              public double[] computeDerivatives(double t, double[] y) {
                double torque = motor.at(t, y[0]);
                double net = torque - load.at(t, y[0]);
                return new double[] {
                  y[0] <= 0 && net < 0 ? 0 : accelerationPerS * net, (1 - y[0]) * torque
                };
              }
            },
            new ODEState(0.0, new double[] {0.0, 0.0}),
            longestS);
    double[] state = end.getPrimaryState();
    boolean reached = state[0] >= goalPu - 1e-7;
    return reached ? new Result(end.getTime(), state[1]) : new Result(Double.NaN, Double.NaN);
  }

  /** The torque a model's starter makes with given settings, from the start of the ramp on. */
  public static Torque torqueOf(MachineModel model, StarterSettings settings) {
    ElectricalPoint point = new ElectricalPoint(model);
    return (time, speed) -> {
      double ramp = settings.rampUpS() <= 0 ? 1 : Math.min(1, time / settings.rampUpS());
      if (settings.control() == ControlMode.VOLTAGE_RAMP) {
        double first = settings.initialVoltagePct() / 100;
        point.voltage(speed, first + (1 - first) * ramp, settings.currentLimitRatio());
      } else {
        double first = settings.initialTorquePct() / 100;
        point.torque(speed, first + (1 - first) * ramp, settings.currentLimitRatio());
      }
      return point.torque;
    };
  }

  private record Reached(double goalPu) implements ODEEventDetector {
    @Override
    public AdaptableInterval getMaxCheckInterval() {
      return (state, forward) -> 0.05;
    }

    @Override
    public int getMaxIterationCount() {
      return 100;
    }

    @Override
    public BracketedUnivariateSolver<UnivariateFunction> getSolver() {
      return new BracketingNthOrderBrentSolver(0, 1e-10, 0, 5);
    }

    @Override
    public ODEEventHandler getHandler() {
      return (state, detector, increasing) -> Action.STOP;
    }

    @Override
    public double g(ODEStateAndDerivative state) {
      return state.getPrimaryState()[0] - goalPu;
    }
  }
}
