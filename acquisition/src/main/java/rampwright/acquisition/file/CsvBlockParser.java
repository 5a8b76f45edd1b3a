package rampwright.acquisition.file;

import ch.randelshofer.fastdoubleparser.JavaDoubleParser;
import java.util.Arrays;
import java.util.List;
import rampwright.acquisition.file.CsvProblems.Kind;

/**
 * Parses whole lines of bytes into columns of numbers. One instance is used by one thread.
 *
 * <p>A number of at most 2^53 in its digits and a power of ten of at most 22 is exact in both
 * parts, so that one multiplication or division rounds it correctly (W. D. Clinger, How to read
 * floating point numbers accurately, 1990); others go to a library that rounds correctly. Both give
 * what {@link Double#parseDouble} gives.
 */
final class CsvBlockParser {
  private static final long EXACT = 1L << 53;
  private static final int SAFE_DIGITS = 18;
  private static final double[] TEN = {
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
    1e17, 1e18, 1e19, 1e20, 1e21, 1e22
  };
  private static final int UNUSED = -1;
  private static final int DATE = -2;
  private static final int FRACTION = -3;

  /** In no UTF-8 text, and no letter of a number in any other. */
  private static final byte NO_BYTE = (byte) 0xfe;

  private static final long S_PER_DAY = 86_400L;

  private final CsvPlan plan;
  private final int[] slotOfColumn;
  private final CsvPlan.Kind[] kinds;
  private final double[] factors;
  private final double[] offsets;
  private final boolean[] plain;
  private final int timeSlot;
  private final byte separator;
  private final byte decimal;
  private final byte lineEnd;
  private final boolean blanks;
  private final int minCells;
  private final int maxCells;
  private final CsvBytes cells;
  private final CsvSlowCell slow;
  private final CsvClock dateClock;

  private byte[] bytes = new byte[0];
  private CsvBlock block = new CsvBlock(0, 0);
  private double value;
  private boolean anyCell;
  private boolean timeBad;
  private boolean binary;
  private boolean dateSeen;
  private long rowDay;
  private double rowFractionS;

  CsvBlockParser(CsvPlan plan) {
    this.plan = plan;
    int columns = Math.max(plan.dateColumn(), plan.fractionColumn()) + 1;
    for (CsvPlan.Slot slot : plan.slots()) {
      columns = Math.max(columns, slot.column() + 1);
    }
    slotOfColumn = new int[columns];
    Arrays.fill(slotOfColumn, UNUSED);
    int slots = plan.slots().size();
    kinds = new CsvPlan.Kind[slots];
    factors = new double[slots];
    offsets = new double[slots];
    plain = new boolean[slots];
    int time = UNUSED;
    for (int i = 0; i < slots; i++) {
      CsvPlan.Slot slot = plan.slots().get(i);
      slotOfColumn[slot.column()] = i;
      kinds[i] = slot.kind();
      factors[i] = slot.factor();
      offsets[i] = slot.offset();
      plain[i] = slot.factor() == 1 && slot.offset() == 0;
      time = slot.isTime() ? i : time;
    }
    timeSlot = time;
    if (plan.dateColumn() >= 0) {
      slotOfColumn[plan.dateColumn()] = DATE;
    }
    if (plan.fractionColumn() >= 0) {
      slotOfColumn[plan.fractionColumn()] = FRACTION;
    }
    separator = (byte) plan.dialect().separator();
    // A decimal comma among comma separators stands in quotes, which go the slow way.
    decimal = quotedDecimals(plan.dialect()) ? NO_BYTE : (byte) plan.dialect().decimal();
    lineEnd = (byte) plan.dialect().lineEnd();
    blanks = plan.dialect().blanks();
    minCells = plan.minCells();
    maxCells = plan.maxCells();
    cells = new CsvBytes(plan.dialect());
    slow = new CsvSlowCell(plan);
    dateClock = new CsvClock(plan.base().order());
  }

  /**
   * Parses lines.
   *
   * @param text {@code text[to - 1]} is the end of a line, and the array goes on behind it
   */
  CsvBlock parse(byte[] text, int from, int to, int rowsExpected) {
    bytes = text;
    cells.in(text);
    block = new CsvBlock(kinds.length, rowsExpected);
    int at = from;
    while (at < to) {
      at = line(at);
    }
    block.findRange();
    return block;
  }

  private int line(int from) {
    int at = from;
    if (bytes[at] == '#') {
      return skipLine(at);
    }
    anyCell = false;
    timeBad = false;
    binary = false;
    dateSeen = false;
    rowFractionS = Double.NaN;
    int column = 0;
    int used = 0;
    int row = block.rows();
    double[][] columns = block.columns();
    int[] slots = slotOfColumn;
    while (true) {
      if (blanks) {
        at = cells.skipBlanks(at);
      }
      int slot = column < slots.length ? slots[column] : UNUSED;
      if (slot >= 0) {
        at = number(at, slot, column);
        columns[slot][row] = value;
      } else if (slot == DATE) {
        at = date(at);
      } else if (slot == FRACTION) {
        at = fraction(at);
      } else {
        int start = at;
        at = cells.skipCell(at);
        if (column >= maxCells && at > start && !cells.isEndMark(start)) {
          used = column + 1;
        }
      }
      if (blanks) {
        at = cells.skipBlanks(at);
      }
      if (bytes[at] == lineEnd) {
        break;
      }
      column++;
      at += blanks ? 0 : 1;
    }
    at++;
    int count = column + 1;
    if (!anyCell && cells.isEmptyRow(from, at)) {
      block.skipLine();
      return at;
    }
    if (plan.dateColumn() >= 0) {
      timeBad |= !dateSeen;
    }
    if (plan.fractionColumn() >= 0) {
      timeBad |= Double.isNaN(rowFractionS);
    }
    if (count < slots.length) {
      for (int i = 0; i < kinds.length; i++) {
        if (plan.slots().get(i).column() >= count) {
          columns[i][row] = Double.NaN;
        }
      }
    }
    if (count < minCells || used > maxCells) {
      lose(Kind.WRONG_COUNT, 0, count + " cells");
    } else if (binary) {
      lose(Kind.BINARY, 0, "");
    } else if (timeBad && isHeader(from, at)) {
      lose(Kind.HEADER_AGAIN, 0, "");
    } else if (timeBad || (timeSlot >= 0 && Double.isNaN(columns[timeSlot][row]))) {
      lose(
          Kind.BAD_TIME,
          timeSlot < 0 ? 0 : plan.slots().get(timeSlot).column() + 1,
          timeCell(from));
    } else {
      if (plan.dateColumn() >= 0 && timeSlot >= 0) {
        columns[timeSlot][row] += (rowDay - plan.base().epochDay()) * (double) S_PER_DAY;
      }
      if (plan.fractionColumn() >= 0 && timeSlot >= 0) {
        columns[timeSlot][row] += rowFractionS;
      }
      block.keepRow();
    }
    return at;
  }

  /** Whether the line is the header once more; another header is noted as such. */
  private boolean isHeader(int from, int to) {
    List<String> header = plan.header();
    if (header.isEmpty()) {
      return false;
    }
    List<String> texts = plan.dialect().split(cells.decoded(from, to - 1).stripTrailing());
    int known = 0;
    int others = 0;
    for (String text : texts) {
      CsvDialect.CellKind kind = plan.dialect().kindOf(text);
      if (kind == CsvDialect.CellKind.NUMBER || kind == CsvDialect.CellKind.STAMP) {
        return false;
      }
      known += !text.isEmpty() && header.contains(text) ? 1 : 0;
      others += !text.isEmpty() && !header.contains(text) ? 1 : 0;
    }
    boolean same = texts.equals(header) || (texts.size() == 1 && header.contains(texts.get(0)));
    if (!same && known > 0 && known >= others) {
      block.noteOtherHeader();
    }
    return same;
  }

  private void lose(Kind kind, int column, String cell) {
    block.problems().add(kind, block.lines(), column, cell);
    block.skipLine();
  }

  private static boolean quotedDecimals(CsvDialect dialect) {
    return dialect.separator() == dialect.decimal();
  }

  private int skipLine(int from) {
    block.skipLine();
    return cells.lineEndFrom(from) + 1;
  }

  private String timeCell(int from) {
    return timeSlot < 0 ? "" : cells.cellOf(from, plan.slots().get(timeSlot).column());
  }

  /** Reads the number at {@code from} into {@link #value}; the way most cells go. */
  private int number(int from, int slot, int column) {
    byte[] text = bytes;
    int at = from;
    byte c = text[at];
    while (c == ' ') {
      c = text[++at];
    }
    int start = at;
    boolean negative = c == '-';
    if (negative || c == '+') {
      c = text[++at];
    }
    long digits = 0;
    int firstDigit = at;
    while (c >= '0' && c <= '9') {
      digits = digits * 10 + (c - '0');
      c = text[++at];
    }
    int count = at - firstDigit;
    int power = 0;
    if (c == decimal) {
      c = text[++at];
      int fraction = at;
      while (c >= '0' && c <= '9') {
        digits = digits * 10 + (c - '0');
        c = text[++at];
      }
      power = fraction - at;
      count -= power;
    }
    if (count > 0 && CsvCells.isExponentMark(c)) {
      c = text[++at];
      boolean down = c == '-';
      if (down || c == '+') {
        c = text[++at];
      }
      int exponent = 0;
      int firstOf = at;
      while (c >= '0' && c <= '9' && at - firstOf < 5) {
        exponent = exponent * 10 + (c - '0');
        c = text[++at];
      }
      if (at == firstOf) {
        return slowCell(from, slot, column);
      }
      power += down ? -exponent : exponent;
    }
    int end = at;
    while (c == ' ' || (c == '\t' && separator != '\t')) {
      if (blanks) {
        break;
      }
      c = text[++at];
    }
    boolean ends =
        c == separator
            || c == lineEnd
            || (c == '\r' && text[at + 1] == lineEnd)
            || (blanks && c == '\t');
    if (!ends
        || count == 0
        || kinds[slot] == CsvPlan.Kind.STAMP
        || kinds[slot] == CsvPlan.Kind.EPOCH) {
      return slowCell(from, slot, column);
    }
    if (c == '\r' && c != lineEnd) {
      at++;
    }
    anyCell = true;
    double result;
    if (count <= SAFE_DIGITS && digits <= EXACT && power >= -22 && power <= 22) {
      result = power < 0 ? digits / TEN[-power] : digits * TEN[power];
      result = negative ? -result : result;
    } else {
      result = exactly(start, end);
    }
    value = plain[slot] ? result : result * factors[slot] + offsets[slot];
    if (Double.isInfinite(value)) {
      value = Double.NaN;
      block.problems().add(Kind.INFINITE, block.lines(), column + 1, cells.plain(start, end));
    }
    return at;
  }

  private double exactly(int start, int end) {
    for (int i = start; i < end; i++) {
      if (bytes[i] == ',' || (bytes[i] | 0x20) == 'd') {
        return CsvCells.number(cells.plain(start, end), ',');
      }
    }
    return JavaDoubleParser.parseDouble(bytes, start, end - start);
  }

  private int date(int from) {
    int end = cells.skipCell(from);
    String cell = cells.unquoted(from, end);
    if (!cell.isEmpty()) {
      anyCell = true;
      if (dateClock.parse(cell) && dateClock.hasDate()) {
        dateSeen = true;
        rowDay = dateClock.epochDay();
        slow.watchDate(block, dateClock);
      }
    }
    return end;
  }

  /** Parts of a second that stand apart from the clock. */
  private int fraction(int from) {
    int end = cells.skipCell(from);
    String cell = cells.unquoted(from, end);
    if (!cell.isEmpty()) {
      anyCell = true;
      if (CsvCells.isNumber(cell, plan.dialect().decimal())) {
        double parts = CsvCells.number(cell, plan.dialect().decimal()) * plan.fractionUnitS();
        rowFractionS = parts >= 0 && parts < 1 ? parts : Double.NaN;
      }
    }
    return end;
  }

  /** Everything that is not a plain number: blanks, quotes, words, stamps, other bytes. */
  private int slowCell(int from, int slot, int column) {
    int end = cells.skipCell(from);
    String cell = cells.unquoted(from, end);
    boolean time = slot == timeSlot;
    value = Double.NaN;
    if (cell.isEmpty()) {
      if (!time) {
        block.problems().add(Kind.BLANK, block.lines(), column + 1, "");
      }
      return end;
    }
    anyCell = true;
    for (int i = 0; i < cell.length(); i++) {
      if (cell.charAt(i) < ' ' && cell.charAt(i) != '\t') {
        binary = true;
        return end;
      }
    }
    if (timeBad) {
      // The row is lost anyhow; one complaint is enough.
      return end;
    }
    value = slow.value(block, cell, slot, time);
    timeBad |= slow.timeIsBad();
    return end;
  }
}
