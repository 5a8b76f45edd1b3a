package rampwright.acquisition.file;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.CsvDialect.CellKind;
import rampwright.acquisition.file.UnitTable.Unit;

/** The columns of a file as a person sees them: headers, meanings, what the first rows hold. */
final class ColumnTable {
  private static final int NAMES_SHOWN = 12;

  /** What most cells of a column are. */
  enum Content {
    NUMBERS,
    DATE_TIME,
    DATE,
    CLOCK,
    TEXT,
    NOTHING
  }

  /** One column; {@code hasOwnName} when no other has its header. */
  record Column(HeaderCell head, HeaderMeaning meaning, Content content, boolean hasOwnName) {
    int index() {
      return head.index();
    }

    /** For messages: number and header. */
    String shown() {
      String text = head.text().strip();
      return text.isEmpty()
          ? Integer.toString(head.index() + 1)
          : (head.index() + 1) + " \"" + CsvProblems.shown(text) + "\"";
    }

    /** How a {@code [columns]} table names it. */
    String rule() {
      String text = head.text().strip();
      return !hasOwnName || text.isEmpty() || text.contains("\"") || text.contains("\\")
          ? "index = " + (head.index() + 1)
          : "name = \"" + text + "\"";
    }
  }

  private final CsvLayout layout;
  private final List<Column> columns = new ArrayList<>();
  private final Set<Integer> unitsInCells = new HashSet<>();

  ColumnTable(CsvLayout layout) {
    this.layout = layout;
    int width = Math.max(trimmedWidth(layout.header()), layout.maxCells());
    List<String> heads = new ArrayList<>(layout.header());
    while (heads.size() < width) {
      heads.add("");
    }
    for (int i = 0; i < width; i++) {
      String unit = i < layout.units().size() ? layout.units().get(i) : "";
      boolean isUnit = layout.dialect().kindOf(unit) == CellKind.TEXT;
      HeaderCell head = HeaderCell.of(i, heads, isUnit ? unit : "");
      Unit ofCells = head.unitText().isEmpty() ? unitOfCells(i) : null;
      if (ofCells != null) {
        head = head.withUnit(ofCells);
        unitsInCells.add(i);
      }
      String text = head.text().strip();
      boolean own = heads.stream().filter(other -> other.strip().equals(text)).count() == 1;
      columns.add(new Column(head, HeaderMeaning.of(head.name()), content(i), own));
    }
  }

  /** The unit most cells of a column name behind their number; null when most name none. */
  private @Nullable Unit unitOfCells(int index) {
    int named = 0;
    Unit first = null;
    List<String> cells = cells(index);
    for (String cell : cells) {
      CsvCells.WithUnit parts = CsvCells.withUnit(cell, layout.dialect().decimal());
      if (parts != null) {
        first = first == null ? parts.unit() : first;
        named++;
      }
    }
    return 2 * named > cells.size() ? first : null;
  }

  /** Whether the unit of a column was taken from its cells. */
  boolean hasUnitInCells(int index) {
    return unitsInCells.contains(index);
  }

  private static int trimmedWidth(List<String> header) {
    int width = header.size();
    while (width > 0 && header.get(width - 1).isEmpty()) {
      width--;
    }
    return width;
  }

  CsvLayout layout() {
    return layout;
  }

  List<Column> columns() {
    return columns;
  }

  boolean hasHeader() {
    return !layout.header().isEmpty();
  }

  /** Cells of a column in the first rows, blanks left out. */
  List<String> cells(int index) {
    List<String> cells = new ArrayList<>();
    for (List<String> row : layout.rows()) {
      if (index < row.size() && !row.get(index).isEmpty()) {
        cells.add(row.get(index));
      }
    }
    return cells;
  }

  /** Whether each number of the first rows is above the one before. */
  boolean rises(int index) {
    char decimal = layout.dialect().decimal();
    double before = Double.NEGATIVE_INFINITY;
    for (String cell : cells(index)) {
      if (!CsvCells.isNumber(cell, decimal) || !(CsvCells.number(cell, decimal) > before)) {
        return false;
      }
      before = CsvCells.number(cell, decimal);
    }
    return true;
  }

  /** Whether the decimal commas of the first rows could just as well part thousands. */
  boolean commasMayPartThousands() {
    boolean any = false;
    if (layout.dialect().decimal() == ',') {
      for (int i = 0; i < columns.size(); i++) {
        for (String cell : cells(i)) {
          if (cell.indexOf(',') >= 0 && columns.get(i).content() == Content.NUMBERS) {
            if (Double.isNaN(CsvCells.grouped(cell, '.'))) {
              return false;
            }
            any = true;
          }
        }
      }
    }
    return any;
  }

  private Content content(int index) {
    int numbers = 0;
    int stamps = 0;
    int texts = 0;
    String stamp = "";
    for (String cell : cells(index)) {
      switch (layout.dialect().kindOf(cell)) {
        case NUMBER -> numbers++;
        case STAMP -> {
          stamps++;
          stamp = stamp.isEmpty() ? cell : stamp;
        }
        case TEXT -> {
          boolean grouped = !Double.isNaN(CsvCells.grouped(cell, layout.dialect().decimal()));
          numbers += grouped ? 1 : 0;
          texts += grouped ? 0 : 1;
        }
        case BLANK -> {}
      }
    }
    if (numbers + stamps + texts == 0) {
      return Content.NOTHING;
    }
    if (texts > numbers + stamps) {
      return Content.TEXT;
    }
    if (numbers >= stamps) {
      return Content.NUMBERS;
    }
    CsvClock clock = new CsvClock(CsvClock.Order.UNDECIDED);
    clock.parse(stamp);
    if (clock.hasDate()) {
      return clock.hasClock() ? Content.DATE_TIME : Content.DATE;
    }
    return Content.CLOCK;
  }

  /** The columns by number and header, for a message. */
  String names() {
    List<String> names = new ArrayList<>();
    for (Column column : columns) {
      if (names.size() < NAMES_SHOWN && (!hasHeader() || !column.head().text().isBlank())) {
        names.add(column.shown());
      }
    }
    long more = columns.stream().filter(c -> !hasHeader() || !c.head().text().isBlank()).count();
    String list = String.join(", ", names);
    return more > names.size()
        ? list + String.format(Locale.ROOT, " and %d more", more - names.size())
        : list;
  }
}
