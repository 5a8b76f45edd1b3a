package rampwright.analysis.machine;

import java.util.EnumMap;

/**
 * Figures of a simulated run, with the definitions of the figures of a trace.
 *
 * <p>NaN where the run gives none: no start time for a start that failed, no rest for a stop that
 * was not simulated.
 */
public final class RunFigures {
  private static final double FALL_WINDOW_S = 0.1;
  private static final double SETTLED_WITHIN = 0.1;

  /**
   * How the phases differ from their mean, for figures that are taken of the worst phase.
   *
   * @param highestCurrent highest phase current over the mean of the phases
   * @param meanSquareCurrent mean of the squares over the square of the mean
   * @param worstDip dip of the worst line voltage over the dip of the mean
   */
  public record PhaseFactors(double highestCurrent, double meanSquareCurrent, double worstDip) {
    /** Balanced phases. */
    public static final PhaseFactors BALANCED = new PhaseFactors(1, 1, 1);
  }

  private final EnumMap<RunFigure, Double> values = new EnumMap<>(RunFigure.class);
  private final double starterDipPct;

  private RunFigures(double starterDipPct) {
    this.starterDipPct = starterDipPct;
  }

  /** Value of a figure, NaN when the run gives none. */
  public double of(RunFigure figure) {
    return values.getOrDefault(figure, Double.NaN);
  }

  /**
   * Dip at the starter, % of the voltage before; the same as {@link RunFigure#VOLTAGE_DIP} where
   * voltages are measured there.
   */
  public double starterDipPct() {
    return starterDipPct;
  }

  private void set(RunFigure figure, double value) {
    values.put(figure, value);
  }

  /** Takes the figures of a run on a supply whose declared voltage is the motor's rated one. */
  public static RunFigures of(Trajectory run, MachineModel model, PhaseFactors phases) {
    return of(run, model, phases, model.plate().ratedVoltageV());
  }

  /**
   * Takes the figures of a run.
   *
   * @param declaredV declared supply voltage, line to line
   */
  public static RunFigures of(
      Trajectory run, MachineModel model, PhaseFactors phases, double declaredV) {
    RunFigures figures = new RunFigures(starterDipPct(run, phases));
    figures.start(run, model, phases);
    figures.set(
        RunFigure.DIP_DURATION,
        RunDip.longestS(run, phases.worstDip(), declaredV / model.plate().ratedVoltageV()));
    if (!Double.isNaN(run.instants().stopBeginS())) {
      figures.stop(run, phases);
      Pipe pipe = model.pipe();
      if (pipe != null) {
        figures.set(RunFigure.PIPE_PERIODS, figures.of(RunFigure.STOP_TIME) / pipe.periodS());
        figures.set(RunFigure.PRESSURE_PEAK, Surge.riseBar(run, pipe));
      }
    }
    return figures;
  }

  private static double startEndS(Trajectory run) {
    return run.completed() ? run.instants().fullSpeedS() : run.instants().endS();
  }

  private static double starterDipPct(Trajectory run, PhaseFactors phases) {
    double lowest = Double.POSITIVE_INFINITY;
    double until = startEndS(run);
    for (int k = 0; k < run.size() && run.timeS(k) <= until; k++) {
      lowest = Math.min(lowest, run.busVoltagePu(k));
    }
    return 100 * (1 - lowest / run.sourceVoltagePu()) * phases.worstDip();
  }

  private void start(Trajectory run, MachineModel model, PhaseFactors phases) {
    Trajectory.Instants at = run.instants();
    double ratedA = model.measuredRatedCurrentA();
    double ratedV = model.plate().ratedVoltageV();
    double until = startEndS(run);
    double peak = 0;
    double lowest = Double.POSITIVE_INFINITY;
    for (int k = 0; k < run.size() && run.timeS(k) <= until; k++) {
      peak = Math.max(peak, run.currentRatio(k));
      lowest = Math.min(lowest, run.measuredVoltagePu(k));
    }
    double i2t = squares(run, 0, until) * phases.meanSquareCurrent();
    set(RunFigure.START_TIME, at.fullSpeedS());
    set(RunFigure.BREAKAWAY_DELAY, at.breakawayS());
    set(RunFigure.PEAK_CURRENT, peak * phases.highestCurrent());
    set(RunFigure.PEAK_CURRENT_A, peak * phases.highestCurrent() * ratedA);
    set(RunFigure.I2T, i2t);
    set(RunFigure.I2T_A2S, i2t * ratedA * ratedA);
    if (until > 0) {
      set(RunFigure.RMS_CURRENT, Math.sqrt(i2t / until));
      set(RunFigure.RMS_CURRENT_A, Math.sqrt(i2t / until) * ratedA);
    }
    double source = run.sourceVoltagePu();
    double dip = 100 * (1 - lowest / source) * phases.worstDip();
    set(RunFigure.VOLTAGE_BEFORE, source * ratedV);
    set(RunFigure.VOLTAGE_MIN, source * ratedV * (1 - dip / 100));
    set(RunFigure.VOLTAGE_DIP, dip);
    set(RunFigure.START_DROP, dip);
    if (run.completed()) {
      runState(run, model, phases);
    }
  }

  private void runState(Trajectory run, MachineModel model, PhaseFactors phases) {
    Trajectory.Instants at = run.instants();
    double runEnd = Double.isNaN(at.stopBeginS()) ? at.endS() : at.stopBeginS();
    int last = run.indexAt(runEnd - 1e-6);
    double runCurrent = run.currentRatio(last);
    set(
        RunFigure.RUN_CURRENT,
        runCurrent * phases.highestCurrent() * model.measuredRatedCurrentA());
    power(run, last, model);
    double omega = run.settledSpeedPu() * model.plate().syncSpeedRadPerS();
    set(RunFigure.ACCELERATION_ENERGY, 0.5 * model.inertiaKgM2() * omega * omega);
    int k = last;
    while (k > 0 && Math.abs(run.currentRatio(k) - runCurrent) <= SETTLED_WITHIN) {
      k--;
    }
    set(RunFigure.SETTLING_TIME, run.timeS(Math.min(k + 1, last)));
  }

  /**
   * Power taken while running at full voltage, where voltage is measured: S = sqrt(3) V I, P =
   * sqrt(3) V1 I cos(phi) of the circuit at the speed and 3 R I^2 of the cable in between; iron
   * loss is not in the circuit.
   */
  private void power(Trajectory run, int at, MachineModel model) {
    double amps = run.currentRatio(at) * model.plate().ratedCurrentA();
    double volt = run.measuredVoltagePu(at) * model.plate().ratedVoltageV();
    double apparent = Math.sqrt(3) * volt * amps;
    double ofMotor = run.busVoltagePu(at) / run.measuredVoltagePu(at);
    double ofCable = Math.sqrt(3) * amps * model.cable().resistanceOhm() / volt;
    double cos = ofMotor * model.motor().powerFactor(1 - run.speedPu(at)) + ofCable;
    set(RunFigure.APPARENT_POWER, apparent);
    set(RunFigure.POWER_FACTOR, cos);
    set(RunFigure.ACTIVE_POWER, apparent * cos);
    set(RunFigure.REACTIVE_POWER, apparent * Math.sqrt(Math.max(0, 1 - cos * cos)));
  }

  private void stop(Trajectory run, PhaseFactors phases) {
    Trajectory.Instants at = run.instants();
    double begin = at.stopBeginS();
    double settled = run.speedPu(run.indexAt(begin - 1e-6));
    set(RunFigure.STOP_TIME, at.restS() - begin);
    set(RunFigure.CONTROLLED_TIME, at.releaseS() - begin);
    if (!Double.isNaN(at.releaseS())) {
      set(
          RunFigure.SPEED_AT_RELEASE,
          100 * run.speedPu(run.indexAt(at.releaseS() + 1e-9)) / settled);
      set(RunFigure.STOP_I2T, squares(run, begin, at.releaseS()) * phases.meanSquareCurrent());
    }
    double peak = 0;
    double ninety = Double.NaN;
    double ten = Double.NaN;
    double steepest = 0;
    for (int k = run.indexAt(begin); k < run.size(); k++) {
      peak = Math.max(peak, run.currentRatio(k));
      double share = run.speedPu(k) / settled;
      if (Double.isNaN(ninety) && share <= 0.9) {
        ninety = crossing(run, k, 0.9 * settled);
      }
      if (Double.isNaN(ten) && share <= 0.1) {
        ten = crossing(run, k, 0.1 * settled);
      }
      int later = k + 1;
      while (later < run.size() - 1 && run.timeS(later) - run.timeS(k) < FALL_WINDOW_S) {
        later++;
      }
      if (later < run.size()
          && run.speedPu(later) / settled > 0.1
          && run.timeS(later) > run.timeS(k)) {
        double fall =
            (run.speedPu(k) - run.speedPu(later)) / (run.timeS(later) - run.timeS(k)) / settled;
        steepest = Math.max(steepest, fall);
      }
    }
    set(RunFigure.STOP_PEAK_CURRENT, peak * phases.highestCurrent());
    set(RunFigure.STOP_90_10, ten - ninety);
    set(RunFigure.STOP_DECELERATION, 100 * steepest);
  }

  private static double crossing(Trajectory run, int index, double speed) {
    if (index == 0) {
      return run.timeS(0);
    }
    double before = run.speedPu(index - 1);
    double after = run.speedPu(index);
    double part = before == after ? 1 : (before - speed) / (before - after);
    return run.timeS(index - 1) + part * (run.timeS(index) - run.timeS(index - 1));
  }

  /** Integral of the squared current ratio between two times, s. */
  private static double squares(Trajectory run, double from, double to) {
    double sum = 0;
    for (int k = Math.max(1, run.indexAt(from)); k < run.size(); k++) {
      double low = Math.max(from, run.timeS(k - 1));
      double high = Math.min(to, run.timeS(k));
      double width = run.timeS(k) - run.timeS(k - 1);
      if (high <= low || width <= 0) {
        if (run.timeS(k - 1) >= to) {
          break;
        }
        continue;
      }
      double a = run.currentRatio(k - 1);
      double slope = (run.currentRatio(k) - a) / width;
      double i0 = a + slope * (low - run.timeS(k - 1));
      double i1 = a + slope * (high - run.timeS(k - 1));
      sum += (high - low) * (i0 * i0 + i0 * i1 + i1 * i1) / 3;
    }
    return sum;
  }
}
