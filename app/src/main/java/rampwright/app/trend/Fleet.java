package rampwright.app.trend;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The figures of many assets that want a look, the most pressing first: those beyond a limit, then
 * those that will be (how soon, over how sure), then those that changed (how sure, how much), then
 * those of which some late starts were beyond a limit.
 *
 * @param assets all that were asked about
 * @param rows that want a look
 * @param cannotTell figures with too few starts
 * @param figures all there are
 */
public record Fleet(List<AssetTrend> assets, List<Row> rows, long cannotTell, long figures) {
  private static final double DAYS_PER_YEAR = 365.25;

  public Fleet {
    assets = List.copyOf(assets);
    rows = List.copyOf(rows);
  }

  /** Why a row is there, the most pressing first. */
  public enum Reason {
    BEYOND,
    COMING,
    CHANGED,
    SOME_BEYOND
  }

  /** One figure of one asset. */
  public record Row(AssetTrend asset, FigureTrend figure, Reason reason) {}

  /** Of these assets. */
  public static Fleet of(List<AssetTrend> assets) {
    List<Row> rows = new ArrayList<>();
    long cannotTell = 0;
    long figures = 0;
    for (AssetTrend asset : assets) {
      for (FigureTrend figure : asset.figures()) {
        figures++;
        cannotTell += figure.state() == TrendState.CANNOT_TELL ? 1 : 0;
        reason(figure).ifPresent(reason -> rows.add(new Row(asset, figure, reason)));
      }
    }
    rows.sort(
        Comparator.comparing(Row::reason)
            .thenComparingDouble(row -> order(row.figure(), row.reason()))
            .thenComparing(row -> row.asset().asset()));
    return new Fleet(assets, rows, cannotTell, figures);
  }

  /** The most pressing row of each asset, in order, with the others of it. */
  public List<Pressing> byAsset() {
    Map<String, List<Row>> groups = new LinkedHashMap<>();
    for (Row row : rows) {
      groups.computeIfAbsent(row.asset().asset(), id -> new ArrayList<>()).add(row);
    }
    return groups.values().stream()
        .map(list -> new Pressing(list.get(0), list.subList(1, list.size())))
        .toList();
  }

  /** An asset's most pressing figure, and its others that want a look. */
  public record Pressing(Row first, List<Row> others) {
    public Pressing {
      others = List.copyOf(others);
    }
  }

  /** Whether a figure is one of the rows. */
  public static boolean wantsLook(FigureTrend figure) {
    return reason(figure).isPresent();
  }

  private static Optional<Reason> reason(FigureTrend figure) {
    if (figure.isBeyond()) {
      return Optional.of(Reason.BEYOND);
    }
    if (figure.limit().flatMap(FigureTrend.LimitWatch::reached).isPresent()) {
      return Optional.of(Reason.COMING);
    }
    if (figure.state() == TrendState.STEP || figure.state() == TrendState.DRIFT) {
      return Optional.of(Reason.CHANGED);
    }
    boolean some = figure.limit().map(watch -> watch.lately() > 0).orElse(false);
    return some ? Optional.of(Reason.SOME_BEYOND) : Optional.empty();
  }

  private static double order(FigureTrend figure, Reason reason) {
    return switch (reason) {
      case COMING -> {
        Instant last = figure.corrected().get(figure.corrected().size() - 1).at();
        Instant reached = figure.limit().orElseThrow().reached().orElseThrow().date();
        yield Duration.between(last, reached).toDays() / DAYS_PER_YEAR / figure.chance();
      }
      case CHANGED -> -figure.weight();
      case BEYOND -> -figure.limit().map(w -> Math.abs(w.now() / w.value() - 1)).orElse(0.0);
      case SOME_BEYOND -> -figure.limit().map(FigureTrend.LimitWatch::lately).orElse(0);
    };
  }
}
