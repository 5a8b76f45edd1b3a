package rampwright.app.cli;

import java.util.ArrayList;
import java.util.List;

/**
 * A table of texts in columns; columns of numbers are set to the right, columns with nothing in
 * them are left out.
 */
final class TextTable {
  private static final String GAP = "  ";

  private final String indent;
  private final boolean[] right;
  private final List<String[]> rows = new ArrayList<>();

  /**
   * A table.
   *
   * @param indent before each line
   * @param sides one letter for each column: {@code l} for text, {@code r} for numbers
   * @param header names of the columns
   */
  TextTable(String indent, String sides, String... header) {
    this.indent = indent;
    this.right = new boolean[sides.length()];
    for (int i = 0; i < right.length; i++) {
      right[i] = sides.charAt(i) == 'r';
    }
    row(header);
  }

  void row(String... cells) {
    if (cells.length != right.length) {
      throw new IllegalArgumentException(cells.length + " cells for " + right.length + " columns");
    }
    String[] safe = new String[cells.length];
    for (int i = 0; i < cells.length; i++) {
      // Widths must be those of what is shown.
      safe[i] = SafeText.of(cells[i].replace('\n', ' '));
    }
    rows.add(safe);
  }

  /** Whether there is nothing but the header. */
  boolean isEmpty() {
    return rows.size() == 1;
  }

  /** The lines, header first. */
  List<String> lines() {
    int[] widths = new int[right.length];
    for (String[] row : rows) {
      for (int i = 0; i < row.length; i++) {
        widths[i] = Math.max(widths[i], width(row[i]));
      }
    }
    List<String> lines = new ArrayList<>();
    for (String[] row : rows) {
      StringBuilder line = new StringBuilder(indent);
      for (int i = 0; i < row.length; i++) {
        if (isEmptyColumn(i)) {
          continue;
        }
        String pad = " ".repeat(widths[i] - width(row[i]));
        line.append(i == 0 ? "" : GAP).append(right[i] ? pad + row[i] : row[i] + pad);
      }
      lines.add(line.toString().stripTrailing());
    }
    return lines;
  }

  private boolean isEmptyColumn(int column) {
    return column > 0 && rows.stream().skip(1).allMatch(row -> row[column].isEmpty());
  }

  private static int width(String text) {
    return text.codePointCount(0, text.length());
  }
}
