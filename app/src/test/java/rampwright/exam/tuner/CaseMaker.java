package rampwright.exam.tuner;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import rampwright.exam.plant.AssetGenerator;
import rampwright.exam.plant.Limits;
import rampwright.exam.plant.PlantAsset;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.QuasiSteadyPlant.Conduct;
import rampwright.exam.plant.Setting;
import rampwright.exam.plant.TrueFigures;
import rampwright.exam.plant.TruePlant;

/**
 * Makes questions: an asset, an envelope around settings that were seen to work, and a bad first
 * guess.
 *
 * <p>Achievable: the best fixed settings found meet the envelope on at least nine days in ten.
 * Widths (of a limit against the figure it is made from): peak 4 to 9 % above, start time 15 to 35
 * % below and 15 to 35 % above, dip 8 to 15 %, I2t 5 to 13 %, stop 11 to 22 % below and 20 to 32 %
 * above, deceleration 9 to 20 % above; then rounded as a person would.
 */
public final class CaseMaker {
  private static final double ENOUGH = 0.85;

  private final AssetGenerator generator;
  private final long seed;

  public CaseMaker(long seed) {
    this.seed = seed;
    this.generator = new AssetGenerator(seed);
  }

  /** The achievable question with that number. Assets for which none is found are passed over. */
  public ExamCase achievable(int number) {
    for (int attempt = 0; attempt < 60; attempt++) {
      PlantAsset asset = generator.asset(number + 100_000 * attempt);
      Random random = new Random(seed * 1_000_003L + number * 131L + attempt);
      ExamCase made = attempt(asset, random);
      if (made != null) {
        return made;
      }
    }
    throw new IllegalStateException("no achievable envelope for asset " + number);
  }

  /** The same for a given asset; null when none was found in 60 tries. */
  public @org.jspecify.annotations.Nullable ExamCase achievable(PlantAsset asset) {
    for (int attempt = 0; attempt < 60; attempt++) {
      ExamCase made = attempt(asset, new Random(asset.seed() + attempt));
      if (made != null) {
        return made;
      }
    }
    return null;
  }

  private static @org.jspecify.annotations.Nullable ExamCase attempt(
      PlantAsset asset, Random random) {
    for (int draw = 0; draw < 12; draw++) {
      PlantSettings reference = reference(asset, random);
      Conduct conduct = Conduct.WHOLE;
      if (!works(asset, reference)) {
        continue;
      }
      TrueFigures usual = asset.figures(reference, TruePlant.Day.USUAL, conduct);
      Limits limits = around(usual, reference.softStop(), random);
      PlantSettings best = reference;
      double share = share(asset, limits, best, 40);
      if (share < 0.97) {
        PlantSettings better = improve(asset, limits, reference, random);
        double other = share(asset, limits, better, 40);
        if (other > share) {
          best = better;
          share = other;
        }
      }
      PlantSettings first = share < ENOUGH ? null : badGuess(asset, limits, reference, random);
      if (first != null) {
        return new ExamCase(asset, limits, first, best, share, true, Double.NaN, "");
      }
    }
    return null;
  }

  private static PlantSettings reference(PlantAsset asset, Random random) {
    PlantSettings s = RandomSearch.likely(random, random.nextInt(5) < 3);
    boolean soft =
        switch (asset.trade()) {
          case "pump" -> random.nextInt(5) > 0;
          case "conveyor", "mixer" -> random.nextInt(3) == 0;
          case "fan" -> random.nextInt(4) == 0;
          default -> false;
        };
    s = s.withSoftStop(soft).with(Setting.RAMP_DOWN, s.get(Setting.RAMP_DOWN) + (soft ? 3 : 0));
    int release = new int[] {5, 10, 10, 20, 30}[random.nextInt(5)];
    s = s.with(Setting.RELEASE_TORQUE, release);
    if (random.nextInt(8) == 0) {
      s =
          s.with(Setting.PULSE, 0.2 + 0.6 * random.nextDouble())
              .with(Setting.PULSE_VOLTAGE, 40 + 30 * random.nextDouble());
    }
    return s;
  }

  private static boolean works(PlantAsset asset, PlantSettings s) {
    for (int n = 0; n < 6; n++) {
      TrueFigures f = asset.figures(s, asset.day(900 + n), Conduct.START_ONLY);
      double time = f.get("start_time_s");
      boolean fine =
          f.completed()
              && time > 2.5
              && time < 0.75 * asset.truth().starter().timeLimitS()
              && f.get("peak_current_ratio") < 4.8
              && f.get("i2t_ratio_s") < 220
              && f.get("breakaway_delay_s") < 0.65 * time;
      if (!fine) {
        return false;
      }
    }
    return true;
  }

  private static Limits around(TrueFigures f, boolean soft, Random random) {
    Map<String, Limits.Limit> limits = new LinkedHashMap<>();
    double none = Double.NaN;
    limits.put(
        "peak_current_ratio",
        new Limits.Limit(none, up(f.get("peak_current_ratio") * in(random, 1.035, 1.085), 0.05)));
    double start = f.get("start_time_s");
    limits.put(
        "start_time_s",
        new Limits.Limit(
            down(start * in(random, 0.68, 0.87), 0.1), up(start * in(random, 1.13, 1.33), 0.1)));
    limits.put(
        "voltage_dip_pct",
        new Limits.Limit(none, up(f.get("voltage_dip_pct") * in(random, 1.07, 1.14), 0.5)));
    double i2t = f.get("i2t_ratio_s") * in(random, 1.045, 1.11);
    limits.put("i2t_ratio_s", new Limits.Limit(none, up(i2t, i2t > 100 ? 5 : 1)));
    if (soft) {
      boolean controlled = random.nextBoolean();
      String key = controlled ? "controlled_time_s" : "stop_time_s";
      double time = f.get(key);
      limits.put(
          key,
          new Limits.Limit(
              down(time * in(random, 0.78, 0.89), 0.1), up(time * in(random, 1.2, 1.32), 0.1)));
      if (!controlled) {
        double fall = f.get("stop_deceleration_pct_per_s");
        limits.put(
            "stop_deceleration_pct_per_s",
            new Limits.Limit(none, up(fall * in(random, 1.09, 1.2), 1)));
      }
    }
    return new Limits(limits);
  }

  /** Share of days on which the settings meet the limits. */
  public static double share(PlantAsset asset, Limits limits, PlantSettings s, int days) {
    int met = 0;
    Conduct conduct = limits.onStop() ? Conduct.WHOLE : Conduct.START_ONLY;
    for (int n = 0; n < days; n++) {
      if (limits.met(asset.figures(s, asset.day(500 + n), conduct))) {
        met++;
      }
    }
    return met / (double) days;
  }

  /** Mean over days of the worst excess, cut below at -0.1: the lower the better. */
  private static double badness(PlantAsset asset, Limits limits, PlantSettings s) {
    Conduct conduct = limits.onStop() ? Conduct.WHOLE : Conduct.START_ONLY;
    double sum = 0;
    for (int n = 0; n < 6; n++) {
      double worst = limits.worst(asset.figures(s, asset.day(700 + n), conduct));
      sum += Math.max(-0.1, Math.min(1, worst));
    }
    return sum;
  }

  private static PlantSettings improve(
      PlantAsset asset, Limits limits, PlantSettings from, Random random) {
    PlantSettings best = from;
    double least = badness(asset, limits, from);
    for (int n = 0; n < 30; n++) {
      PlantSettings next = RandomSearch.near(best, random, 0.06);
      double now = badness(asset, limits, next);
      if (now < least) {
        least = now;
        best = next;
      }
    }
    return best;
  }

  private static @org.jspecify.annotations.Nullable PlantSettings badGuess(
      PlantAsset asset, Limits limits, PlantSettings reference, Random random) {
    double[] torques = {5, 15, 20, 20, 30};
    double[] volts = {15, 20, 30, 30, 40, 50};
    double[] ramps = {8, 10, 15, 20, 25, 35};
    double[] currents = {1.8, 2.3, 3, 3, 3.5, 3.5, 4, 4};
    double[] downs = {1, 2, 3, 10, 20};
    double[] releases = {5, 10, 30};
    for (int n = 0; n < 30; n++) {
      PlantSettings s =
          PlantSettings.plain(random.nextBoolean())
              .with(Setting.INITIAL_TORQUE, torques[random.nextInt(torques.length)])
              .with(Setting.INITIAL_VOLTAGE, volts[random.nextInt(volts.length)])
              .with(Setting.RAMP_UP, ramps[random.nextInt(ramps.length)])
              .with(Setting.CURRENT_LIMIT, currents[random.nextInt(currents.length)])
              .with(Setting.RAMP_DOWN, downs[random.nextInt(downs.length)])
              .with(Setting.RELEASE_TORQUE, releases[random.nextInt(releases.length)])
              .withSoftStop(reference.softStop());
      TrueFigures f = asset.figures(s, asset.day(1), Conduct.WHOLE);
      boolean stalledTooOften = !f.completed() && random.nextInt(3) > 0;
      if (!limits.met(f) && !stalledTooOften) {
        return s;
      }
    }
    return null;
  }

  private static double in(Random random, double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  private static double up(double value, double step) {
    double per = 1 / step;
    return step < 1 ? Math.ceil(value * per) / per : Math.ceil(value / step) * step;
  }

  private static double down(double value, double step) {
    return Math.floor(value / step) * step;
  }
}
