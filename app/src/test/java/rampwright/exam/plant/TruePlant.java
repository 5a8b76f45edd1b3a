package rampwright.exam.plant;

import java.util.Random;

/** One motor circuit as it really is, and by how much a trial differs from the next. */
public record TruePlant(
    TrueMachine machine,
    TrueLoad load,
    TrueStarter starter,
    TrueSupply supply,
    double supplyScatter,
    double loadScatter,
    double stickScatter) {

  /** Inertia of motor and load together. */
  public double inertiaKgM2() {
    return machine.inertiaKgM2() + load.inertiaKgM2();
  }

  /** What differs in one trial. */
  public record Day(double supplyFactor, double loadFactor, double stickFactor) {
    public static final Day USUAL = new Day(1, 1, 1);
  }

  /** A day as it comes; deviations beyond 2.5 standard deviations are cut. */
  public Day day(Random random) {
    return new Day(
        1 + supplyScatter * cut(random),
        1 + loadScatter * cut(random),
        1 + stickScatter * cut(random));
  }

  private static double cut(Random random) {
    return Math.max(-2.5, Math.min(2.5, random.nextGaussian()));
  }
}
