package rampwright.app.page;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import rampwright.app.trend.AssetTrend;
import rampwright.app.trend.FigureTrend;
import rampwright.app.trend.FigureTrend.LimitWatch;
import rampwright.app.trend.FigureTrend.Point;
import rampwright.app.trend.FigureTrend.Reached;
import rampwright.app.trend.Mark;

/** A figure's starts, its usual value, its limit, what is to come, and what was done. */
final class CourseChart {
  /** Starts that are drawn; of more, every second, third ... one. */
  private static final int MOST_DOTS = 240;

  /** The future takes no more of the width than this share of the past. */
  private static final double MOST_FUTURE = 0.6;

  /** Standard deviations of the band of usual scatter. */
  private static final double BAND = 2;

  private final AssetTrend asset;
  private final FigureTrend trend;
  private final ZoneId zone;
  private final DateTimeFormatter day;
  private final List<PageModel.Path> paths = new ArrayList<>();

  private CourseChart(AssetTrend asset, FigureTrend trend) {
    this.asset = asset;
    this.trend = trend;
    this.zone = asset.facts().zone();
    this.day = DateTimeFormatter.ofPattern("yyyy-MM-dd", Locale.ROOT).withZone(zone);
  }

  static PageModel.Chart of(AssetTrend asset, FigureTrend trend, String unit) {
    return new CourseChart(asset, trend).build(unit);
  }

  private PageModel.Chart build(String unit) {
    List<Point> all = new ArrayList<>(trend.earlier());
    all.addAll(trend.corrected());
    Optional<LimitWatch> limit = trend.limit();
    Frame frame = frame(all);
    band(frame);
    limit.ifPresent(watch -> limit(frame, watch));
    dots(frame, "was", trend.earlier());
    dots(frame, "dot", trend.corrected());
    usual(frame);
    List<PageModel.Flag> flags = new ArrayList<>();
    for (Mark mark : asset.marks()) {
      double x = frame.x(mark.at());
      if (x >= 0 && x <= 1000) {
        paths.add(new PageModel.Path("mark", String.format(Locale.ROOT, "M%.1f 0V1000", x)));
        boolean work = mark.kind() == Mark.Kind.WORK;
        flags.add(
            new PageModel.Flag(
                frame.left(mark.at()),
                work ? "W" : "S",
                day.format(mark.at())
                    + (work ? " work: " : " settings: ")
                    + mark.text()
                    + (mark.author().isEmpty() ? "" : " (" + mark.author() + ")")));
      }
    }
    return new PageModel.Chart(
        unit,
        caption(frame, limit),
        trend.figure() + ": " + trend.why(),
        "tall",
        paths,
        frame.across(),
        frame.up(),
        flags);
  }

  private Frame frame(List<Point> all) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (Point point : all) {
      low = Math.min(low, point.value());
      high = Math.max(high, point.value());
    }
    double span = Math.max(high - low, 0.02 * Math.max(Math.abs(high), 1e-9));
    if (trend.limit().isPresent()) {
      double value = trend.limit().get().value();
      boolean near =
          trend.limit().get().reached().isPresent() || (value > low - span && value < high + span);
      low = near ? Math.min(low, value) : low;
      high = near ? Math.max(high, value) : high;
      span = Math.max(high - low, span);
    }
    Instant first = all.get(0).at();
    Instant last = all.get(all.size() - 1).at();
    Instant end = last;
    Optional<Reached> reached = trend.limit().flatMap(LimitWatch::reached);
    if (reached.isPresent()) {
      long past = Math.max(86_400, Duration.between(first, last).toSeconds());
      Instant far = last.plusSeconds((long) (MOST_FUTURE * past));
      Instant wanted = reached.get().high().orElse(far);
      end = wanted.isAfter(far) ? far : wanted;
      end = end.isBefore(last) ? last : end;
    }
    return new Frame(first, end, low - 0.08 * span, high + 0.08 * span, zone);
  }

  private void band(Frame frame) {
    if (trend.baseline().isEmpty() || !(trend.scatter() > 0) || trend.corrected().isEmpty()) {
      return;
    }
    double middle = trend.baseline().get().median();
    double reach = BAND * trend.scatter();
    Instant from = trend.corrected().get(0).at();
    Instant to = trend.corrected().get(trend.corrected().size() - 1).at();
    paths.add(
        new PageModel.Path(
            "band",
            "M"
                + frame.point(from, middle + reach)
                + "L"
                + frame.point(to, middle + reach)
                + "L"
                + frame.point(to, middle - reach)
                + "L"
                + frame.point(from, middle - reach)
                + "Z"));
  }

  private void limit(Frame frame, LimitWatch watch) {
    double y = frame.y(watch.value());
    if (y >= 0 && y <= 1000) {
      paths.add(new PageModel.Path("limit", String.format(Locale.ROOT, "M0 %.1fH1000", y)));
    }
    if (watch.reached().isPresent() && !Double.isNaN(watch.now())) {
      Reached reached = watch.reached().get();
      Instant last = trend.corrected().get(trend.corrected().size() - 1).at();
      String begin = frame.point(last, watch.now());
      String end =
          reached.high().isPresent()
              ? "L" + frame.point(reached.high().get(), watch.value())
              : "L1000 "
                  + String.format(Locale.ROOT, "%.1f", y)
                  + "L"
                  + frame.point(frame.to(), watch.now());
      paths.add(
          new PageModel.Path(
              "coming", "M" + begin + "L" + frame.point(reached.low(), watch.value()) + end + "Z"));
      paths.add(
          new PageModel.Path(
              "expected", "M" + begin + "L" + frame.point(reached.date(), watch.value())));
    }
  }

  private void dots(Frame frame, String look, List<Point> points) {
    int each = Math.max(1, (points.size() + MOST_DOTS - 1) / MOST_DOTS);
    StringBuilder d = new StringBuilder();
    for (int i = points.size() - 1; i >= 0; i -= each) {
      d.append('M').append(frame.point(points.get(i).at(), points.get(i).value())).append("h0");
    }
    if (d.length() > 0) {
      paths.add(new PageModel.Path(look, d.toString()));
    }
  }

  private void usual(Frame frame) {
    StringBuilder d = new StringBuilder();
    List<Point> points = trend.corrected();
    int each = Math.max(1, points.size() / MOST_DOTS);
    for (int i = 0; i < points.size(); i++) {
      double here = points.get(i).usual();
      boolean edge =
          i == 0
              || i == points.size() - 1
              || i % each == 0
              || jumps(points.get(i - 1).usual(), here, points.get(i + 1).usual());
      if (!Double.isNaN(here) && edge) {
        d.append(d.length() == 0 ? 'M' : 'L').append(frame.point(points.get(i).at(), here));
      }
    }
    if (d.length() > 0) {
      paths.add(new PageModel.Path("usual", d.toString()));
    }
  }

  /** Both ends of a step must be drawn, or it becomes a slope. */
  private boolean jumps(double before, double here, double after) {
    double step = 0.1 * trend.scatter();
    return Math.abs(here - before) > step || Math.abs(after - here) > step;
  }

  private String caption(Frame frame, Optional<LimitWatch> limit) {
    boolean out = limit.map(w -> frame.y(w.value()) < 0 || frame.y(w.value()) > 1000).orElse(false);
    return (trend.earlier().isEmpty() ? "" : "grey: earlier settings or before work; ")
        + "band: usual scatter of a start"
        + (trend.conditions().isEmpty()
            ? ""
            : "; in usual conditions (" + String.join(", ", trend.conditions()) + " taken out)")
        + (out ? "; the limit is outside the picture" : "");
  }
}
