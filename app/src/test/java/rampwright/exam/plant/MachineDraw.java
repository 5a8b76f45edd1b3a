package rampwright.exam.plant;

import static rampwright.exam.plant.AssetGenerator.between;

import java.util.Random;

/** Draws a double-cage machine that could be in a catalogue. */
final class MachineDraw {
  private final Random random;

  MachineDraw(Random random) {
    this.random = random;
  }

  /** A machine of that size; drawn again until its starting figures are those of a real one. */
  TrueMachine draw(double powerKw, double lineV, double hz, int polePairs) {
    for (int attempt = 0; attempt < 20000; attempt++) {
      TrueMachine machine = once(powerKw, lineV, hz, polePairs);
      double in = machine.ratedCurrentA();
      double locked = machine.at(1).currentA() / in;
      double torque = machine.at(1).torqueNm() / machine.ratedTorqueNm();
      double breakdown = 0;
      double least = 99;
      for (double s = 1; s > 0.005; s *= 0.95) {
        double now = machine.at(s).torqueNm() / machine.ratedTorqueNm();
        breakdown = Math.max(breakdown, now);
        if (s > 0.3) {
          least = Math.min(least, now);
        }
      }
      double smallest = powerKw < 100 ? 1.1 : 0.8;
      if (locked > 4.8
          && locked < 7.8
          && torque > smallest
          && torque < 2.3
          && breakdown > 1.8
          && breakdown < 3.3
          && least > 0.7 * Math.min(1, torque)) {
        return machine;
      }
    }
    throw new IllegalStateException("no machine of " + powerKw + " kW could be drawn");
  }

  private TrueMachine once(double powerKw, double lineV, double hz, int polePairs) {
    double size = Math.log10(powerKw / 7.5) / Math.log10(630 / 7.5);
    double slip = (0.038 * (1 - size) + 0.008 * size) * between(random, 0.75, 1.3);
    double base = lineV * lineV / (powerKw * 1000 / 0.8);
    double r1 = base * (0.035 * (1 - size) + 0.009 * size) * between(random, 0.8, 1.25);
    double x1 = base * between(random, 0.09, 0.15);
    double xm = base * between(random, 2.2, 4.2) / (1 + 0.15 * (polePairs - 1));
    double ri = base * slip * between(random, 0.9, 1.1);
    double ro = ri * between(random, 2.2, 7);
    double xo = base * between(random, 0.02, 0.09);
    double xi = xo + base * between(random, 0.06, 0.25);
    double depth = between(random, 0.18, 0.38);
    double in = powerKw * 1000 / (Math.sqrt(3) * lineV * 0.8);
    double saturation = in * between(random, 2, 4.5);
    double inertia =
        0.1
            * Math.pow(powerKw / 30, 1.33)
            * polePairs
            * polePairs
            * Math.exp(0.2 * AssetGenerator.cut(random));
    double sync = 2 * Math.PI * hz / polePairs;
    double loss = 0.006 * powerKw * 1000 / sync * between(random, 0.6, 1.6);
    TrueMachine unrated =
        new TrueMachine(
            lineV,
            hz,
            polePairs,
            r1,
            x1,
            xm,
            ro,
            xo,
            ri,
            xi,
            depth,
            saturation,
            in,
            0,
            0,
            0,
            inertia);
    // the slip at which shaft power is rated power
    double low = 1e-5;
    double high = 0.12;
    for (int n = 0; n < 50; n++) {
      double mid = 0.5 * (low + high);
      double shaft = (unrated.at(mid).torqueNm() - loss) * sync * (1 - mid);
      if (shaft < powerKw * 1000) {
        low = mid;
      } else {
        high = mid;
      }
    }
    double rated = 0.5 * (low + high);
    TrueMachine.Point point = unrated.at(rated);
    return new TrueMachine(
        lineV,
        hz,
        polePairs,
        r1,
        x1,
        xm,
        ro,
        xo,
        ri,
        xi,
        depth,
        saturation,
        point.currentA(),
        point.torqueNm() - loss,
        sync * (1 - rated),
        loss,
        inertia);
  }
}
