package rampwright.app.page;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * From time and value to a box of 1000 by 1000, with ticks.
 *
 * @param from left edge
 * @param to right edge
 * @param low lower edge
 * @param high upper edge
 * @param zone of the days on the axis
 */
record Frame(Instant from, Instant to, double low, double high, ZoneId zone) {
  /** Room beside the first and the last start: half a dot, that none is cut. */
  private static final double EDGE = 12;

  private static final int MOST_ACROSS = 4;
  private static final int[] MONTHS = {1, 2, 3, 6, 12, 24, 60, 120};

  double x(Instant at) {
    double whole = seconds(from, to);
    return whole > 0 ? EDGE + (1000 - 2 * EDGE) * seconds(from, at) / whole : 500;
  }

  double y(double value) {
    return 1000 * (high - value) / (high - low);
  }

  private static double seconds(Instant a, Instant b) {
    return Duration.between(a, b).toMillis() / 1000.0;
  }

  /** {@code M} to the point. */
  String point(Instant at, double value) {
    return String.format(Locale.ROOT, "%.0f %.0f", x(at), clipped(y(value)));
  }

  private static double clipped(double y) {
    // what leaves the picture runs along its edge
    return Math.max(3, Math.min(997, y));
  }

  /** Place of a value, from the top. */
  String top(double value) {
    return String.format(Locale.ROOT, "top:%.2f%%", y(value) / 10);
  }

  /** Place of an instant, from the left. */
  String left(Instant at) {
    return String.format(Locale.ROOT, "left:%.2f%%", x(at) / 10);
  }

  /** A few round values. */
  List<PageModel.Tick> up() {
    double rough = (high - low) / 5;
    double decade = Math.pow(10, Math.floor(Math.log10(rough)));
    double share = rough / decade;
    double step = decade * (share > 5 ? 10 : share > 2 ? 5 : share > 1 ? 2 : 1);
    int decimals = (int) Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
    List<PageModel.Tick> ticks = new ArrayList<>();
    for (double v = Math.ceil(low / step) * step; v <= high + 1e-9 * step; v += step) {
      double y = y(v);
      if (y > 20 && y < 980) {
        String text = String.format(Locale.ROOT, "%." + decimals + "f", v + 0.0);
        ticks.add(new PageModel.Tick(top(v), text.matches("-0(\\.0+)?") ? "0" : text));
      }
    }
    return ticks;
  }

  /** A few days on round dates. */
  List<PageModel.Tick> across() {
    double days = seconds(from, to) / 86_400;
    List<PageModel.Tick> ticks = new ArrayList<>();
    if (days < 62) {
      int step = (int) Math.max(1, Math.ceil(days / MOST_ACROSS));
      LocalDate day = ZonedDateTime.ofInstant(from, zone).toLocalDate().plusDays(1);
      for (; tick(day, day.toString(), ticks); day = day.plusDays(step)) {
        // one after another until the edge
      }
      return ticks;
    }
    int months = MONTHS[MONTHS.length - 1];
    for (int i = MONTHS.length - 1; i >= 0; i--) {
      months = days / 30.4 / MONTHS[i] <= MOST_ACROSS ? MONTHS[i] : months;
    }
    ZonedDateTime first = ZonedDateTime.ofInstant(from, zone);
    int month = (first.getMonthValue() - 1) / months * months + 1;
    LocalDate day =
        months >= 12
            ? LocalDate.of(first.getYear() + 1, 1, 1)
            : LocalDate.of(first.getYear(), month, 1).plusMonths(months);
    for (; ; day = day.plusMonths(months)) {
      String text = months >= 12 ? String.valueOf(day.getYear()) : day.toString().substring(0, 7);
      if (!tick(day, text, ticks)) {
        return ticks;
      }
    }
  }

  private boolean tick(LocalDate day, String text, List<PageModel.Tick> ticks) {
    Instant at = day.atStartOfDay(zone).toInstant();
    if (at.isAfter(to)) {
      return false;
    }
    double x = x(at);
    if (x > 30 && x < 970) {
      ticks.add(new PageModel.Tick(left(at), text));
    }
    return true;
  }
}
