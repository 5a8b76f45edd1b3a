package rampwright.app.trend;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * How much a figure changed along with another one: its regression on the other's step or drift,
 * conditions fitted along.
 *
 * @param pct change of the figure by now, % of what it was before
 * @param sePct standard error of it
 */
record Shift(double pct, double sePct) {
  /** Smallest change worth a word, %: as for a figure by itself. */
  private static final double LEAST_PCT = 100 * ChangeModel.LEAST_SIZE;

  /** Standard errors from which a change is taken as one. */
  private static final double CLEAR = 2.5;

  private static final double LOOSE = 10;

  /** What a figure was before counts for no less than this share of its median. */
  private static final double LEAST_BASE = 0.05;

  /** Name of the supply's impedance as the start shows it: its dip over its current. */
  static final String DIP_PER_CURRENT = "voltage_dip_pct / peak_current_ratio";

  /** The change of one figure divided by another; the two taken as independent. */
  private Shift over(Shift other) {
    double ratio = (100 + pct) / Math.max(1, 100 + other.pct);
    return new Shift(100 * (ratio - 1), Math.hypot(sePct, ratio * other.sePct));
  }

  /** Whether it changed, in that direction. */
  boolean isClear(int sign) {
    return sign * pct >= LEAST_PCT && sign * pct > CLEAR * sePct;
  }

  /** Whether it has certainly changed by less than this. */
  boolean isWithin(double mostPct) {
    return Math.abs(pct) + 2 * sePct < mostPct;
  }

  /** Changes of all figures along with the surest one; nothing where none is said. */
  static Optional<Together> together(List<TrendQuestion> questions, List<FigureTrend> trends) {
    FigureTrend surest = null;
    for (FigureTrend trend : trends) {
      boolean changed = trend.state() == TrendState.STEP || trend.state() == TrendState.DRIFT;
      if (changed && (surest == null || trend.weight() > surest.weight())) {
        surest = trend;
      }
    }
    if (surest == null || surest.since().isEmpty()) {
      return Optional.empty();
    }
    Map<String, Shift> shifts = new LinkedHashMap<>();
    Preparation preparation = new Preparation();
    for (TrendQuestion question : questions) {
      Epoch epoch = preparation.epoch(question);
      if (epoch.starts().size() >= Trends.FEWEST) {
        FigureTrend led = surest;
        preparation
            .prepared(epoch)
            .flatMap(of -> along(of, led))
            .ifPresent(shift -> shifts.put(question.figure(), shift));
      }
    }
    Shift dip = shifts.get("voltage_dip_pct");
    Shift peak = shifts.get("peak_current_ratio");
    if (dip != null && peak != null) {
      shifts.put(DIP_PER_CURRENT, dip.over(peak));
    }
    return Optional.of(new Together(surest, shifts));
  }

  /**
   * What changed together.
   *
   * @param led by this figure
   * @param shifts of every figure that carries enough starts
   */
  record Together(FigureTrend led, Map<String, Shift> shifts) {}

  private static Optional<Shift> along(Prepared ready, FigureTrend led) {
    int n = ready.raw().length;
    boolean drifts = led.state() == TrendState.DRIFT;
    double[] shape = new double[n];
    int before = 0;
    for (int i = 0; i < n; i++) {
      boolean after = !ready.starts().at(i).isBefore(led.since().orElseThrow());
      before += after ? 0 : 1;
      shape[i] = after ? drifts ? ready.timeYears()[i] - ready.timeYears()[before] : 1 : 0;
    }
    double last = shape[n - 1];
    if (!(last > 0) || (!drifts && (before < 4 || n - before < ChangeSearch.FEWEST_AFTER))) {
      return Optional.empty();
    }
    Arrays.setAll(shape, i -> shape[i] / last);
    Conditions conditions = ready.conditions();
    WeightedFit fit =
        new WeightedFit(
                ready.relative(),
                ready.weights(),
                conditions.columns(),
                conditions.priors(),
                ready.sd(),
                conditions.gram(),
                null)
            .with(shape, LOOSE);
    int term = fit.terms() - 1;
    double freedom = Math.max(1, fit.weightSum() - fit.terms());
    double sd = Math.max(ready.sd(), Math.sqrt(fit.rss() / freedom));
    double usual = Math.signum(ready.median()) + fit.coefficient(0);
    double pct = 100 / Math.max(LEAST_BASE, Math.abs(usual));
    return Optional.of(
        new Shift(
            pct * fit.coefficient(term), pct * sd * Math.sqrt(fit.unitCovariance(term, term))));
  }
}
