package rampwright.app.advice;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.RunFigure;

/**
 * A limit on a figure.
 *
 * @param key figure key
 * @param min smallest allowed value, or null
 * @param max largest allowed value, or null
 * @param figure the figure of a simulated run it rests on; null when the model gives none
 * @param factor value of the limited figure over that of the run's figure
 */
public record FigureLimit(
    String key,
    @Nullable Double min,
    @Nullable Double max,
    @Nullable RunFigure figure,
    double factor) {
  public FigureLimit {
    if (min == null && max == null) {
      throw new IllegalArgumentException("limit on " + key + ": min, max or both must be given");
    }
    if (!(factor > 0)) {
      throw new IllegalArgumentException("limit on " + key + ": factor must be above zero");
    }
  }

  /** A limit on a figure by its own key. */
  public FigureLimit(String key, @Nullable Double min, @Nullable Double max) {
    this(key, min, max, ofKey(key), 1);
  }

  private static @Nullable RunFigure ofKey(String key) {
    for (RunFigure figure : RunFigure.values()) {
      if (figure.key().equals(key)) {
        return figure;
      }
    }
    return null;
  }

  /** Whether a value keeps the limit; false for NaN. */
  public boolean met(double value) {
    return (min == null || value >= min) && (max == null || value <= max) && !Double.isNaN(value);
  }

  /** Distance inside the limit, of the limit; negative when missed, NaN for NaN. */
  public double margin(double value) {
    double out = Double.POSITIVE_INFINITY;
    if (max != null) {
      out = (max - value) / Math.max(1e-9, Math.abs(max));
    }
    if (min != null) {
      out = Math.min(out, (value - min) / Math.max(1e-9, Math.abs(min)));
    }
    return Double.isNaN(value) ? Double.NaN : out;
  }

  /** The limit in words. */
  public String show() {
    if (min == null) {
      return String.format(Locale.ROOT, "%s at most %s", key, max);
    }
    return max == null
        ? String.format(Locale.ROOT, "%s at least %s", key, min)
        : String.format(Locale.ROOT, "%s from %s to %s", key, min, max);
  }
}
