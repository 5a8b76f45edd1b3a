package rampwright.app.cli;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rampwright.app.trend.AssetTrend;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.TrendState;

/** Trends for people. */
final class TrendText {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("yyyy-MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);

  private final Screen screen;

  TrendText(Screen screen) {
    this.screen = screen;
  }

  private record Row(String asset, FigureTrend trend) {}

  /** All rows; {@code one}: a single asset, every figure with what it rests on. */
  void print(List<AssetTrend> assets, boolean one) {
    List<Row> rows = new ArrayList<>();
    for (AssetTrend asset : assets) {
      asset.figures().forEach(trend -> rows.add(new Row(asset.asset(), trend)));
    }
    if (assets.isEmpty()) {
      screen.line("the logbook holds no starts yet; enter some with: rampwright logbook import");
      return;
    }
    List<Row> changed =
        rows.stream()
            .filter(row -> row.trend().chance() > 0 && row.trend().state() != TrendState.STEADY)
            .sorted(
                Comparator.comparing((Row row) -> soonest(row.trend()))
                    .thenComparing(row -> -row.trend().chance()))
            .toList();
    if (one) {
      table(rows, false);
    } else {
      table(changed, true);
    }
    for (Row row : changed) {
      screen.line("");
      screen.line((one ? "" : row.asset() + " ") + row.trend().figure() + ": " + row.trend().why());
    }
    if (!one) {
      summary(assets, rows, changed);
    }
  }

  private static Instant soonest(FigureTrend trend) {
    return trend
        .limit()
        .flatMap(FigureTrend.LimitWatch::reached)
        .map(FigureTrend.Reached::date)
        .orElse(Instant.MAX);
  }

  private void table(List<Row> rows, boolean withAsset) {
    if (rows.isEmpty()) {
      return;
    }
    TextTable table =
        new TextTable(
            "",
            withAsset ? "lllrrlll" : "llrrlll",
            first(
                withAsset,
                "asset",
                "figure",
                "state",
                "usual",
                "change",
                "since",
                "sure",
                "limit reached"));
    for (Row row : rows) {
      FigureTrend trend = row.trend();
      table.row(
          first(
              withAsset,
              row.asset(),
              trend.figure(),
              trend.state().word(),
              trend
                  .baseline()
                  .map(b -> String.format(Locale.ROOT, "%.4g", b.median()))
                  .orElse(trend.n() + " starts"),
              change(trend),
              trend.state() == TrendState.STEADY ? "" : trend.since().map(DAY::format).orElse(""),
              trend.chance() > 0 ? String.format(Locale.ROOT, "%.0f %%", 100 * trend.chance()) : "",
              reached(trend)));
    }
    screen.table(table);
  }

  /** The cells, the first of them only where the asset is shown. */
  private static String[] first(boolean withAsset, String... cells) {
    return withAsset ? cells : Arrays.copyOfRange(cells, 1, cells.length);
  }

  private static String change(FigureTrend trend) {
    Optional<String> drift =
        trend.drift().map(d -> String.format(Locale.ROOT, "%+.1f %%/year", d.pctPerYear()));
    return drift.orElseGet(
        () ->
            trend.step().map(s -> String.format(Locale.ROOT, "%+.1f %%", s.sizePct())).orElse(""));
  }

  private static String reached(FigureTrend trend) {
    if (trend.limit().isEmpty()) {
      return "";
    }
    return trend
        .limit()
        .get()
        .reached()
        .map(
            r ->
                DAY.format(r.date())
                    + " ("
                    + DAY.format(r.low())
                    + " to "
                    + r.high().map(DAY::format).orElse("not in sight")
                    + ")")
        .orElse("not in sight");
  }

  private void summary(List<AssetTrend> assets, List<Row> rows, List<Row> changed) {
    long cannotTell =
        rows.stream().filter(row -> row.trend().state() == TrendState.CANNOT_TELL).count();
    screen.line(changed.isEmpty() ? "no figure changed beyond its scatter" : "");
    screen.line(
        assets.size()
            + (assets.size() == 1 ? " asset, " : " assets, ")
            + rows.size()
            + " figures: "
            + changed.size()
            + " changed, "
            + (rows.size() - changed.size() - cannotTell)
            + " steady, "
            + cannotTell
            + " with too few starts to tell");
  }
}
