package rampwright.exam.tuner;

import java.nio.file.Path;
import java.util.Random;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.Setting;

/** Tries something: anything likely at first, later mostly something near the best so far. */
public final class RandomSearch implements Adviser {
  @Override
  public String name() {
    return "random search";
  }

  @Override
  public Proposal next(Path folder, Told told) {
    Random random = new Random(told.seed() * 37 + told.trials().size());
    Seen best = told.trials().get(0);
    for (Seen seen : told.trials()) {
      if (told.limits().worst(seen.figures()) < told.limits().worst(best.figures())) {
        best = seen;
      }
    }
    boolean stopStays = best.settings().softStop();
    boolean near = told.trials().size() > 2 && random.nextBoolean();
    PlantSettings next =
        near
            ? near(best.settings(), random, 0.2)
            : likely(random, random.nextBoolean()).withSoftStop(stopStays);
    return new Proposal("change", next, Double.NaN);
  }

  /** Settings anybody might begin with. */
  public static PlantSettings likely(Random random, boolean torqueRamp) {
    return PlantSettings.plain(torqueRamp)
        .with(Setting.INITIAL_TORQUE, 5 + 40 * random.nextDouble())
        .with(Setting.INITIAL_VOLTAGE, 25 + 45 * random.nextDouble())
        .with(Setting.RAMP_UP, Math.exp(Math.log(45) * random.nextDouble()))
        .with(Setting.CURRENT_LIMIT, 2 + 3.2 * random.nextDouble())
        .with(Setting.RAMP_DOWN, 2 * Math.exp(Math.log(15) * random.nextDouble()))
        .with(Setting.RELEASE_TORQUE, 5 + 25 * random.nextDouble());
  }

  /** Every setting moved by about the given share of itself. */
  public static PlantSettings near(PlantSettings settings, Random random, double share) {
    PlantSettings next = settings;
    for (Setting setting : Setting.values()) {
      boolean pulse = setting == Setting.PULSE || setting == Setting.PULSE_VOLTAGE;
      if (!pulse && random.nextInt(3) > 0) {
        double now = settings.get(setting);
        next = next.with(setting, now * Math.exp(share * random.nextGaussian()) + 0.01);
      }
    }
    return next;
  }
}
