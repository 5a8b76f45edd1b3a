package rampwright.app.cli;

import java.util.List;
import java.util.stream.Collectors;
import rampwright.app.alert.StandingAlert;
import rampwright.app.trend.AssetTrend;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.Fleet;
import rampwright.app.trend.Lead;
import rampwright.app.trend.LimitWords;
import rampwright.app.trend.TrendState;
import rampwright.app.usecase.RaiseAlerts;

/** Trends for people. */
final class TrendText {
  /** Rows of a fleet that are explained in words below the table. */
  private static final int MOST_EXPLAINED = 20;

  private final Screen screen;
  private final SparkText spark;

  TrendText(Screen screen, SparkText spark) {
    this.screen = screen;
    this.spark = spark;
  }

  /** All rows; {@code one}: a single asset, every figure with what it rests on. */
  void print(List<AssetTrend> assets, boolean one) {
    if (assets.isEmpty()) {
      screen.line("the logbook holds no starts yet; enter some with: rampwright logbook import");
      return;
    }
    Fleet fleet = Fleet.of(assets);
    if (one) {
      asset(assets.get(0));
    } else {
      table(fleet);
    }
    (one ? fleet.rows() : fleet.byAsset().stream().map(Fleet.Pressing::first).toList())
        .stream().limit(MOST_EXPLAINED).forEach(row -> why(row, one));
    assets.forEach(asset -> leads(asset, one));
    if (!one) {
      summary(fleet);
    }
  }

  /** What an unattended run did. */
  void alerts(RaiseAlerts.Outcome outcome) {
    for (StandingAlert alert : outcome.standing()) {
      screen.prose("", alert.raised().asset() + " " + alert.words());
    }
    long unseen = outcome.standing().stream().filter(alert -> !alert.isSeen()).count();
    screen.line(
        outcome.raised()
            + " raised, "
            + outcome.cleared()
            + " cleared; "
            + outcome.standing().size()
            + (outcome.standing().size() == 1 ? " stands, " : " stand, ")
            + unseen
            + " of them not seen");
  }

  private void table(Fleet fleet) {
    if (fleet.rows().isEmpty()) {
      return;
    }
    TextTable table =
        new TextTable(
            "", "wwllrll", "asset", "group", "figure", "course", "change", "since", "sure");
    for (Fleet.Pressing pressing : fleet.byAsset()) {
      Fleet.Row row = pressing.first();
      FigureTrend trend = row.figure();
      String name = row.asset().facts().name();
      LimitWords words = new LimitWords(row.asset().facts().zone());
      table.row(
          row.asset().asset() + (name.isEmpty() ? "" : " " + name),
          row.asset().facts().group(),
          trend.figure(),
          spark.of(trend),
          words.change(trend),
          words.since(trend),
          LimitWords.sure(trend));
      String limit = words.limit(trend);
      table.under(limit.isEmpty() ? null : "limit: " + limit);
      if (!pressing.others().isEmpty()) {
        table.under(
            "also: "
                + pressing.others().stream()
                    .map(other -> also(other, words))
                    .collect(Collectors.joining(", ")));
      }
    }
    screen.table(table);
  }

  private static String also(Fleet.Row row, LimitWords words) {
    String change = words.change(row.figure());
    return row.figure().figure() + " " + (change.isEmpty() ? words.limit(row.figure()) : change);
  }

  private void asset(AssetTrend asset) {
    String name = asset.facts().name();
    String group = asset.facts().group();
    screen.line(
        asset.asset()
            + (name.isEmpty() ? "" : ", " + name)
            + (group.isEmpty() ? "" : " (" + group + ")")
            + ", days in "
            + asset.facts().zone().getId());
    TextTable table =
        new TextTable(
            "",
            "lllrrllw",
            "figure",
            "course",
            "state",
            "usual",
            "change",
            "since",
            "sure",
            "limit");
    LimitWords words = new LimitWords(asset.facts().zone());
    for (FigureTrend trend : asset.figures()) {
      table.row(
          trend.figure(),
          spark.of(trend),
          trend.state().word(),
          LimitWords.usual(trend),
          words.change(trend),
          words.since(trend),
          LimitWords.sure(trend),
          words.limit(trend));
    }
    screen.table(table);
    asset.figures().stream()
        .filter(trend -> trend.state() == TrendState.CANNOT_TELL)
        .findFirst()
        .ifPresent(trend -> screen.prose("", "cannot tell: " + trend.why()));
  }

  private void why(Fleet.Row row, boolean one) {
    if (row.figure().state() == TrendState.STEP || row.figure().state() == TrendState.DRIFT) {
      screen.line("");
      screen.prose(
          "",
          (one ? "" : row.asset().asset() + " ")
              + row.figure().figure()
              + ": "
              + row.figure().why());
    }
  }

  private void leads(AssetTrend asset, boolean one) {
    for (Lead lead : asset.leads()) {
      screen.line("");
      screen.prose("", (one ? "" : asset.asset() + ": ") + "look here first: " + lead.look());
      screen.prose("  ", "for: " + String.join("; ", lead.evidence()));
      if (!lead.against().isEmpty()) {
        screen.prose("  ", "against: " + String.join("; ", lead.against()));
      }
      if (!lead.missing().isEmpty()) {
        screen.prose("  ", "would tell more: " + String.join(", ", lead.missing()));
      }
    }
    if (!asset.leads().isEmpty()) {
      screen.prose("  ", "a pattern of figures, no diagnosis (common practice, no source)");
    }
  }

  private void summary(Fleet fleet) {
    long changed =
        fleet.rows().stream().filter(row -> row.reason() != Fleet.Reason.SOME_BEYOND).count();
    screen.line(fleet.rows().isEmpty() ? "no figure changed beyond its scatter" : "");
    screen.line(
        fleet.assets().size()
            + (fleet.assets().size() == 1 ? " asset, " : " assets, ")
            + fleet.figures()
            + " figures: "
            + changed
            + " changed or beyond a limit, "
            + (fleet.figures() - changed - fleet.cannotTell())
            + " steady, "
            + fleet.cannotTell()
            + " with too few starts to tell");
  }
}
