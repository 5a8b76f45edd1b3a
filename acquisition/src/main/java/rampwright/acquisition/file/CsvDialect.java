package rampwright.acquisition.file;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/**
 * How a file parts its cells and writes its numbers.
 *
 * @param separator between cells; a space stands for any run of blanks and tabs
 * @param decimal decimal mark, point or comma
 * @param lineEnd last byte of a line: line feed, or carriage return in files that have only those
 */
record CsvDialect(char separator, char decimal, char lineEnd) {
  private static final String SEPARATORS = ";\t,| ";

  /** A leading zero, or other than three digits behind the only comma. */
  private static final Pattern QUOTED_DECIMAL_COMMA =
      Pattern.compile("\"\\s*[+-]?(?:0,\\d+|\\d+,(?:\\d{1,2}|\\d{4,}))\\s*\"");

  boolean blanks() {
    return separator == ' ';
  }

  /** Parts a line into cells without outer blanks and quotes (RFC 4180). */
  List<String> split(String line) {
    List<String> cells = new ArrayList<>();
    int at = 0;
    int length = line.length();
    while (true) {
      while (at < length && (line.charAt(at) == ' ' || (blanks() && line.charAt(at) == '\t'))) {
        at++;
      }
      StringBuilder cell = new StringBuilder();
      if (at < length && line.charAt(at) == '"') {
        at++;
        while (at < length) {
          char c = line.charAt(at++);
          if (c == '"') {
            if (at < length && line.charAt(at) == '"') {
              at++;
            } else {
              break;
            }
          }
          cell.append(c);
        }
      }
      while (at < length && !isSeparator(line.charAt(at))) {
        cell.append(line.charAt(at++));
      }
      cells.add(withoutOuterBlanks(cell.toString()));
      if (blanks()) {
        while (at < length && isSeparator(line.charAt(at))) {
          at++;
        }
        if (at >= length) {
          return cells;
        }
      } else {
        if (at >= length) {
          return cells;
        }
        at++;
      }
    }
  }

  /** Blanks that do not break a line are blanks too, in front of a number or behind it. */
  private static String withoutOuterBlanks(String cell) {
    String text = cell.strip();
    int from = 0;
    int to = text.length();
    while (from < to && isFixedBlank(text.charAt(from))) {
      from++;
    }
    while (to > from && isFixedBlank(text.charAt(to - 1))) {
      to--;
    }
    // A cell of nothing else pads a header and keeps its place there.
    return from < to ? text.substring(from, to).strip() : text;
  }

  private static boolean isFixedBlank(char c) {
    return c == '\u00a0' || c == '\u202f';
  }

  private boolean isSeparator(char c) {
    return c == separator || (blanks() && c == '\t');
  }

  /** What a cell of a sample is. */
  enum CellKind {
    BLANK,
    NUMBER,
    STAMP,
    TEXT
  }

  CellKind kindOf(String cell) {
    if (cell.isEmpty()) {
      return CellKind.BLANK;
    }
    if (CsvCells.isNumber(cell, decimal)) {
      return CellKind.NUMBER;
    }
    if (CsvCells.saysNoReading(cell)) {
      return CellKind.BLANK;
    }
    if (CsvCells.withUnit(cell, decimal) != null) {
      return CellKind.NUMBER;
    }
    return CsvClock.looksLikeStamp(cell) ? CellKind.STAMP : CellKind.TEXT;
  }

  /** The dialect in which most cells of the sample are numbers and the rows have one length. */
  static CsvDialect find(List<String> lines, char lineEnd) {
    CsvDialect best = new CsvDialect(',', '.', lineEnd);
    double bestScore = 0;
    boolean quoted = mayQuoteDecimalCommas(lines);
    boolean absentSeen = false;
    for (int i = 0; i < SEPARATORS.length(); i++) {
      char separator = SEPARATORS.charAt(i);
      boolean absent = lines.stream().noneMatch(line -> parts(separator, line));
      if (absent && absentSeen) {
        // Separators that do not occur all make one cell of each line; one of them is enough.
        continue;
      }
      absentSeen |= absent;
      for (char decimal : new char[] {'.', ','}) {
        if (separator != decimal || quoted) {
          CsvDialect dialect = new CsvDialect(separator, decimal, lineEnd);
          double score = CsvShape.of(lines, dialect).score();
          // A later candidate must be better, not equal, so the order above decides ties.
          if (score > bestScore * (1 + 1e-9)) {
            best = dialect;
            bestScore = score;
          }
        }
      }
    }
    return best;
  }

  private static boolean parts(char separator, String line) {
    return line.indexOf(separator) >= 0 || (separator == ' ' && line.indexOf('\t') >= 0);
  }

  /**
   * Whether cells in quotes hold commas that cannot part thousands, as spreadsheets of
   * decimal-comma countries write them into comma-separated files.
   */
  private static boolean mayQuoteDecimalCommas(List<String> lines) {
    return lines.stream().anyMatch(line -> QUOTED_DECIMAL_COMMA.matcher(line).find());
  }

  /** For people. */
  String inWords() {
    String between =
        switch (separator) {
          case '\t' -> "tabs";
          case ' ' -> "blanks";
          default -> "\"" + separator + "\"";
        };
    String mark = decimal == '.' ? "point" : separator == ',' ? "comma inside quotes" : "comma";
    return "cells parted by " + between + ", decimal " + mark;
  }
}
