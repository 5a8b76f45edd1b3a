package rampwright.app.logbook;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * What is said of figures besides their values, in two texts. The wording (key, unit, how it was
 * found or why not) is the same for most starts and kept once; the numbers are each start's own.
 *
 * <p>Wording: a line for each figure, its fields parted by tabs. Numbers: for each line of the
 * wording the standard uncertainty, {@code -} where it could not be told; a figure without a column
 * has its value before it, {@code value:uncertainty}.
 *
 * @param wording text kept once
 * @param numbers text of the entry
 */
record FigureText(String wording, String numbers) {
  private static final String NONE = "-";

  static FigureText of(Map<String, LoggedFigure> figures) {
    StringBuilder wording = new StringBuilder();
    StringBuilder numbers = new StringBuilder();
    figures.forEach(
        (key, figure) -> {
          wording.append(escaped(key)).append('\t').append(escaped(figure.unit())).append('\t');
          wording.append(escaped(figure.why())).append('\n');
          numbers.append(numbers.isEmpty() ? "" : " ");
          if (!FigureColumns.KEYS.contains(key)) {
            numbers.append(number(figure.value())).append(':');
          }
          numbers.append(number(figure.uncertainty()));
        });
    return new FigureText(wording.toString(), numbers.toString());
  }

  /** One line of a wording. */
  record Line(String key, String unit, String why) {}

  static List<Line> lines(String wording) {
    List<Line> lines = new ArrayList<>();
    for (String line : wording.split("\n", -1)) {
      String[] fields = line.split("\t", -1);
      if (fields.length == 3) {
        lines.add(new Line(plain(fields[0]), plain(fields[1]), plain(fields[2])));
      }
    }
    return lines;
  }

  /**
   * The figures again.
   *
   * @param columns values of the figures that have a column
   */
  static Map<String, LoggedFigure> figures(
      List<Line> lines, String numbers, Map<String, Double> columns) {
    Map<String, LoggedFigure> figures = new HashMap<>();
    String[] parts = numbers.split(" ", -1);
    for (int i = 0; i < lines.size(); i++) {
      Line line = lines.get(i);
      String part = i < parts.length ? parts[i] : NONE;
      int colon = part.indexOf(':');
      double value =
          colon < 0
              ? columns.getOrDefault(line.key(), Double.NaN)
              : number(part.substring(0, colon));
      figures.put(
          line.key(),
          new LoggedFigure(value, line.unit(), number(part.substring(colon + 1)), line.why()));
    }
    return figures;
  }

  private static String number(double value) {
    return Double.isFinite(value) ? Double.toString(value) : NONE;
  }

  private static double number(String text) {
    try {
      return text.equals(NONE) ? Double.NaN : Double.parseDouble(text);
    } catch (NumberFormatException damaged) {
      // verify tells: the entry's hash no longer holds
      return Double.NaN;
    }
  }

  private static String escaped(String text) {
    return text.replace("\\", "\\\\").replace("\t", "\\t").replace("\n", "\\n");
  }

  private static String plain(String text) {
    if (text.indexOf('\\') < 0) {
      return text;
    }
    StringBuilder plain = new StringBuilder();
    boolean escaped = false;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (escaped) {
        plain.append(c == 't' ? '\t' : c == 'n' ? '\n' : c);
        escaped = false;
      } else if (c == '\\') {
        escaped = true;
      } else {
        plain.append(c);
      }
    }
    return plain.toString();
  }
}
