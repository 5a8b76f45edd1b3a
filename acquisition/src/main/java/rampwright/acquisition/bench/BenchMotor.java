package rampwright.acquisition.bench;

import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.Timekeeper;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.analysis.machine.Trajectory;

/**
 * A simulated motor circuit played against the clock. Thread-safe.
 *
 * <p>Each order simulates what follows in one go; readings are taken out of it by time, in
 * proportion between its points. Quasi-steady: no switching transients, phases alike.
 */
public final class BenchMotor {
  /** A start that has not reached full speed by then is cut, s; starters give up sooner. */
  static final double GIVE_UP_S = 120;

  /** Simulated run after full speed, s; by then nothing changes any more. */
  private static final double RUN_S = 20;

  /** A stop that lasts longer is cut off, s. */
  private static final double LONGEST_STOP_S = 600;

  /** Nearer to the settled speed than this, of synchronous speed, a soft stop can begin. */
  private static final double SETTLED_WITHIN = 0.005;

  private static final double NANOS = 1e-9;

  /** What the motor does. */
  public enum State {
    AT_REST("at rest"),
    STARTING("starting"),
    RUNNING("running"),
    SLOWING("slowing down");

    private final String words;

    State(String words) {
      this.words = words;
    }

    /** The state in words. */
    public String words() {
      return words;
    }
  }

  private final MachineModel model;
  private final Timekeeper time;
  private final double pace;
  private StarterSettings settings;
  private @Nullable Trajectory played;
  private boolean slowing;
  private long fromNs;
  private double offsetS;

  /**
   * A motor at rest.
   *
   * @param pace seconds of the motor a second of the clock; above 0
   */
  public BenchMotor(MachineModel model, StarterSettings settings, Timekeeper time, double pace) {
    if (!(pace > 0)) {
      throw new IllegalArgumentException("pace " + pace + " is not above 0");
    }
    this.model = model;
    this.settings = settings;
    this.time = time;
    this.pace = pace;
  }

  /** Settings for the next start and the next stop. */
  public synchronized void set(StarterSettings wanted) {
    settings = wanted;
  }

  /** The circuit. */
  public MachineModel model() {
    return model;
  }

  /** Gives the run command; false when the shaft still turns, which the model cannot start from. */
  public synchronized boolean start() {
    if (state() != State.AT_REST) {
      return false;
    }
    RunPlan plan = new RunPlan(Double.NaN, RUN_S, GIVE_UP_S, false, 0);
    play(RunSimulator.run(model, settings, plan), 0, false, time.nanos());
    return true;
  }

  /**
   * Takes the run command back; false when there is none. A motor that has settled stops as set;
   * one still running up is cut off and coasts.
   */
  public synchronized boolean stop() {
    State now = state();
    if (now == State.RUNNING) {
      play(RunSimulator.runDown(model, settings, LONGEST_STOP_S), 0, true, time.nanos());
      return true;
    }
    if (now != State.STARTING || played == null) {
      return false;
    }
    coast(at(played, Trajectory::speedPu), time.nanos());
    return true;
  }

  /** What the motor does now. */
  public synchronized State state() {
    Trajectory run = current();
    if (run == null) {
      return State.AT_REST;
    }
    if (slowing) {
      return State.SLOWING;
    }
    double below = run.settledSpeedPu() - at(run, Trajectory::speedPu);
    return run.completed() && below < SETTLED_WITHIN ? State.RUNNING : State.STARTING;
  }

  /** What meters would see now. */
  public synchronized BenchReading reading() {
    Trajectory run = current();
    double ratedV = model.plate().ratedVoltageV();
    if (run == null) {
      return new BenchReading(0, model.sourceVoltageV(), 0, false);
    }
    return new BenchReading(
        at(run, Trajectory::currentRatio) * model.measuredRatedCurrentA(),
        at(run, Trajectory::measuredVoltagePu) * ratedV,
        at(run, Trajectory::speedPu) * model.plate().syncSpeedRpm(),
        !slowing);
  }

  private void play(Trajectory run, double fromS, boolean isStop, long nowNs) {
    played = run;
    offsetS = fromS;
    slowing = isStop;
    fromNs = nowNs;
  }

  private double playedS() {
    return offsetS + (time.nanos() - fromNs) * NANOS * pace;
  }

  /** What is played now, after what has ended by itself; null at rest. */
  private @Nullable Trajectory current() {
    Trajectory run = played;
    if (run == null) {
      return null;
    }
    double end = run.instants().endS();
    if (!slowing && !run.completed() && playedS() >= end) {
      // The starter gives up at its own instant, whenever somebody looks.
      long endNs = fromNs + Math.round((end - offsetS) / (NANOS * pace));
      coast(run.speedPu(run.size() - 1), endNs);
    }
    run = played;
    if (slowing && run != null && playedS() >= run.instants().endS()) {
      played = null;
    }
    return played;
  }

  /** Coasts down from a speed: the end of a coast from full speed. */
  private void coast(double speedPu, long atNs) {
    StarterSettings free =
        new StarterSettings(
            settings.currentLimitRatio(),
            settings.control(),
            settings.rampUpS(),
            settings.initialTorquePct(),
            settings.initialVoltagePct(),
            0,
            0,
            StopMode.COAST,
            settings.releaseTorquePct(),
            settings.rampDownS());
    Trajectory run = RunSimulator.runDown(model, free, LONGEST_STOP_S);
    int k = 0;
    while (k < run.size() - 1 && run.speedPu(k) > speedPu) {
      k++;
    }
    double joins = run.timeS(k);
    if (k > 0 && run.speedPu(k) < run.speedPu(k - 1)) {
      double part = (run.speedPu(k - 1) - speedPu) / (run.speedPu(k - 1) - run.speedPu(k));
      joins = run.timeS(k - 1) + Math.min(1, part) * (run.timeS(k) - run.timeS(k - 1));
    }
    play(run, joins, true, atNs);
  }

  private interface Quantity {
    double of(Trajectory run, int index);
  }

  private double at(Trajectory run, Quantity quantity) {
    double t = playedS();
    int k = run.indexAt(t);
    double value = quantity.of(run, k);
    if (k == run.size() - 1 || t <= run.timeS(k)) {
      return value;
    }
    double share = (t - run.timeS(k)) / (run.timeS(k + 1) - run.timeS(k));
    return value + share * (quantity.of(run, k + 1) - value);
  }
}
