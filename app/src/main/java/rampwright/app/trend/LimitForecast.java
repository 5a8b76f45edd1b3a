package rampwright.app.trend;

import java.util.Arrays;
import java.util.Optional;
import java.util.Random;

/**
 * When a drifting figure reaches a limit: many draws of where the drift began, how steep it is and
 * where the figure now is, each extended straight. Its interval is wide while these are unsure.
 */
final class LimitForecast {
  private static final int DRAWS = 4000;
  private static final long SEED = 20_061;

  /** Farther than this is not in sight, years. */
  private static final double SIGHT_YEARS = 20;

  private final double[] nows;
  private final double[] slopes;
  private final double lastYears;

  /**
   * Made of its parts.
   *
   * @param nows draws of the figure in usual conditions at the last start, relative
   * @param slopes draws of its slope then, per year
   * @param lastYears time of the last start
   */
  private LimitForecast(double[] nows, double[] slopes, double lastYears) {
    this.nows = nows;
    this.slopes = slopes;
    this.lastYears = lastYears;
  }

  static LimitForecast of(ChangeModel model) {
    Random chance = new Random(SEED);
    double[] begins = model.lastDriftBegins();
    double[] nows = new double[DRAWS];
    double[] slopes = new double[DRAWS];
    int at = 0;
    double carried = 0;
    for (int k = 0; k < begins.length && at < DRAWS; k++) {
      carried += begins[k] * DRAWS;
      int here = (int) Math.round(carried) - at;
      if (here > 0) {
        int end = Math.min(DRAWS, at + here);
        draw(model.nowAndSlope(k), chance, nows, slopes, at, end);
        at = end;
      }
    }
    return new LimitForecast(
        Arrays.copyOf(nows, at), Arrays.copyOf(slopes, at), model.lastTimeYears());
  }

  private static void draw(
      NowAndSlope place, Random chance, double[] nows, double[] slopes, int from, int to) {
    double r = place.correlation();
    double rest = Math.sqrt(1 - r * r);
    for (int i = from; i < to; i++) {
      double spread = Math.sqrt(place.freedom() / chiSquared(chance, place.freedom()));
      double first = chance.nextGaussian() * spread;
      double second = chance.nextGaussian() * spread;
      slopes[i] = place.slope() + place.slopeSd() * first;
      nows[i] = place.now() + place.nowSd() * (r * first + rest * second);
    }
  }

  /** Normal approximation of Wilson and Hilferty; good to a percent from 3 degrees of freedom. */
  private static double chiSquared(Random chance, double freedom) {
    double a = 2 / (9 * Math.max(3, freedom));
    double cube = 1 - a + chance.nextGaussian() * Math.sqrt(a);
    return freedom * Math.max(0.05, cube * cube * cube);
  }

  /** Quantile of the slope's draws, per year, relative. */
  double slope(double share) {
    return quantile(slopes, share);
  }

  /**
   * Time at which the limit is reached, as quantiles 5, 50 and 95 %, in years on the record's own
   * time; infinite where it may as well never be. Nothing where it is not in sight.
   */
  Optional<double[]> reaches(double limit, boolean upper) {
    double[] times = new double[nows.length];
    for (int i = 0; i < times.length; i++) {
      double left = upper ? limit - nows[i] : nows[i] - limit;
      double pace = upper ? slopes[i] : -slopes[i];
      double wait = pace > 0 ? left / pace : left <= 0 ? 0 : Double.POSITIVE_INFINITY;
      times[i] = wait > SIGHT_YEARS ? Double.POSITIVE_INFINITY : lastYears + wait;
    }
    double[] three = {quantile(times, 0.05), quantile(times, 0.5), quantile(times, 0.95)};
    return Double.isInfinite(three[1]) ? Optional.empty() : Optional.of(three);
  }

  private static double quantile(double[] values, double share) {
    int place = (int) Math.min(values.length - 1.0, Math.floor(share * values.length));
    return RobustScale.select(values.clone(), place);
  }

  /**
   * Where the figure is and goes, for one beginning of the drift.
   *
   * @param now relative
   * @param slope per year
   * @param correlation of the two
   * @param freedom of their variances
   */
  record NowAndSlope(
      double now, double nowSd, double slope, double slopeSd, double correlation, double freedom) {}
}
