package rampwright.exam.years;

import java.util.Random;
import java.util.Set;
import rampwright.exam.plant.TrueLoad;
import rampwright.exam.plant.TrueMachine;
import rampwright.exam.plant.TruePlant;
import rampwright.exam.plant.TrueStarter;
import rampwright.exam.plant.TrueSupply;

/**
 * What really changes in a simulated plant, and which leads would send a person to it. Friction is
 * found at bearings and seals, which the leads of a late breakaway, of a shorter stop and of more
 * torque name as well.
 */
enum Cause {
  NOTHING(Set.of()),
  LOAD_TORQUE(Set.of("load torque")),
  INERTIA(Set.of("inertia")),
  BREAKAWAY(Set.of("breakaway")),
  FRICTION(Set.of("friction", "shorter stop", "load torque", "breakaway")),
  SUPPLY(Set.of("supply")),
  LOAD_LOST(Set.of("load lost")),
  LESS_CURRENT(Set.of("less current")),
  MORE_CURRENT(Set.of("more current")),
  ONE_PHASE(Set.of("one phase")),
  ROTOR(Set.of("rotor"));

  private final Set<String> right;

  Cause(Set<String> right) {
    this.right = right;
  }

  boolean isNamedBy(String lead) {
    return right.contains(lead);
  }

  /** The plant once it has changed; sizes as they come. */
  TruePlant changed(TruePlant plant, Random chance) {
    double size = 0.15 + 0.25 * chance.nextDouble();
    return switch (this) {
      case NOTHING -> plant;
      case LOAD_TORQUE -> with(plant, load(plant, 1 + size, 1, 1, 0));
      case INERTIA -> with(plant, load(plant, 1, 1 + 3 * size, 1, 0));
      case BREAKAWAY -> with(plant, load(plant, 1, 1, 1 + 5 * size, 0));
      case FRICTION -> with(plant, load(plant, 1, 1, 1 + size, 0.5 * size));
      case LOAD_LOST -> with(plant, load(plant, 1 - 2 * size, 1, 1, 0));
      case SUPPLY -> with(plant, supply(plant.supply(), 1 + 3 * size, 0));
      case ONE_PHASE -> with(plant, supply(plant.supply(), 1, 0.2 * size));
      case LESS_CURRENT -> with(plant, starter(plant.starter(), 1 + 0.5 * size));
      case MORE_CURRENT -> with(plant, starter(plant.starter(), 1 - 0.5 * size));
      case ROTOR -> with(plant, rotor(plant.machine(), 1 + 2 * size));
    };
  }

  private static TrueLoad load(
      TruePlant plant, double torque, double inertia, double stick, double friction) {
    TrueLoad l = plant.load();
    double full = l.fullTorqueNm() * (torque + friction);
    double floor = (l.floor() * torque + friction) / (torque + friction);
    return new TrueLoad(
        l.kind(),
        full,
        l.fullSpeedRadPerS(),
        floor,
        l.exponent(),
        l.stickNm() * stick,
        l.fade(),
        l.ripple(),
        l.ripples(),
        (l.inertiaKgM2() + plant.machine().inertiaKgM2()) * inertia
            - plant.machine().inertiaKgM2());
  }

  private static TrueSupply supply(TrueSupply s, double impedance, double uneven) {
    double[] shares = s.currentShares().clone();
    shares[0] -= uneven;
    shares[1] += uneven / 2;
    shares[2] += uneven / 2;
    return new TrueSupply(
        s.lineVoltageV(),
        s.resistanceOhm() * impedance,
        s.reactanceOhm() * impedance,
        s.lineShares(),
        shares);
  }

  private static TrueStarter starter(TrueStarter s, double currentGain) {
    return new TrueStarter(
        s.enteredCurrentA(),
        s.gain(),
        s.offset(),
        s.slope(),
        s.currentGain() * currentGain,
        s.bend(),
        s.distortion(),
        s.lagS(),
        s.timeLimitS());
  }

  private static TrueMachine rotor(TrueMachine m, double resistance) {
    return new TrueMachine(
        m.lineVoltageV(),
        m.frequencyHz(),
        m.polePairs(),
        m.r1(),
        m.x1(),
        m.xm(),
        m.ro() * resistance,
        m.xo(),
        m.ri() * resistance,
        m.xi(),
        m.depth(),
        m.saturationA(),
        m.ratedCurrentA(),
        m.ratedTorqueNm(),
        m.ratedSpeedRadPerS(),
        m.lossTorqueNm(),
        m.inertiaKgM2());
  }

  private static TruePlant with(TruePlant p, TrueLoad load) {
    return with(p, p.machine(), load, p.starter(), p.supply());
  }

  private static TruePlant with(TruePlant p, TrueSupply supply) {
    return with(p, p.machine(), p.load(), p.starter(), supply);
  }

  private static TruePlant with(TruePlant p, TrueStarter starter) {
    return with(p, p.machine(), p.load(), starter, p.supply());
  }

  private static TruePlant with(TruePlant p, TrueMachine machine) {
    return with(p, machine, p.load(), p.starter(), p.supply());
  }

  private static TruePlant with(
      TruePlant p, TrueMachine machine, TrueLoad load, TrueStarter starter, TrueSupply supply) {
    return new TruePlant(
        machine, load, starter, supply, p.supplyScatter(), p.loadScatter(), p.stickScatter());
  }
}
