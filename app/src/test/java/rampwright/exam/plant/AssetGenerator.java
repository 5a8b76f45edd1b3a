package rampwright.exam.plant;

import java.util.Random;

/**
 * Draws random motor circuits: pumps, fans, conveyors, compressors, mixers and crushers from 7.5 to
 * 630 kW, 2 to 8 poles, 50 and 60 Hz, on weak and strong supplies.
 *
 * <p>Ranges: common practice, no single source; the spread of locked-rotor current (4.8 to 7.8),
 * locked-rotor torque (0.8 to 2.3) and breakdown torque (1.8 to 3.3) is that of catalogue motors of
 * this size.
 */
public final class AssetGenerator {
  private static final double[] POWERS_KW = {
    7.5, 11, 15, 18.5, 22, 30, 37, 45, 55, 75, 90, 110, 132, 160, 200, 250, 315, 355, 400, 500, 630
  };
  private static final String[] TRADES = {
    "pump", "pump", "pump", "fan", "fan", "conveyor", "compressor", "compressor", "mixer", "crusher"
  };

  private final long seed;

  public AssetGenerator(long seed) {
    this.seed = seed;
  }

  /** The asset with that number, any size and trade. */
  public PlantAsset asset(int number) {
    Random random = new Random(mix(seed, number));
    String trade = TRADES[random.nextInt(TRADES.length)];
    double power = POWERS_KW[random.nextInt(POWERS_KW.length)];
    boolean sixty = random.nextInt(5) < 2;
    return asset(number, trade, power, sixty ? 60 : 50, random);
  }

  /** The asset with that number, of a given trade, power and frequency. */
  public PlantAsset asset(int number, String trade, double powerKw, double frequencyHz) {
    return asset(number, trade, powerKw, frequencyHz, new Random(mix(seed, number)));
  }

  private PlantAsset asset(
      int number, String trade, double powerKw, double frequencyHz, Random random) {
    double voltage = frequencyHz == 60 ? 480 : powerKw >= 160 && random.nextInt(3) == 0 ? 690 : 400;
    int[] pairs = {1, 2, 2, 2, 3, 4};
    int polePairs = pairs[random.nextInt(trade.equals("pump") ? 5 : 6)];
    TrueMachine machine = new MachineDraw(random).draw(powerKw, voltage, frequencyHz, polePairs);
    TrueLoad load = new LoadDraw(random).draw(trade, machine);
    double lockedA = machine.at(1).currentA();

    double fall = Math.exp(between(random, Math.log(0.012), Math.log(0.26)));
    double lockedMva = Math.sqrt(3) * voltage * lockedA / 1e6;
    double faultMva = lockedMva / fall;
    double z = voltage * voltage / (faultMva * 1e6);
    double xOverR = between(random, 2, 10);
    double r = z / Math.hypot(1, xOverR);
    double[] lines = uneven(random, 0.004);
    TrueSupply supply =
        new TrueSupply(
            voltage * (1 + 0.025 * random.nextGaussian() * 0.7),
            r,
            r * xOverR,
            lines,
            uneven(random, 0.012));

    AssetSheet sheet = sheet(number, trade, powerKw, machine, load, faultMva, random);
    double[] limits = {30, 45, 60, 60, 60};
    TrueStarter starter =
        new TrueStarter(
            sheet.currentA(),
            1 + 0.05 * cut(random),
            0.02 * cut(random),
            0.03 * cut(random),
            1 + 0.02 * cut(random),
            0.04 * cut(random),
            between(random, 0.1, 0.3),
            between(random, 0.015, 0.03),
            limits[random.nextInt(limits.length)]);
    TruePlant truth = new TruePlant(machine, load, starter, supply, 0.01, 0.025, 0.08);
    TrueMeter meter = meter(sheet, random);
    return new PlantAsset(trade, truth, sheet, meter, mix(seed, number) ^ 0x5eedL);
  }

  private static AssetSheet sheet(
      int number,
      String trade,
      double powerKw,
      TrueMachine machine,
      TrueLoad load,
      double faultMva,
      Random random) {
    double sync = 60 * machine.frequencyHz() / machine.polePairs();
    double speed = machine.ratedSpeedRadPerS() * 30 / Math.PI;
    double slipRpm = (sync - speed) * (1 + 0.07 * cut(random));
    TrueMachine.Point rated = machine.at(1 - machine.ratedSpeedRadPerS() / machine.syncRadPerS());
    TrueMachine.Point locked = machine.at(1);
    double breakdown = 0;
    for (double s = 0.005; s < 1; s *= 1.03) {
      breakdown = Math.max(breakdown, machine.at(s).torqueNm());
    }
    double in = machine.ratedCurrentA();
    double plateA = digits(in * (1 + 0.012 * cut(random)), 3);
    double efficiency =
        100 * powerKw * 1000 / (3 * machine.phaseVoltageV() * rated.currentA() * rated.cosPhi());
    String kind =
        switch (trade) {
          case "pump", "fan" -> "quadratic";
          case "compressor" -> load.ripple() > 0.05 ? "reciprocating" : "linear";
          case "mixer" -> load.ripple() > 0.05 ? "reciprocating" : "linear";
          default -> "constant";
        };
    return new AssetSheet(
        String.format(java.util.Locale.ROOT, "%s-%03d", trade, number),
        powerKw,
        machine.lineVoltageV(),
        plateA,
        machine.frequencyHz(),
        Math.rint(sync - slipRpm),
        Math.rint(100 * (rated.cosPhi() + 0.008 * cut(random))) / 100,
        Math.rint(10 * Math.min(97.8, efficiency * (1 + 0.004 * cut(random)))) / 10,
        Math.rint(10 * locked.currentA() / in * (1 + 0.035 * cut(random))) / 10,
        Math.rint(10 * locked.torqueNm() / machine.ratedTorqueNm() * (1 + 0.06 * cut(random))) / 10,
        Math.rint(10 * breakdown / machine.ratedTorqueNm() * (1 + 0.05 * cut(random))) / 10,
        digits(machine.inertiaKgM2() * (1 + 0.05 * cut(random)), 3),
        digits(1.1 * plateA, 4),
        kind,
        random.nextBoolean() ? digits(load.inertiaKgM2() * (1 + 0.1 * cut(random)), 2) : Double.NaN,
        random.nextInt(5) > 0 ? digits(faultMva * (1 + 0.08 * cut(random)), 2) : Double.NaN);
  }

  private static TrueMeter meter(AssetSheet sheet, Random random) {
    double[] rates = {10, 20, 25, 25, 25, 50};
    double[] gains = new double[6];
    for (int n = 0; n < 6; n++) {
      gains[n] = 1 + 0.004 * cut(random);
    }
    double stepA = sheet.currentA() > 400 ? 1 : 0.1;
    boolean speed = random.nextBoolean();
    return new TrueMeter(
        rates[random.nextInt(rates.length)],
        gains,
        0.003,
        0.0012 * sheet.currentA(),
        stepA,
        1,
        speed ? (random.nextBoolean() ? 1 : 0.1) : Double.NaN,
        0.06,
        random.nextBoolean() ? 0 : between(random, 0.0005, 0.008));
  }

  private static double[] uneven(Random random, double spread) {
    double a = spread * cut(random);
    double b = spread * cut(random);
    return new double[] {1 + a, 1 + b, 1 - a - b};
  }

  static double between(Random random, double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  /** Standard normal, cut at two. */
  static double cut(Random random) {
    return Math.max(-2, Math.min(2, random.nextGaussian()));
  }

  static double digits(double value, int digits) {
    return new java.math.BigDecimal(value).round(new java.math.MathContext(digits)).doubleValue();
  }

  private static long mix(long seed, int number) {
    long z = seed * 0x9E3779B97F4A7C15L + number * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 30)) * 0x94D049BB133111EBL;
    return z ^ (z >>> 31);
  }
}
