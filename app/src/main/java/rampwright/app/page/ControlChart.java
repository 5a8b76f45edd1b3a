package rampwright.app.page;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import rampwright.app.trend.ControlCharts;
import rampwright.app.trend.FigureTrend;

/** The classic charts of a figure. */
final class ControlChart {
  private static final int MOST_POINTS = 160;

  private final FigureTrend trend;
  private final ZoneId zone;

  private ControlChart(FigureTrend trend, ZoneId zone) {
    this.trend = trend;
    this.zone = zone;
  }

  /** None where the figure has no baseline. */
  static List<PageModel.Chart> of(FigureTrend trend, ZoneId zone) {
    ControlCharts charts = ControlCharts.of(trend);
    if (charts.ewma().length < 2) {
      return List.of();
    }
    ControlChart chart = new ControlChart(trend, zone);
    double[] down = charts.down().clone();
    for (int i = 0; i < down.length; i++) {
      down[i] = -down[i];
    }
    return List.of(
        chart.chart(
            "EWMA, standard deviations",
            "weight of the newest start 0.1; limits: a false alarm in "
                + ControlCharts.EWMA_RUN_LENGTH
                + " starts on average, the baseline taken as known",
            charts.firstEwmaAlarm(),
            charts.ewmaLimit(),
            -charts.ewmaLimit(),
            charts.ewma()),
        chart.chart(
            "CUSUM, standard deviations",
            "for shifts of one standard deviation; limits: a false alarm in "
                + ControlCharts.CUSUM_RUN_LENGTH
                + " starts on average, the baseline taken as known",
            charts.firstCusumAlarm(),
            charts.cusumLimit(),
            -charts.cusumLimit(),
            charts.up(),
            down),
        chart.chart(
            "Single starts, standard deviations",
            "limits by the moving ranges of the baseline: a false alarm in "
                + ControlCharts.INDIVIDUALS_RUN_LENGTH
                + " starts on average for normal scatter",
            charts.individuals().firstOut(charts.values()),
            charts.individuals().upper(),
            charts.individuals().lower(),
            charts.values()));
  }

  private PageModel.Chart chart(
      String title, String caption, int first, double upper, double lower, double[]... lines) {
    List<FigureTrend.Point> points = trend.corrected();
    double limit = Math.max(Math.abs(upper), Math.abs(lower));
    // starts that are all alike have limits of no width
    double most = limit > 0 ? 1.3 * limit : 1;
    for (double[] line : lines) {
      for (double value : line) {
        most = Math.max(most, Math.min(4 * limit, Math.abs(value)));
      }
    }
    Frame frame =
        new Frame(points.get(0).at(), points.get(points.size() - 1).at(), -most, most, zone);
    List<PageModel.Path> paths = new ArrayList<>();
    for (double at : new double[] {upper, lower}) {
      paths.add(
          new PageModel.Path("limit", String.format(Locale.ROOT, "M0 %.1fH1000", frame.y(at))));
    }
    paths.add(new PageModel.Path("zero", String.format(Locale.ROOT, "M0 %.1fH1000", frame.y(0))));
    for (double[] line : lines) {
      paths.add(new PageModel.Path("usual", path(frame, points, line)));
    }
    String out = first < 0 ? "not out" : "first out " + day(points.get(first).at());
    return new PageModel.Chart(
        title,
        caption + "; " + out,
        title + ": " + out,
        "low",
        paths,
        frame.across(),
        frame.up(),
        List.of());
  }

  private static String path(Frame frame, List<FigureTrend.Point> points, double... line) {
    int each = Math.max(1, (line.length + MOST_POINTS - 1) / MOST_POINTS);
    StringBuilder d = new StringBuilder();
    for (int from = 0; from < line.length; from += each) {
      int far = from;
      for (int i = from; i < Math.min(line.length, from + each); i++) {
        // of those that share a place the farthest out is drawn: no alarm is lost
        far = Math.abs(line[i]) > Math.abs(line[far]) ? i : far;
      }
      d.append(from == 0 ? 'M' : 'L').append(frame.point(points.get(far).at(), line[far]));
    }
    return d.toString();
  }

  private String day(Instant at) {
    return DateTimeFormatter.ofPattern("yyyy-MM-dd", Locale.ROOT).withZone(zone).format(at);
  }
}
