package rampwright.acquisition.file;

import ch.randelshofer.fastdoubleparser.JavaDoubleParser;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.BitSet;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.Samples;

/** ASCII data: a line for each record, values with commas between. */
final class ComtradeAsciiData implements ComtradeData {
  private static final double MARK_1991 = 999_999;
  private static final double MARK_1999 = 99_999;
  private static final int LINE_BYTES_A_VALUE = 64;
  private static final int MOST_EXACT_DIGITS = 15;
  private static final double BAD = Double.POSITIVE_INFINITY;

  private final ComtradeParts parts;
  private final ComtradeConfig config;
  private final String name;
  private final int width;

  ComtradeAsciiData(ComtradeParts parts, ComtradeConfig config) {
    this.parts = parts;
    this.config = config;
    this.name = ComtradeParts.name(parts.dataFile());
    this.width = 2 + config.analogs().size() + config.statuses().size();
  }

  @Override
  public List<Samples> read(
      List<ComtradeField> fields, @Nullable BitSet keep, long heapBytes, List<String> warnings)
      throws IOException, TraceFileException {
    // A record has at least its commas and its line end.
    long most = (parts.dataEnd() - parts.dataStart()) / width + 1;
    long wanted = keep == null ? most : Math.min(most, keep.cardinality());
    int longest = (int) Math.min(1 << 28, Math.max(1 << 16, (long) width * LINE_BYTES_A_VALUE));
    try (ComtradeLines lines =
            new ComtradeLines(
                parts.dataFile(),
                name,
                parts.dataStart(),
                parts.dataEnd(),
                parts.dataLinesBefore(),
                longest);
        ComtradeColumns columns = new ComtradeColumns(fields.size(), wanted, heapBytes)) {
      Pass pass = new Pass(fields, keep, columns, warnings);
      while (lines.next() && pass.take(lines)) {}
      return pass.finish();
    } catch (ComtradeColumns.TooManyRows e) {
      throw new TraceFileException(name, 0, 0, ComtradeBinaryData.tooMany(e), e);
    }
  }

  /** One pass over the lines. */
  private final class Pass {
    private final ComtradeField[] fields;
    private final int[] places;
    private final @Nullable BitSet keep;
    private final ComtradeColumns columns;
    private final List<String> warnings;
    private final int[] cuts = new int[width + 1];
    private int records;
    private long shortRecords;
    private long firstShort;
    private int firstShortWidth;
    private boolean lastIsShort;
    private boolean lastIsKept;
    private long longRecords;
    private long firstLong;
    private long badCells;
    private long firstBadLine;
    private int firstBadColumn;
    private String firstBad = "";
    private double numberBefore = Double.NEGATIVE_INFINITY;
    private long falls;
    private long firstFall;

    Pass(
        List<ComtradeField> fields,
        @Nullable BitSet keep,
        ComtradeColumns columns,
        List<String> warnings) {
      this.fields = fields.toArray(new ComtradeField[0]);
      this.keep = keep;
      this.columns = columns;
      this.warnings = warnings;
      this.places = new int[this.fields.length];
      for (int f = 0; f < places.length; f++) {
        int index = this.fields[f].index();
        places[f] =
            switch (this.fields[f].kind()) {
              case STAMP -> 1;
              case ANALOG -> 2 + index;
              case STATUS -> 2 + config.analogs().size() + index;
            };
      }
    }

    /** Takes a line; false when the data end with it. */
    boolean take(ComtradeLines lines)
        throws IOException, TraceFileException, ComtradeColumns.TooManyRows {
      byte[] bytes = lines.buffer();
      int to = lines.to();
      int from = lines.from();
      while (to > from && bytes[to - 1] <= ' ' && bytes[to - 1] >= 0) {
        to--;
      }
      if (from == to) {
        return true;
      }
      if (bytes[from] == '-' && bytes[from + 1 < to ? from + 1 : from] == '-' && isHead(lines)) {
        return false;
      }
      int found = cut(bytes, from, to, lines.number());
      if (records == 0 && found < width) {
        throw new TraceFileException(
            name,
            lines.number(),
            found,
            "the first record has "
                + found
                + " values, but number, stamp, "
                + config.analogs().size()
                + " analog and "
                + config.statuses().size()
                + " status channels make "
                + width
                + "; values must be separated by commas; the data do not fit the configuration",
            null);
      }
      watchOrder(number(bytes, cuts[0], cuts[1] - 1));
      lastIsShort = found < width || (!lines.isTerminated() && bytes[to - 1] == '-');
      if (lastIsShort) {
        shortRecords++;
        if (firstShort == 0) {
          firstShort = lines.number();
          firstShortWidth = found;
        }
      }
      lastIsKept = keep == null || keep.get(records);
      records++;
      if (lastIsKept) {
        for (int f = 0; f < fields.length; f++) {
          int place = places[f];
          double value = MISSING;
          if (place < found) {
            value = value(bytes, cuts[place], cuts[place + 1] - 1, fields[f], lines);
          }
          columns.set(f, value);
        }
        columns.endRow();
      }
      return true;
    }

    /** Counts record numbers that do not rise; those that are none say nothing. */
    private void watchOrder(double number) {
      if (!Double.isFinite(number)) {
        return;
      }
      if (number <= numberBefore) {
        falls++;
        firstFall = firstFall == 0 ? records + 1L : firstFall;
      }
      numberBefore = number;
    }

    private void judgeOrder() throws TraceFileException {
      if (falls > records / 2) {
        throw new TraceFileException(
            name,
            "record numbers fall at "
                + falls
                + " of "
                + records
                + " records; the records do not stand in the order of time; export it anew or sort it"
                + " by its first column");
      }
      if (falls > 0) {
        warnings.add(
            name
                + ": record numbers fall at "
                + falls
                + " places, first at record "
                + firstFall
                + "; records may be out of order or come twice");
      }
    }

    private boolean isHead(ComtradeLines lines) {
      int length = Math.min(200, lines.to() - lines.from());
      return ComtradeParts.isSection(
          new String(lines.buffer(), lines.from(), length, StandardCharsets.ISO_8859_1));
    }

    /** Notes where each value begins; returns how many values there are, up to the width. */
    private int cut(byte[] bytes, int from, int to, long line) {
      cuts[0] = from;
      int found = 1;
      for (int i = from; i < to; i++) {
        if (bytes[i] == ',') {
          if (found == width) {
            cuts[width] = i + 1;
            noteExtra(bytes, i + 1, to, line);
            return width;
          }
          cuts[found++] = i + 1;
        }
      }
      cuts[found] = to + 1;
      return found;
    }

    private void noteExtra(byte[] bytes, int from, int to, long line) {
      for (int i = from; i < to; i++) {
        if (bytes[i] != ',' && bytes[i] != ' ') {
          longRecords++;
          if (firstLong == 0) {
            firstLong = line;
          }
          return;
        }
      }
    }

    private double value(byte[] bytes, int from, int to, ComtradeField field, ComtradeLines lines) {
      double stored = number(bytes, from, to);
      if (stored == BAD) {
        badCells++;
        if (firstBadLine == 0) {
          firstBadLine = lines.number();
          firstBadColumn = 1;
          for (int i = lines.from(); i < from; i++) {
            firstBadColumn += bytes[i] == ',' ? 1 : 0;
          }
          firstBad = shown(bytes, from, to);
        }
        return MISSING;
      }
      if (field.kind() == ComtradeField.Kind.ANALOG && isMark(stored, field)) {
        return MISSING;
      }
      return field.value(stored);
    }

    private boolean isMark(double stored, ComtradeField field) {
      return (stored == MARK_1999
              && (config.edition() == ComtradeEdition.E1999 || field.isOutside(stored)))
          || (stored == MARK_1991
              && (config.edition() == ComtradeEdition.E1991 || field.isOutside(stored)));
    }

    List<Samples> finish() throws IOException, TraceFileException, ComtradeColumns.TooManyRows {
      int without = 0;
      if (lastIsShort) {
        shortRecords--;
        records--;
        without = lastIsKept ? 1 : 0;
        warnings.add(name + ": the last line is cut off; left out");
      }
      if (records == 0) {
        throw new TraceFileException(
            name, "holds no complete record; the file is cut off or the data are elsewhere");
      }
      judgeOrder();
      if (shortRecords > records / 10) {
        throw new TraceFileException(
            name,
            firstShort,
            firstShortWidth,
            "the record ends after "
                + firstShortWidth
                + " of "
                + width
                + " values, and so do "
                + (shortRecords - 1)
                + " more of "
                + records
                + "; the data do not fit the configuration",
            null);
      }
      if (badCells > (long) records * fields.length / 10) {
        throw new TraceFileException(
            name,
            firstBadLine,
            firstBadColumn,
            "\""
                + firstBad
                + "\" is not a number, and neither are "
                + (badCells - 1)
                + " more; the data are not what the configuration says: check its data type and"
                + " numbers of channels",
            null);
      }
      if (shortRecords > 0) {
        warnings.add(
            name
                + " line "
                + firstShort
                + ": the record ends after "
                + firstShortWidth
                + " of "
                + width
                + " values; what is absent is taken as missing ("
                + shortRecords
                + " such records)");
      }
      if (longRecords > 0) {
        warnings.add(
            name
                + " line "
                + firstLong
                + ": more than "
                + width
                + " values in a record; the first "
                + width
                + " are used ("
                + longRecords
                + " such records)");
      }
      if (badCells > 0) {
        warnings.add(
            name
                + " line "
                + firstBadLine
                + " column "
                + firstBadColumn
                + ": \""
                + firstBad
                + "\" is not a number; taken as missing ("
                + badCells
                + " such values)");
      }
      return columns.finish(without);
    }
  }

  private static String shown(byte[] bytes, int from, int to) {
    return new String(
            bytes, from, Math.min(20, Math.max(0, to - from)), StandardCharsets.ISO_8859_1)
        .replaceAll("[^\\x20-\\x7e]", "?")
        .strip();
  }

  /** The number between two places; NaN for a blank, infinity for what is no finite number. */
  private static double number(byte[] bytes, int from, int to) {
    int i = from;
    int end = to;
    while (i < end && isBlank(bytes[i])) {
      i++;
    }
    while (end > i && isBlank(bytes[end - 1])) {
      end--;
    }
    if (i == end || isNan(bytes, i, end)) {
      return MISSING;
    }
    int digitsFrom = bytes[i] == '-' || bytes[i] == '+' ? i + 1 : i;
    long whole = 0;
    int at = digitsFrom;
    while (at < end
        && bytes[at] >= '0'
        && bytes[at] <= '9'
        && at - digitsFrom < MOST_EXACT_DIGITS) {
      whole = whole * 10 + (bytes[at] - '0');
      at++;
    }
    if (at == end && at > digitsFrom) {
      return bytes[i] == '-' ? -whole : whole;
    }
    try {
      double value = JavaDoubleParser.parseDouble(bytes, i, end - i);
      return Double.isInfinite(value) ? BAD : value;
    } catch (NumberFormatException e) {
      return BAD;
    }
  }

  private static boolean isNan(byte[] bytes, int from, int to) {
    return to - from == 3
        && (bytes[from] | 0x20) == 'n'
        && (bytes[from + 1] | 0x20) == 'a'
        && (bytes[from + 2] | 0x20) == 'n';
  }

  private static boolean isBlank(byte b) {
    return b == ' ' || b == '\t' || b == '"' || b == 0;
  }
}
