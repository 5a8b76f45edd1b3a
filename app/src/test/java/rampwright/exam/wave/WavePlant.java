package rampwright.exam.wave;

import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.TrueMachine;
import rampwright.exam.plant.TruePlant;
import rampwright.exam.plant.TrueSupply;

/** Makes waveform trials of an asset, sound or with a fault. */
public final class WavePlant {
  private static final double BEFORE_S = 1.0;
  private static final double STEP_S = 25e-6;

  private final PlantAsset asset;

  public WavePlant(PlantAsset asset) {
    this.asset = asset;
  }

  /**
   * How a trial is conducted. NaN: not at all. Times of faults are from the start order.
   *
   * @param rateHz samples a second
   * @param longestS the record ends here at the latest
   * @param runS from by-pass to the stop order
   * @param abortS cut by hand
   * @param timeLimitS the starter gives up
   * @param deadFromS thyristor of phase 2 (current into the motor) does not fire from here
   * @param lostFromS phase 1 carries nothing from here
   * @param dipFromS the supply falls to {@code dipTo} for {@code dipForS}
   */
  public record Conduct(
      double rateHz,
      double longestS,
      double runS,
      double abortS,
      double timeLimitS,
      double deadFromS,
      double lostFromS,
      double dipFromS,
      double dipForS,
      double dipTo) {

    public static Conduct sound(double rateHz, double longestS, double runS) {
      double none = Double.NaN;
      return new Conduct(rateHz, longestS, runS, none, 60, none, none, none, 0, 1);
    }

    public Conduct withAbort(double atS) {
      return new Conduct(
          rateHz, longestS, runS, atS, timeLimitS, deadFromS, lostFromS, dipFromS, dipForS, dipTo);
    }

    public Conduct withTimeLimit(double s) {
      return new Conduct(
          rateHz, longestS, runS, abortS, s, deadFromS, lostFromS, dipFromS, dipForS, dipTo);
    }

    public Conduct withDeadThyristor(double fromS) {
      return new Conduct(
          rateHz, longestS, runS, abortS, timeLimitS, fromS, lostFromS, dipFromS, dipForS, dipTo);
    }

    public Conduct withLostPhase(double fromS) {
      return new Conduct(
          rateHz, longestS, runS, abortS, timeLimitS, deadFromS, fromS, dipFromS, dipForS, dipTo);
    }

    public Conduct withDip(double fromS, double forS, double to) {
      return new Conduct(
          rateHz, longestS, runS, abortS, timeLimitS, deadFromS, lostFromS, fromS, forS, to);
    }
  }

  /** One trial. The shaft is not followed beyond the end of the record. */
  public WaveRecord run(PlantSettings settings, TruePlant.Day day, Conduct conduct) {
    TruePlant plant = asset.truth();
    TrueMachine m = plant.machine();
    TrueSupply s = plant.supply();
    double w = 2 * Math.PI * m.frequencyHz();
    WaveSupply supply =
        WaveSupply.steady(
                s.lineVoltageV() * day.supplyFactor(),
                m.frequencyHz(),
                s.resistanceOhm(),
                s.reactanceOhm() / w)
            .from(1.1)
            .dip(BEFORE_S + conduct.dipFromS(), conduct.dipForS(), conduct.dipTo());
    Bridge bridge =
        new Bridge(
            WaveMachine.of(m, plant.inertiaKgM2(), 3 * m.ratedCurrentA()),
            supply,
            plant.load().scattered(day.loadFactor(), day.stickFactor()));
    RegulatedGates gates = new RegulatedGates(settings, m, plant.starter(), BEFORE_S);
    WaveRecord record = new WaveRecord(conduct.rateHz());
    double[] sample = new double[7];
    double[] bus = new double[3];
    double next = 0;
    boolean dead = false;
    boolean lost = false;
    while (bridge.time() < conduct.longestS()) {
      double t = bridge.time();
      double since = t - BEFORE_S;
      if (t >= next - 1e-9) {
        sample(bridge, bus, sample);
        record.keep(sample);
        next += 1 / conduct.rateHz();
      }
      if (!dead && since >= conduct.deadFromS()) {
        dead = true;
        bridge.killForward(1);
      }
      if (!lost && since >= conduct.lostFromS()) {
        lost = true;
        bridge.losePhase(0);
      }
      order(gates, record, since, t, conduct);
      bridge.step(Math.max(1e-7, Math.min(STEP_S, next - t)), gates);
      watch(bridge, record, m);
    }
    record.bypassS = gates.bypassS();
    record.stopBeginS = gates.stopBeginS();
    record.releaseS = gates.releaseS();
    record.rotorLossJ = bridge.rotorLossJ();
    return record;
  }

  private static void order(
      RegulatedGates gates, WaveRecord record, double since, double t, Conduct conduct) {
    if (gates.isDead() || !Double.isNaN(gates.stopBeginS())) {
      return;
    }
    boolean bypassed = !Double.isNaN(gates.bypassS());
    record.completed |= bypassed;
    if (since >= conduct.abortS()) {
      record.aborted = true;
      gates.cut(t);
    } else if (!bypassed && since >= conduct.timeLimitS()) {
      record.tripped = true;
      gates.cut(t);
    } else if (bypassed && t >= gates.bypassS() + conduct.runS()) {
      gates.stop(t);
    }
  }

  private static void watch(Bridge bridge, WaveRecord record, TrueMachine m) {
    boolean flows = bridge.current(0) != 0 || bridge.current(1) != 0;
    if (Double.isNaN(record.inceptionS) && flows) {
      record.inceptionS = bridge.time();
    }
    if (Double.isNaN(record.breakawayS) && bridge.speedRadPerS() > 0.002 * m.ratedSpeedRadPerS()) {
      record.breakawayS = bridge.time();
    }
  }

  private static void sample(Bridge bridge, double[] bus, double[] into) {
    bridge.busbar(bus);
    for (int p = 0; p < 3; p++) {
      into[p] = bridge.current(p);
      into[3 + p] = bus[p] - bus[(p + 1) % 3];
    }
    into[6] = bridge.speedRadPerS() * 30 / Math.PI;
  }
}
