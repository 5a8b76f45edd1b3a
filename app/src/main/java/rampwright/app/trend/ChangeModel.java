package rampwright.app.trend;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The fewest steps and drifts that explain a record, found one after another, conditions fitted
 * along.
 */
final class ChangeModel {
  /** Correlation of neighbours is counted from this many standard errors of it. */
  private static final double CLEAR_CORRELATION = 2;

  private static final double MOST_CORRELATION = 0.9;

  /**
   * Most that correlation of neighbours can add to the log of the odds: it takes from what a change
   * explains, and leaves of the price for its size the square root of its inflation at most.
   */
  private static final double MOST_BY_INFLATION =
      0.5 * Math.log((1 + MOST_CORRELATION) / (1 - MOST_CORRELATION));

  /**
   * Chance from which a change is said: twice as likely as not. Chosen on simulated years, between
   * false alarms and delay; `docs/trend.md` has both.
   */
  static final double SAID_FROM = 2.0 / 3;

  /** The same for a further change beside one already found: two are rarer than one. */
  private static final double MORE_FROM = 0.75;

  /** Smallest change worth a word, relative to the baseline. */
  static final double LEAST_SIZE = 0.02;

  private static final int MOST_CHANGES = 8;
  private static final double LOOSE = 10;

  private final double[] y;
  private final double[] timeYears;
  private final Conditions conditions;
  private final double sdOfNeighbours;
  private final List<Change> changes = new ArrayList<>();
  private final WeightedFit steady;
  private WeightedFit fit;
  private double inflation = 1;

  private ChangeModel(
      double[] y, double[] timeYears, double[] weights, Conditions conditions, double sd) {
    this.y = y;
    this.timeYears = timeYears;
    this.conditions = conditions;
    this.sdOfNeighbours = sd;
    this.steady =
        new WeightedFit(
            y, weights, conditions.columns(), conditions.priors(), sd, conditions.gram(), null);
    this.fit = steady;
  }

  /**
   * Of values in order of time.
   *
   * @param y values relative to their median
   * @param sd standard deviation of one value, from neighbours
   */
  static ChangeModel of(
      double[] y, double[] timeYears, double[] weights, Conditions conditions, double sd) {
    ChangeModel model = new ChangeModel(y, timeYears, weights, conditions, sd);
    boolean more = true;
    while (more && model.changes.size() < MOST_CHANGES) {
      more = model.addOne();
    }
    model.measure();
    return model;
  }

  private boolean addOne() {
    ChangeSearch search = ChangeSearch.of(fit, timeYears, sdOfNeighbours, 1);
    double from = changes.isEmpty() ? SAID_FROM : MORE_FROM;
    if (logOdds(search) < Math.log(from / (1 - from)) - MOST_BY_INFLATION) {
      return false;
    }
    Change likely = best(search, 0);
    WeightedFit tried = wider(likely);
    double correlated = inflationOf(tried);
    if (correlated > 1) {
      search = ChangeSearch.of(fit, timeYears, sdOfNeighbours, correlated);
    }
    double step = Math.exp(Math.min(500, search.logStep()));
    double drift = Math.exp(Math.min(500, search.logDrift()));
    double chance = (step + drift) / (1 + step + drift);
    if (!(chance >= from)) {
      return false;
    }
    Change found = best(search, chance);
    WeightedFit wider = correlated > 1 ? wider(found) : tried;
    double size = Math.abs(wider.coefficient(wider.terms() - 1));
    double lasts = lastTimeYears() - timeYears[found.first()];
    if ((found.kind() == Change.Kind.STEP ? size : size * lasts) < LEAST_SIZE) {
      return false;
    }
    changes.add(found);
    fit = wider;
    inflation = correlated;
    return true;
  }

  private static double logOdds(ChangeSearch search) {
    double most = Math.max(search.logStep(), search.logDrift());
    double least = Math.min(search.logStep(), search.logDrift());
    return most == Double.NEGATIVE_INFINITY ? most : most + Math.log1p(Math.exp(least - most));
  }

  private static Change best(ChangeSearch search, double chance) {
    return search.logStep() >= search.logDrift()
        ? new Change(Change.Kind.STEP, search.bestStep(), 0, chance)
        : new Change(Change.Kind.DRIFT, search.bestDrift(), 0, chance);
  }

  /** What is fitted by now with a further change. */
  private WeightedFit wider(Change further) {
    return fit.with(column(further.kind(), further.first()), LOOSE);
  }

  private void measure() {
    int first = conditions.columns().length;
    for (int i = 0; i < changes.size(); i++) {
      Change found = changes.get(i);
      changes.set(
          i, new Change(found.kind(), found.first(), fit.coefficient(first + i), found.chance()));
    }
  }

  private WeightedFit fitWith(List<Change> terms) {
    WeightedFit with = steady;
    for (Change term : terms) {
      with = with.with(column(term.kind(), term.first()), LOOSE);
    }
    return with;
  }

  private double[] column(Change.Kind kind, int first) {
    double[] column = new double[y.length];
    for (int i = first; i < column.length; i++) {
      column[i] = kind == Change.Kind.STEP ? 1 : timeYears[i] - timeYears[first];
    }
    return column;
  }

  /** (1 + r) / (1 - r) of the correlation r of neighbours, where that is clearly above 0. */
  private double inflationOf(WeightedFit of) {
    int n = of.size();
    double squares = 0;
    double products = 0;
    for (int i = 0; i < n; i++) {
      double here = Math.sqrt(of.weight(i)) * of.residual(i);
      squares += here * here;
      if (i > 0) {
        products += here * Math.sqrt(of.weight(i - 1)) * of.residual(i - 1);
      }
    }
    double r = squares > 0 ? products / squares : 0;
    double clear = CLEAR_CORRELATION / Math.sqrt(n);
    return r <= clear
        ? 1
        : (1 + Math.min(MOST_CORRELATION, r)) / (1 - Math.min(MOST_CORRELATION, r));
  }

  /** Of one value about the fit, the correlation of neighbours counted in. */
  double variance() {
    double freedom = Math.max(1, fit.weightSum() - fit.terms());
    return Math.max(sdOfNeighbours * sdOfNeighbours, fit.rss() / freedom) * inflation;
  }

  double freedom() {
    return Math.max(1, (fit.weightSum() - fit.terms()) / inflation);
  }

  List<Change> changes() {
    return List.copyOf(changes);
  }

  double lastTimeYears() {
    return timeYears[timeYears.length - 1];
  }

  /** What conditions add to each start, relative: its voltage, its warmth, its season. */
  double[] byConditions() {
    return sumOf(1, conditions.columns().length);
  }

  /** What steps and drifts have added by each start, relative. */
  double[] byChanges() {
    return sumOf(conditions.columns().length, fit.terms());
  }

  /** The model's level in usual conditions before any change, relative. */
  double level() {
    return fit.coefficient(0);
  }

  private double[] sumOf(int first, int end) {
    double[] sum = new double[y.length];
    for (int a = first; a < end; a++) {
      fit.addTo(sum, a);
    }
    return sum;
  }

  /** The sum of all steps, and its standard deviation. */
  double[] stepsTogether() {
    int first = conditions.columns().length;
    double sum = 0;
    double square = 0;
    for (int i = 0; i < changes.size(); i++) {
      if (changes.get(i).kind() == Change.Kind.STEP) {
        sum += changes.get(i).size();
        for (int j = 0; j < changes.size(); j++) {
          if (changes.get(j).kind() == Change.Kind.STEP) {
            square += fit.unitCovariance(first + i, first + j);
          }
        }
      }
    }
    return new double[] {sum, Math.sqrt(Math.max(0, square) * variance())};
  }

  /** Chance of each place of a change, the others as found. */
  double[] places(Change change) {
    List<Change> others = new ArrayList<>(changes);
    others.remove(change);
    ChangeSearch search = ChangeSearch.of(fitWith(others), timeYears, sdOfNeighbours, inflation);
    return change.kind() == Change.Kind.STEP ? search.stepPlaces() : search.driftBegins();
  }

  Optional<Change> last(Change.Kind kind) {
    return changes.stream()
        .filter(change -> change.kind() == kind)
        .max(Comparator.comparingInt(Change::first));
  }

  double[] lastDriftBegins() {
    return places(last(Change.Kind.DRIFT).orElseThrow());
  }

  /** Where the figure is and goes if the last drift began at this start. */
  LimitForecast.NowAndSlope nowAndSlope(int begin) {
    List<Change> terms = new ArrayList<>(changes);
    Change last = last(Change.Kind.DRIFT).orElseThrow();
    terms.remove(last);
    terms.add(new Change(Change.Kind.DRIFT, begin, 0, 0));
    WeightedFit moved = fitWith(terms);
    int first = conditions.columns().length;
    int n = y.length;
    double[] now = new double[moved.terms()];
    double[] slope = new double[moved.terms()];
    now[0] = 1;
    for (int i = 0; i < terms.size(); i++) {
      now[first + i] = moved.column(first + i, n - 1);
      slope[first + i] = terms.get(i).kind() == Change.Kind.DRIFT ? 1 : 0;
    }
    double variance = variance();
    double nowSd = Math.sqrt(moved.unitCovariance(now, now) * variance);
    double slopeSd = Math.sqrt(moved.unitCovariance(slope, slope) * variance);
    double both = moved.unitCovariance(now, slope) * variance;
    return new LimitForecast.NowAndSlope(
        moved.value(now),
        nowSd,
        moved.value(slope),
        slopeSd,
        nowSd > 0 && slopeSd > 0 ? Math.max(-1, Math.min(1, both / nowSd / slopeSd)) : 0,
        freedom());
  }
}
