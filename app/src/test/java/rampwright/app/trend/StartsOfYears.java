package rampwright.app.trend;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * Simulated years of starts of one asset, made without the trend's own model: noise with a heavy
 * tail, a yearly wave, a supply that moves, months without starts.
 */
public final class StartsOfYears {
  private static final Instant BEGIN = Instant.parse("2020-03-01T06:00:00Z");
  private static final double SECONDS_PER_YEAR = 365.25 * 86_400;

  private final Random chance;
  private double perYear = 200;
  private double scatter = 0.05;
  private double season = 0.02;
  private double step;
  private int stepAt = Integer.MAX_VALUE;
  private double driftPerYear;
  private double driftFromYears;

  public StartsOfYears(long seed) {
    chance = new Random(seed);
  }

  public StartsOfYears perYear(double starts) {
    perYear = starts;
    return this;
  }

  public StartsOfYears scatter(double relative) {
    scatter = relative;
    return this;
  }

  public StartsOfYears season(double relative) {
    season = relative;
    return this;
  }

  public StartsOfYears step(double relative, int atStart) {
    step = relative;
    stepAt = atStart;
    return this;
  }

  public StartsOfYears drift(double relativePerYear, double fromYears) {
    driftPerYear = relativePerYear;
    driftFromYears = fromYears;
    return this;
  }

  /** The first {@code n} starts of a figure around 10. */
  public List<LoggedStart> make(int n) {
    List<LoggedStart> starts = new ArrayList<>();
    double phase = 2 * Math.PI * chance.nextDouble();
    double exponent = -3 * chance.nextDouble();
    double years = 0;
    for (int i = 0; i < n; i++) {
      years += -Math.log(1 - chance.nextDouble()) / perYear;
      years += chance.nextDouble() < 0.003 ? 0.1 : 0;
      double voltage = 400 * (1 + 0.015 * chance.nextGaussian());
      double noise = scatter * chance.nextGaussian() * (chance.nextDouble() < 0.01 ? 5 : 1);
      double value = 10 * (1 + noise) * (1 + season * Math.sin(2 * Math.PI * years + phase));
      value *= Math.pow(voltage / 400, exponent);
      value *= i >= stepAt ? 1 + step : 1;
      value *= 1 + driftPerYear * Math.max(0, years - driftFromYears);
      starts.add(new LoggedStart(at(years), "as set", value, voltage, true));
    }
    return starts;
  }

  /** When a drift without noise and season has grown by this much. */
  public Instant grownBy(double relative) {
    return at(driftFromYears + relative / driftPerYear);
  }

  private static Instant at(double years) {
    return BEGIN.plus(Duration.ofSeconds(Math.round(years * SECONDS_PER_YEAR)));
  }
}
