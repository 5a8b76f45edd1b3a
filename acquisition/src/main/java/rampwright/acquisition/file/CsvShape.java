package rampwright.acquisition.file;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import rampwright.acquisition.file.CsvDialect.CellKind;

/**
 * The table among a sample's lines, seen through one dialect.
 *
 * @param cells cells in a row of the table
 * @param texts text cells in an ordinary row of it
 * @param score numbers less texts in all rows of that length; the larger, the more of a table
 */
record CsvShape(int cells, int texts, double score) {

  /** Counts of one line. */
  record Line(int cells, int numbers, int texts, boolean numberFirst) {
    static Line of(List<String> cells, CsvDialect dialect) {
      int numbers = 0;
      int texts = 0;
      boolean numberFirst = false;
      boolean started = false;
      for (String cell : cells) {
        CellKind kind = dialect.kindOf(cell);
        boolean number = kind == CellKind.NUMBER || kind == CellKind.STAMP;
        numbers += number ? 1 : 0;
        texts += kind == CellKind.TEXT ? 1 : 0;
        if (!started && kind != CellKind.BLANK) {
          started = true;
          numberFirst = number;
        }
      }
      return new Line(cells.size(), numbers, texts, numberFirst);
    }
  }

  static CsvShape of(List<String> lines, CsvDialect dialect) {
    Map<Integer, List<Line>> byCells = new HashMap<>();
    for (String line : lines) {
      if (!line.isBlank() && !line.startsWith("#")) {
        Line counts = Line.of(dialect.split(line), dialect);
        byCells.computeIfAbsent(counts.cells(), key -> new ArrayList<>()).add(counts);
      }
    }
    CsvShape best = new CsvShape(0, 0, 0);
    for (Map.Entry<Integer, List<Line>> group : byCells.entrySet()) {
      double score = 0;
      List<Integer> texts = new ArrayList<>();
      for (Line line : group.getValue()) {
        // A line of text alone is a header or a remark; it tells nothing against the table.
        score += Math.max(line.numbers() - 1.5 * line.texts(), 0.05 * line.numbers());
        if (line.numbers() > 0) {
          texts.add(line.texts());
        }
      }
      if (score > best.score) {
        texts.sort(null);
        best = new CsvShape(group.getKey(), texts.get(texts.size() / 2), score);
      }
    }
    return best;
  }
}
