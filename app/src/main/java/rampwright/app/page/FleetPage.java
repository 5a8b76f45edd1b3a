package rampwright.app.page;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import rampwright.app.alert.StandingAlert;
import rampwright.app.envelope.FigureKey;
import rampwright.app.trend.AssetTrend;
import rampwright.app.trend.Course;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.Fleet;
import rampwright.app.trend.Lead;
import rampwright.app.trend.LimitWords;
import rampwright.app.trend.TrendState;

/** The way in: trends of a fleet to one page of HTML. */
public final class FleetPage {
  /** Up to here every asset has its charts; in a larger fleet those that want a look. */
  public static final int ALL_SHOWN = 40;

  /** In a larger fleet, most pressing assets whose figures have control charts too. */
  private static final int MOST_WITH_CONTROL = 60;

  private static final int SPANS = 24;

  private final Fleet fleet;
  private final Map<String, List<StandingAlert>> alerts;
  private final Map<String, String> anchors = new LinkedHashMap<>();
  private final Set<String> withControl = new LinkedHashSet<>();

  private FleetPage(Fleet fleet, Map<String, List<StandingAlert>> alerts) {
    this.fleet = fleet;
    this.alerts = alerts;
  }

  /**
   * The page.
   *
   * @param alerts that stand, by asset
   * @param made when, in words
   */
  public static String html(
      List<AssetTrend> assets, Map<String, List<StandingAlert>> alerts, String made) {
    StringOutput out = new StringOutput();
    TemplateEngine.createPrecompiled(ContentType.Html)
        .render("fleet.jte", new FleetPage(Fleet.of(assets), alerts).model(made), out);
    return Steerless.of(out.toString());
  }

  private PageModel model(String made) {
    Map<String, AssetTrend> shown = new LinkedHashMap<>();
    fleet.rows().forEach(row -> shown.putIfAbsent(row.asset().asset(), row.asset()));
    fleet.assets().stream()
        .filter(
            asset ->
                fleet.assets().size() <= ALL_SHOWN
                    || !alerts.getOrDefault(asset.asset(), List.of()).isEmpty())
        .forEach(asset -> shown.putIfAbsent(asset.asset(), asset));
    int most = fleet.assets().size() <= ALL_SHOWN ? ALL_SHOWN : MOST_WITH_CONTROL;
    shown.keySet().stream().limit(most).forEach(withControl::add);
    shown.keySet().forEach(id -> anchors.put(id, "a" + (anchors.size() + 1)));
    return new PageModel(
        "Fleet: how the starts change",
        made,
        summary(),
        fleet.byAsset().stream().map(this::row).toList(),
        groups(),
        shown.values().stream().map(this::asset).toList());
  }

  private String summary() {
    Set<String> assets = new LinkedHashSet<>();
    fleet.rows().forEach(row -> assets.add(row.asset().asset()));
    return String.format(
        Locale.ROOT,
        "%d %s, %d figures. %d figures of %d %s want a look; %d have too few starts to tell.",
        fleet.assets().size(),
        fleet.assets().size() == 1 ? "asset" : "assets",
        fleet.figures(),
        fleet.rows().size(),
        assets.size(),
        assets.size() == 1 ? "asset" : "assets",
        fleet.cannotTell());
  }

  private static String label(FigureTrend trend) {
    String unit = FigureKey.ofKey(trend.figure()).map(FigureKey::unit).orElse("");
    return FigureKey.labelOf(trend.figure()) + (unit.isEmpty() ? "" : ", " + unit);
  }

  private PageModel.Row row(Fleet.Pressing pressing) {
    Fleet.Row row = pressing.first();
    FigureTrend trend = row.figure();
    LimitWords words = new LimitWords(row.asset().facts().zone());
    return new PageModel.Row(
        anchors.getOrDefault(row.asset().asset(), ""),
        row.asset().asset(),
        row.asset().facts().name(),
        row.asset().facts().group(),
        label(trend),
        spark(trend),
        words.change(trend),
        words.since(trend),
        LimitWords.sure(trend),
        words.limit(trend),
        words(row.reason()),
        kind(row.reason()),
        pressing.others().stream()
            .map(other -> also(other, words))
            .collect(Collectors.joining(", ")));
  }

  private static String also(Fleet.Row row, LimitWords words) {
    String change = words.change(row.figure());
    return FigureKey.labelOf(row.figure().figure())
        + " "
        + (change.isEmpty() ? words.limit(row.figure()) : change);
  }

  private static String words(Fleet.Reason reason) {
    return switch (reason) {
      case BEYOND -> "beyond its limit";
      case COMING -> "limit coming";
      case CHANGED -> "changed";
      case SOME_BEYOND -> "some starts beyond";
    };
  }

  private static String kind(Fleet.Reason reason) {
    return switch (reason) {
      case BEYOND -> "beyond";
      case COMING -> "coming";
      case CHANGED, SOME_BEYOND -> "changed";
    };
  }

  private List<PageModel.Group> groups() {
    Map<String, List<PageModel.Member>> groups = new TreeMap<>();
    for (AssetTrend asset : fleet.assets()) {
      groups.computeIfAbsent(asset.facts().group(), group -> new ArrayList<>()).add(member(asset));
    }
    return groups.entrySet().stream()
        .map(e -> new PageModel.Group(e.getKey(), e.getValue()))
        .toList();
  }

  private PageModel.Member member(AssetTrend asset) {
    String words = asset.figures().isEmpty() ? "no figures" : "steady";
    String kind = "steady";
    boolean anyKnown = false;
    for (FigureTrend trend : asset.figures()) {
      anyKnown |= trend.state() != TrendState.CANNOT_TELL;
    }
    if (!anyKnown) {
      words = "too few starts to tell";
      kind = "unknown";
    }
    for (Fleet.Row row : fleet.rows()) {
      if (row.asset().asset().equals(asset.asset())) {
        words = words(row.reason()) + ": " + FigureKey.labelOf(row.figure().figure());
        kind = kind(row.reason());
        break;
      }
    }
    // thousands of steady courses make a page that a phone does not show
    boolean drawn = fleet.assets().size() <= ALL_SHOWN;
    PageModel.Spark spark =
        asset.figures().stream()
            .filter(figure -> drawn)
            .findFirst()
            .map(FleetPage::spark)
            .orElse(new PageModel.Spark("", "", ""));
    return new PageModel.Member(
        anchors.getOrDefault(asset.asset(), ""),
        asset.asset(),
        asset.facts().name(),
        words,
        kind,
        spark);
  }

  private PageModel.Asset asset(AssetTrend asset) {
    Set<String> wanted = new LinkedHashSet<>();
    Map<String, String> kinds = new LinkedHashMap<>();
    for (Fleet.Row row : fleet.rows()) {
      if (row.asset().asset().equals(asset.asset())) {
        wanted.add(row.figure().figure());
        kinds.put(row.figure().figure(), kind(row.reason()));
      }
    }
    List<FigureTrend> ordered = new ArrayList<>();
    asset.figures().stream().filter(f -> wanted.contains(f.figure())).forEach(ordered::add);
    boolean all = fleet.assets().size() <= ALL_SHOWN;
    asset.figures().stream()
        .filter(f -> !wanted.contains(f.figure()) && (all || ordered.isEmpty()))
        .forEach(ordered::add);
    String first = ordered.isEmpty() ? "" : ordered.get(0).figure();
    return new PageModel.Asset(
        anchors.getOrDefault(asset.asset(), ""),
        asset.asset(),
        asset.facts().name(),
        asset.facts().group(),
        asset.starts()
            + (asset.starts() == 1 ? " start" : " starts")
            + "; times in "
            + asset.facts().zone().getId(),
        alerts.getOrDefault(asset.asset(), List.of()).stream().map(StandingAlert::shortly).toList(),
        alerts.getOrDefault(asset.asset(), List.of()).stream()
            .map(alert -> alert.raised().clears())
            .distinct()
            .toList(),
        asset.leads().stream().map(FleetPage::hint).toList(),
        ordered.stream()
            .filter(f -> !f.corrected().isEmpty())
            .map(
                f ->
                    figure(
                        asset,
                        f,
                        kinds.getOrDefault(
                            f.figure(), f.state() == TrendState.CANNOT_TELL ? "unknown" : "steady"),
                        wanted.contains(f.figure()) || f.figure().equals(first)))
            .toList());
  }

  private static PageModel.Hint hint(Lead lead) {
    return new PageModel.Hint(
        lead.look(),
        String.join("; ", lead.evidence()),
        String.join("; ", lead.against()),
        String.join(", ", lead.missing()));
  }

  private PageModel.Figure figure(AssetTrend asset, FigureTrend trend, String kind, boolean open) {
    boolean control = open && withControl.contains(asset.asset());
    return new PageModel.Figure(
        label(trend),
        trend.figure(),
        trend.state().word(),
        kind,
        trend.why(),
        new LimitWords(asset.facts().zone()).limit(trend),
        open,
        CourseChart.of(asset, trend, label(trend)),
        control ? ControlChart.of(trend, asset.facts().zone()) : List.of());
  }

  private static PageModel.Spark spark(FigureTrend trend) {
    double[] course = Course.of(trend, SPANS);
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (double value : course) {
      low = Double.isNaN(value) ? low : Math.min(low, value);
      high = Double.isNaN(value) ? high : Math.max(high, value);
    }
    double span = Math.max(high - low, 0.1 * Math.max(Math.abs(high), Math.abs(low)));
    double middle = (high + low) / 2;
    StringBuilder d = new StringBuilder();
    String end = "";
    for (int i = 0; i < course.length; i++) {
      if (!Double.isNaN(course[i]) && span > 0) {
        String point =
            String.format(
                Locale.ROOT,
                "%.1f %.1f",
                3 + 94.0 * i / (course.length - 1),
                12 - 18 * (course[i] - middle) / span);
        d.append(d.length() == 0 ? 'M' : 'L').append(point);
        end = "M" + point + "h0";
      }
    }
    return new PageModel.Spark(d.toString(), end, "course of " + label(trend));
  }
}
