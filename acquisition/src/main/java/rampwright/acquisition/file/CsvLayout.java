package rampwright.acquisition.file;

import java.nio.charset.Charset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import rampwright.acquisition.file.CsvDialect.CellKind;

/**
 * Where the parts of a table are: notes, preamble, header, unit row, first row.
 *
 * @param header cells of the header; empty when there is none
 * @param units cells of the unit row; empty when there is none
 * @param headerLine 1 based; 0 when there is none
 * @param rows cells of some first rows, at least one
 * @param dataLine line of the first row, 1 based
 * @param dataAt where it begins in the sample's bytes
 * @param minCells fewest cells of a good row
 * @param maxCells most cells of a good row
 * @param notes comment and preamble lines
 */
record CsvLayout(
    CsvDialect dialect,
    List<String> header,
    List<String> units,
    int headerLine,
    List<List<String>> rows,
    int dataLine,
    int dataAt,
    int minCells,
    int maxCells,
    List<String> notes) {

  private static final int LINES_SCORED = 40;
  private static final int ROWS_KEPT = 100;
  private static final int NOTES_KEPT = 200;
  private static final double COMMON = 0.1;

  /**
   * Finds the layout.
   *
   * @param count bytes of text at the beginning of the file
   * @param whole whether that is all of it
   */
  static CsvLayout of(
      String file, byte[] bytes, int count, boolean whole, Charset charset, CsvLimits limits)
      throws TraceFileException {
    char lineEnd = CsvLines.lineEnd(bytes, count);
    List<CsvLines.Line> lines = CsvLines.of(bytes, count, whole, lineEnd, charset);
    CsvLines.refuseBinary(file, bytes, count);
    if (lines.isEmpty()) {
      throw new TraceFileException(
          file,
          1,
          0,
          "is longer than the "
              + limits.maxLineBytes()
              + " bytes a line may have; this is not a table of readings; export it anew",
          null);
    }
    CsvDialect dialect = CsvDialect.find(scored(lines), lineEnd);
    return laidOut(file, lines, dialect, limits);
  }

  private static CsvLayout laidOut(
      String file, List<CsvLines.Line> lines, CsvDialect dialect, CsvLimits limits)
      throws TraceFileException {
    CsvShape shape = CsvShape.of(scored(lines), dialect);
    int first = firstRow(lines, dialect, shape);
    if (first < 0) {
      throw new TraceFileException(file, noRows(lines));
    }
    List<List<String>> rows = new ArrayList<>();
    for (int i = first; i < lines.size() && rows.size() < ROWS_KEPT; i++) {
      String text = lines.get(i).text();
      if (!text.isBlank() && !text.startsWith("#")) {
        rows.add(dialect.split(text));
      }
    }
    if (shape.cells() > limits.maxColumns()) {
      throw new TraceFileException(
          file,
          lines.get(first).number(),
          limits.maxColumns() + 1,
          "the table has "
              + shape.cells()
              + " columns; at most "
              + limits.maxColumns()
              + " are read; export only those that are needed",
          null);
    }
    Heading heading = Heading.of(lines, first, dialect, shape);
    refuseCommaMix(file, heading, shape, dialect);
    refuseMixedEnds(file, heading, lines);
    List<String> notes = new ArrayList<>();
    for (int i = 0; i < first && notes.size() < NOTES_KEPT; i++) {
      String text = lines.get(i).text().strip();
      if (i != heading.headerIndex && i != heading.unitIndex && !text.isEmpty()) {
        notes.add(text.startsWith("#") ? text.substring(1).strip() : text);
      }
    }
    int[] range = usualCells(rows, shape);
    CsvLines.Line row = lines.get(first);
    return new CsvLayout(
        dialect,
        heading.header,
        heading.units,
        heading.headerIndex < 0 ? 0 : lines.get(heading.headerIndex).number(),
        rows,
        row.number(),
        row.at(),
        range[0],
        range[1],
        notes);
  }

  private static String noRows(List<CsvLines.Line> lines) {
    long texts = lines.stream().filter(line -> !line.text().isBlank()).count();
    return texts == 0
        ? "holds only blank lines; record or export it anew"
        : "holds no row of numbers, only "
            + texts
            + (texts == 1 ? " line" : " lines")
            + " of text (\""
            + CsvProblems.shown(
                lines.stream()
                    .map(CsvLines.Line::text)
                    .filter(t -> !t.isBlank())
                    .findFirst()
                    .orElse(""))
            + "\"); a header line and rows of readings were expected; record or export it anew";
  }

  /** Header and unit row above the first row. */
  private record Heading(List<String> header, List<String> units, int headerIndex, int unitIndex) {
    static Heading of(List<CsvLines.Line> lines, int first, CsvDialect dialect, CsvShape shape) {
      int below = textAbove(lines, first);
      int above = below < 0 ? -1 : textAbove(lines, below);
      if (below < 0) {
        return commented(lines, first, dialect, shape);
      }
      List<String> near = headerCells(lines.get(below).text(), dialect, shape);
      if (above >= 0 && isUnitRow(near, dialect)) {
        List<String> far = headerCells(lines.get(above).text(), dialect, shape);
        if (isHeader(far, dialect, shape)) {
          return new Heading(far, near, above, below);
        }
      }
      if (isHeader(near, dialect, shape)) {
        return new Heading(near, List.of(), below, -1);
      }
      return commented(lines, first, dialect, shape);
    }

    /** In tables parted by blanks, wide gaps part headers that have blanks in them. */
    private static List<String> headerCells(String text, CsvDialect dialect, CsvShape shape) {
      List<String> cells = dialect.split(text);
      if (dialect.blanks() && cells.size() > shape.cells()) {
        List<String> wide = List.of(text.strip().split(" {2,}|\t+", -1));
        return wide.size() == shape.cells() ? wide : cells;
      }
      return cells;
    }

    private static int textAbove(List<CsvLines.Line> lines, int index) {
      for (int i = index - 1; i >= 0; i--) {
        String text = lines.get(i).text();
        if (text.startsWith("#")) {
          return -1;
        }
        if (!text.isBlank()) {
          return i;
        }
      }
      return -1;
    }

    private static Heading commented(
        List<CsvLines.Line> lines, int first, CsvDialect dialect, CsvShape shape) {
      for (int i = first - 1; i >= 0; i--) {
        String text = lines.get(i).text();
        if (text.startsWith("#")) {
          List<String> cells = dialect.split(text.substring(1).strip());
          if (cells.size() > 1
              && cells.size() == shape.cells()
              && isHeader(cells, dialect, shape)) {
            return new Heading(cells, List.of(), i, -1);
          }
          break;
        }
      }
      return new Heading(List.of(), List.of(), -1, -1);
    }

    private static boolean isUnitRow(List<String> cells, CsvDialect dialect) {
      int units = 0;
      int texts = 0;
      for (String cell : cells) {
        if (dialect.kindOf(cell) == CellKind.TEXT || cell.equals("-")) {
          texts++;
          boolean known = UnitTable.find(cell) != null || cell.equals("-");
          units += known || cell.equalsIgnoreCase("Sequence") ? 1 : 0;
        }
      }
      return units > 0 && units >= 0.6 * texts;
    }

    private static boolean isHeader(List<String> cells, CsvDialect dialect, CsvShape shape) {
      int texts = 0;
      int numbers = 0;
      for (String cell : cells) {
        CellKind kind = dialect.kindOf(cell);
        boolean grouped = !Double.isNaN(CsvCells.grouped(cell, dialect.decimal()));
        texts += kind == CellKind.TEXT && !grouped ? 1 : 0;
        numbers += kind == CellKind.NUMBER || kind == CellKind.STAMP || grouped ? 1 : 0;
      }
      boolean wide = cells.size() + 1 >= shape.cells() || 2 * cells.size() >= shape.cells();
      return texts > numbers && wide && (shape.cells() < 3 || texts > 1);
    }
  }

  /** Commas between cells and inside numbers cannot be told apart; say so instead of guessing. */
  private static void refuseCommaMix(
      String file, Heading heading, CsvShape shape, CsvDialect dialect) throws TraceFileException {
    int names = heading.header.size();
    while (names > 0 && heading.header.get(names - 1).isEmpty()) {
      names--;
    }
    if (dialect.separator() == ',' && names > 1 && shape.cells() == 2 * names) {
      throw new TraceFileException(
          file,
          0,
          0,
          "its rows have "
              + shape.cells()
              + " cells under "
              + names
              + " headers: commas seem to part both cells and decimals, which cannot be told apart;"
              + " export it with semicolons or decimal points",
          null);
    }
  }

  /** A header and rows that hang together, because some lines end with a carriage return alone. */
  private static void refuseMixedEnds(String file, Heading heading, List<CsvLines.Line> lines)
      throws TraceFileException {
    boolean told =
        !heading.header.isEmpty()
            && heading.header.stream().noneMatch(cell -> cell.indexOf('\r') >= 0);
    for (CsvLines.Line line : told ? List.<CsvLines.Line>of() : lines) {
      if (line.text().indexOf('\r') >= 0) {
        throw new TraceFileException(
            file,
            line.number(),
            0,
            "some lines end with a carriage return alone (CR), others with a line feed (LF), and the"
                + " header cannot be told; save the file with one kind of line end",
            null);
      }
    }
  }

  private static int[] usualCells(List<List<String>> rows, CsvShape shape) {
    Map<Integer, Integer> counts = new HashMap<>();
    rows.forEach(row -> counts.merge(row.size(), 1, Integer::sum));
    int[] range = {shape.cells(), shape.cells()};
    counts.forEach(
        (cells, count) -> {
          // A row of one cell is a remark, not a shorter row.
          if (count >= COMMON * rows.size() && count > 2 && cells * 2 > shape.cells()) {
            range[0] = Math.min(range[0], cells);
            range[1] = Math.max(range[1], cells);
          }
        });
    return range;
  }

  private static int firstRow(List<CsvLines.Line> lines, CsvDialect dialect, CsvShape shape) {
    int first = -1;
    for (int i = 0; i < lines.size() && first < 0; i++) {
      if (isRow(lines, i, dialect, shape)) {
        if (isUnderHeader(lines, i, dialect, shape)) {
          return i;
        }
        int good = 0;
        int seen = 0;
        for (int j = i + 1; j < lines.size() && seen < 2; j++) {
          if (!lines.get(j).text().isBlank()) {
            seen++;
            good += isRow(lines, j, dialect, shape) ? 1 : 0;
          }
        }
        first = good == seen || (good > 0 && i == lines.size() - 2) ? i : -1;
      }
    }
    if (first < 0) {
      // A short or damaged table: the first line that looks like a row has to do.
      for (int i = 0; i < lines.size() && first < 0; i++) {
        first = isRow(lines, i, dialect, shape) ? i : -1;
      }
    }
    while (first > 0 && isDamagedRow(lines.get(first - 1), dialect, shape)) {
      first--;
    }
    return first;
  }

  private static boolean isRow(
      List<CsvLines.Line> lines, int i, CsvDialect dialect, CsvShape shape) {
    String text = lines.get(i).text();
    if (text.isBlank() || text.startsWith("#")) {
      return false;
    }
    CsvShape.Line counts = CsvShape.Line.of(dialect.split(text), dialect);
    return counts.cells() == shape.cells()
        && counts.numbers() > 0
        && counts.texts() <= shape.texts();
  }

  private static boolean isUnderHeader(
      List<CsvLines.Line> lines, int i, CsvDialect dialect, CsvShape shape) {
    if (i == 0 || lines.get(i - 1).text().isBlank() || lines.get(i - 1).text().startsWith("#")) {
      return false;
    }
    List<String> cells = dialect.split(lines.get(i - 1).text());
    CsvShape.Line counts = CsvShape.Line.of(cells, dialect);
    return cells.size() == shape.cells() && counts.numbers() == 0 && counts.texts() > 1;
  }

  private static boolean isDamagedRow(CsvLines.Line line, CsvDialect dialect, CsvShape shape) {
    if (line.text().isBlank() || line.text().startsWith("#")) {
      return false;
    }
    CsvShape.Line counts = CsvShape.Line.of(dialect.split(line.text()), dialect);
    return counts.cells() == shape.cells() && counts.numberFirst();
  }

  private static List<String> scored(List<CsvLines.Line> lines) {
    int from = lines.size() <= 2 * LINES_SCORED ? 0 : lines.size() / 2;
    int to = lines.size() <= 2 * LINES_SCORED ? lines.size() : from + LINES_SCORED;
    return lines.subList(from, to).stream().map(CsvLines.Line::text).toList();
  }
}
