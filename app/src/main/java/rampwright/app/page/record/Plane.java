package rampwright.app.page.record;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import rampwright.app.report.Curve;

/**
 * From two numbers to a box of 1000 by 1000, with ticks at round numbers.
 *
 * @param from left edge
 * @param to right edge; above {@code from}
 * @param low lower edge
 * @param high upper edge; above {@code low}
 */
record Plane(double from, double to, double low, double high) {
  private static final int TICKS_ACROSS = 8;
  private static final int TICKS_UP = 4;

  Plane {
    if (!(to > from) || !(high > low)) {
      throw new IllegalArgumentException(
          "no area: " + from + " to " + to + ", " + low + " to " + high);
    }
  }

  double x(double value) {
    return 1000 * (value - from) / (to - from);
  }

  double y(double value) {
    return 1000 * (high - value) / (high - low);
  }

  /** A line through the points of a curve, its times moved by so much. */
  String path(Curve curve, double moved) {
    StringBuilder d = new StringBuilder();
    for (int i = 0; i < curve.size(); i++) {
      point(d, i == 0 ? 'M' : 'L', curve.timeS(i) - moved, curve.value(i));
    }
    return d.toString();
  }

  /** The area between two curves. */
  String area(Curve upper, Curve lower) {
    StringBuilder d = new StringBuilder(path(upper, 0));
    for (int i = lower.size() - 1; i >= 0; i--) {
      point(d, 'L', lower.timeS(i), lower.value(i));
    }
    return d.append('Z').toString();
  }

  void point(StringBuilder d, char command, double across, double up) {
    d.append(command)
        .append(Math.round(Math.max(-1000, Math.min(2000, x(across)))))
        .append(' ')
        .append(Math.round(clipped(y(up))));
  }

  /** What leaves the picture runs along its edge. */
  private static double clipped(double y) {
    return Math.max(0, Math.min(1000, y));
  }

  String level(double value) {
    return String.format(Locale.ROOT, "M0 %.0fL1000 %.0f", y(value), y(value));
  }

  String upright(double value) {
    return String.format(Locale.ROOT, "M%.0f 0L%.0f 1000", x(value), x(value));
  }

  boolean holds(double across) {
    return across >= from && across <= to;
  }

  String left(double value) {
    return String.format(Locale.ROOT, "left:%.2f%%", x(value) / 10);
  }

  List<RecordModel.Tick> across() {
    List<RecordModel.Tick> ticks = new ArrayList<>();
    double step = step((to - from) / TICKS_ACROSS);
    for (double v = Math.ceil(from / step) * step; v <= to + 1e-9 * step; v += step) {
      ticks.add(new RecordModel.Tick(left(v), text(v, step)));
    }
    return ticks;
  }

  List<RecordModel.Tick> up() {
    List<RecordModel.Tick> ticks = new ArrayList<>();
    double step = step((high - low) / TICKS_UP);
    for (double v = Math.ceil(low / step) * step; v <= high + 1e-9 * step; v += step) {
      double y = y(v);
      if (y > 15) {
        ticks.add(
            new RecordModel.Tick(String.format(Locale.ROOT, "top:%.2f%%", y / 10), text(v, step)));
      }
    }
    return ticks;
  }

  /** Thin lines at the ticks. */
  List<RecordModel.Path> grid() {
    List<RecordModel.Path> paths = new ArrayList<>();
    double step = step((high - low) / TICKS_UP);
    for (double v = Math.ceil(low / step) * step; v <= high; v += step) {
      paths.add(new RecordModel.Path("grid", level(v)));
    }
    return paths;
  }

  private static double step(double rough) {
    double decade = Math.pow(10, Math.floor(Math.log10(rough)));
    double share = rough / decade;
    return decade * (share > 5 ? 10 : share > 2 ? 5 : share > 1 ? 2 : 1);
  }

  private static String text(double value, double step) {
    int decimals = (int) Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
    String text = String.format(Locale.ROOT, "%." + decimals + "f", value + 0.0);
    return text.matches("-0(\\.0+)?") ? text.substring(1) : text;
  }
}
