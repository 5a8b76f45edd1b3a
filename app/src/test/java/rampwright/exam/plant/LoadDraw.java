package rampwright.exam.plant;

import static rampwright.exam.plant.AssetGenerator.between;

import java.util.Random;

/** Draws a load that is nearly, but not quite, the textbook one of its kind. */
final class LoadDraw {
  private final Random random;

  LoadDraw(Random random) {
    this.random = random;
  }

  TrueLoad draw(String trade, TrueMachine machine) {
    double rated = machine.ratedTorqueNm();
    double motor = machine.inertiaKgM2();
    return switch (trade) {
      case "pump" ->
          load(
              trade,
              machine,
              rated * between(random, 0.6, 0.95),
              between(random, 0.04, 0.14),
              between(random, 1.7, 2.3),
              rated * between(random, 0.08, 0.26),
              0,
              motor * between(random, 0.1, 0.6));
      case "fan" ->
          load(
              trade,
              machine,
              rated * between(random, 0.55, 0.92),
              between(random, 0.03, 0.1),
              between(random, 1.8, 2.2),
              rated * between(random, 0.06, 0.2),
              0,
              motor * between(random, 3, 9));
      case "conveyor" ->
          load(
              trade,
              machine,
              rated * between(random, 0.35, 0.75),
              between(random, 0.8, 0.97),
              between(random, 0.8, 1.6),
              rated * between(random, 0.5, 0.95),
              0,
              motor * between(random, 1, 4));
      case "compressor" -> {
        boolean piston = random.nextBoolean();
        yield load(
            trade,
            machine,
            rated * between(random, 0.25, 0.7),
            between(random, 0.35, 0.75),
            between(random, 0.8, 1.6),
            rated * between(random, 0.25, 0.55),
            piston ? between(random, 0.15, 0.35) : 0,
            motor * between(random, 0.5, 1.8));
      }
      case "mixer" -> {
        boolean lumps = random.nextInt(3) == 0;
        yield load(
            trade,
            machine,
            rated * between(random, 0.5, 0.9),
            between(random, 0.2, 0.5),
            between(random, 0.8, 1.5),
            rated * between(random, 0.25, 0.6),
            lumps ? between(random, 0.1, 0.25) : 0,
            motor * between(random, 0.5, 3));
      }
      case "crusher" ->
          load(
              trade,
              machine,
              rated * between(random, 0.25, 0.5),
              between(random, 0.7, 0.95),
              between(random, 0.8, 1.6),
              rated * between(random, 0.35, 0.65),
              0,
              motor * between(random, 4, 9));
      default -> throw new IllegalArgumentException("no load is known for a " + trade);
    };
  }

  private TrueLoad load(
      String trade,
      TrueMachine machine,
      double full,
      double floor,
      double exponent,
      double stick,
      double ripple,
      double inertia) {
    return new TrueLoad(
        trade,
        full,
        machine.ratedSpeedRadPerS(),
        floor,
        exponent,
        Math.max(stick, 1.05 * full * floor),
        between(random, 0.03, 0.09),
        ripple,
        1 + random.nextInt(2),
        inertia);
  }
}
