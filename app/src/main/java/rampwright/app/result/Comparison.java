package rampwright.app.result;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.quantity.Measured;
import rampwright.app.envelope.FigureKey.Part;

/**
 * Two trials set side by side, first start against first start.
 *
 * @param a the first trial
 * @param b the second
 * @param rows figure by figure, in the order of the definitions
 */
public record Comparison(TrialResult a, TrialResult b, List<Row> rows) {
  /**
   * Differences smaller than this many standard uncertainties are not told from none: coverage
   * factor 2, about 95 % (JCGM 100, 6.3.3).
   */
  private static final double COVERAGE = 2;

  public Comparison {
    rows = List.copyOf(rows);
  }

  /**
   * One figure of both.
   *
   * @param figure its key
   * @param part start or stop
   * @param unit unit symbol
   * @param a first trial's value; null when it could not be had
   * @param b second trial's value; null when it could not be had
   * @param difference b - a; null when either is missing
   * @param differencePct 100 (b - a) / |a|; null when there is no difference or a is 0
   * @param uncertainty standard uncertainty of the difference, root of the sum of squares; null
   *     where it cannot be told
   * @param beyondUncertainty whether the difference exceeds twice its standard uncertainty; null
   *     where that cannot be told
   * @param why why there is no difference; null when there is
   */
  public record Row(
      String figure,
      Part part,
      String unit,
      @Nullable Double a,
      @Nullable Double b,
      @Nullable Double difference,
      @Nullable Double differencePct,
      @Nullable Double uncertainty,
      @Nullable Boolean beyondUncertainty,
      @Nullable String why) {}

  /** Sets two trials side by side. A trial without a start gives no rows. */
  public static Comparison of(TrialResult a, TrialResult b) {
    List<Row> rows = new ArrayList<>();
    if (!a.figures().starts().isEmpty() && !b.figures().starts().isEmpty()) {
      StartRecord startA = a.figures().starts().get(0);
      StartRecord startB = b.figures().starts().get(0);
      addRows(rows, Part.START, startA.figures(), startB.figures());
      addRows(rows, Part.STOP, stopFigures(startA), stopFigures(startB));
    }
    return new Comparison(a, b, rows);
  }

  private static Map<String, Measured> stopFigures(StartRecord start) {
    return start.stop() == null ? Map.of() : start.stop().figures();
  }

  private static void addRows(
      List<Row> rows, Part part, Map<String, Measured> a, Map<String, Measured> b) {
    Set<String> keys = new LinkedHashSet<>(a.keySet());
    keys.addAll(b.keySet());
    for (String key : keys) {
      rows.add(row(key, part, a.get(key), b.get(key)));
    }
  }

  private static Row row(String key, Part part, @Nullable Measured a, @Nullable Measured b) {
    Double valueA = a == null ? null : a.value();
    Double valueB = b == null ? null : b.value();
    String unit = a != null ? a.unit() : b == null ? "" : b.unit();
    if (a == null || b == null || valueA == null || valueB == null) {
      return new Row(key, part, unit, valueA, valueB, null, null, null, null, why(a, b));
    }
    double difference = valueB - valueA;
    Double pct = valueA == 0 ? null : 100 * difference / Math.abs(valueA);
    Double ua = a.uncertainty();
    Double ub = b.uncertainty();
    Double uncertainty = ua == null || ub == null ? null : Math.hypot(ua, ub);
    Boolean beyond = uncertainty == null ? null : Math.abs(difference) > COVERAGE * uncertainty;
    return new Row(key, part, unit, valueA, valueB, difference, pct, uncertainty, beyond, null);
  }

  private static String why(@Nullable Measured a, @Nullable Measured b) {
    String first = missing("first", a);
    String second = missing("second", b);
    return first.isEmpty() || second.isEmpty() ? first + second : first + "; " + second;
  }

  private static String missing(String which, @Nullable Measured figure) {
    if (figure == null) {
      return which + ": not in this trace";
    }
    return figure.isPresent() ? "" : which + ": " + figure.why();
  }
}
