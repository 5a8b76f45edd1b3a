package rampwright.exam.plant;

import java.util.LinkedHashMap;
import java.util.Map;

/** The target: limits on figures, by their keys. */
public record Limits(Map<String, Limit> byFigure) {

  public Limits {
    byFigure = new LinkedHashMap<>(byFigure);
  }

  /** A lower and an upper limit; NaN: none. */
  public record Limit(double min, double max) {
    /** How far outside, as a share of the limit; negative inside; 9 when it cannot be had. */
    public double excess(double value) {
      if (Double.isNaN(value)) {
        return 9;
      }
      double over = Double.isNaN(max) ? -1 : value / max - 1;
      double under = Double.isNaN(min) ? -1 : 1 - value / min;
      return Math.max(over, under);
    }
  }

  /** True: the trial went to full speed and every figure is inside. */
  public boolean met(TrueFigures figures) {
    return worst(figures) <= 0;
  }

  /**
   * The largest excess over all limits, as a share of the limit; at least 9 when full speed was not
   * reached. A limit's distance inside does not count for more than -1.
   */
  public double worst(TrueFigures figures) {
    double worst = figures.completed() ? -1 : 9;
    for (Map.Entry<String, Limit> entry : byFigure.entrySet()) {
      worst = Math.max(worst, entry.getValue().excess(figures.get(entry.getKey())));
    }
    return worst;
  }

  /** The limits that are missed, each with its excess as a share of the limit; empty: all met. */
  public Map<String, Double> missed(TrueFigures figures) {
    Map<String, Double> out = new LinkedHashMap<>();
    byFigure.forEach(
        (key, limit) -> {
          double excess = limit.excess(figures.get(key));
          if (excess > 0) {
            out.put(key, excess);
          }
        });
    return out;
  }

  /** True: some limit is on the stop, so that a trial must be followed to rest. */
  public boolean onStop() {
    return byFigure.keySet().stream()
        .anyMatch(key -> key.startsWith("stop_") || key.startsWith("controlled_"));
  }

  /** The same with one limit replaced. */
  public Limits with(String figure, double min, double max) {
    Map<String, Limit> changed = new LinkedHashMap<>(byFigure);
    changed.put(figure, new Limit(min, max));
    return new Limits(changed);
  }
}
