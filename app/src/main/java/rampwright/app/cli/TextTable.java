package rampwright.app.cli;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A table of texts in columns; columns of numbers are set to the right, columns with nothing in
 * them are left out, columns of prose give way where the screen is too narrow.
 */
final class TextTable {
  private static final String GAP = "  ";

  /** Prose is not squeezed below this. */
  private static final int NARROWEST = 12;

  private final String indent;
  private final String sides;
  private final List<Row> rows = new ArrayList<>();

  /** A row and what stands under it, over the whole width. */
  private record Row(String[] cells, List<String> under) {}

  /**
   * A table.
   *
   * @param indent before each line
   * @param sides one letter for each column: {@code l} for text, {@code r} for numbers, {@code w}
   *     for text that may be broken between words
   * @param header names of the columns
   */
  TextTable(String indent, String sides, String... header) {
    this.indent = indent;
    this.sides = sides;
    row(header);
  }

  void row(String... cells) {
    if (cells.length != sides.length()) {
      throw new IllegalArgumentException(cells.length + " cells for " + sides.length());
    }
    String[] safe = new String[cells.length];
    for (int i = 0; i < cells.length; i++) {
      // Widths must be those of what is shown.
      safe[i] = SafeText.of(cells[i].replace('\n', ' '));
    }
    rows.add(new Row(safe, new ArrayList<>()));
  }

  /** A line under the last row, over the whole width; nothing when it is empty. */
  void under(@Nullable String text) {
    if (text != null && !text.isEmpty()) {
      rows.get(rows.size() - 1).under.add(SafeText.of(text.replace('\n', ' ')));
    }
  }

  /** Whether there is nothing but the header. */
  boolean isEmpty() {
    return rows.size() == 1;
  }

  /**
   * The lines, header first.
   *
   * @param most columns of the screen; only a word or a number that is longer by itself exceeds it
   */
  List<String> lines(int most) {
    int[] widths = widths(most);
    List<String> lines = new ArrayList<>();
    for (Row row : rows) {
      List<List<String>> cells = new ArrayList<>();
      int high = 1;
      for (int i = 0; i < widths.length; i++) {
        List<String> parts =
            sides.charAt(i) == 'w'
                ? TextWrap.broken(row.cells[i], Math.max(1, widths[i]))
                : List.of(row.cells[i]);
        cells.add(parts);
        high = Math.max(high, parts.size());
      }
      for (int k = 0; k < high; k++) {
        lines.add(line(cells, k, widths));
      }
      for (String text : row.under) {
        TextWrap.broken(text, most - indent.length() - GAP.length())
            .forEach(part -> lines.add(indent + GAP + part));
      }
    }
    return lines;
  }

  private String line(List<List<String>> cells, int k, int[] widths) {
    StringBuilder line = new StringBuilder(indent);
    for (int i = 0; i < widths.length; i++) {
      if (widths[i] < 0) {
        continue;
      }
      String text = k < cells.get(i).size() ? cells.get(i).get(k) : "";
      String pad = " ".repeat(Math.max(0, widths[i] - TextWrap.width(text)));
      line.append(i == 0 ? "" : GAP).append(sides.charAt(i) == 'r' ? pad + text : text + pad);
    }
    return line.toString().stripTrailing();
  }

  /** Width of each column; -1 for one that is left out. */
  private int[] widths(int most) {
    int[] widths = new int[sides.length()];
    for (Row row : rows) {
      for (int i = 0; i < widths.length; i++) {
        widths[i] = Math.max(widths[i], TextWrap.width(row.cells[i]));
      }
    }
    for (int i = 1; i < widths.length; i++) {
      int column = i;
      if (rows.stream().skip(1).allMatch(row -> row.cells[column].isEmpty())) {
        widths[i] = -1;
      }
    }
    int total = indent.length() - GAP.length();
    for (int width : widths) {
      total += width < 0 ? 0 : width + GAP.length();
    }
    while (total > most) {
      int widest = widestProse(widths);
      if (widest < 0) {
        break;
      }
      widths[widest]--;
      total--;
    }
    return widths;
  }

  private int widestProse(int[] widths) {
    int widest = -1;
    for (int i = 0; i < widths.length; i++) {
      if (sides.charAt(i) == 'w'
          && widths[i] > NARROWEST
          && (widest < 0 || widths[i] > widths[widest])) {
        widest = i;
      }
    }
    return widest;
  }

  @Override
  public String toString() {
    return Arrays.toString(lines(Screen.USUAL_WIDTH).toArray());
  }
}
