package rampwright.acquisition.file;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** What was wrong with cells and rows: how often, and where first. */
final class CsvProblems {
  /** Kinds of trouble; the text says what was done about it. */
  enum Kind {
    BLANK("blank cells, marked missing", false),
    NO_READING("cells that say there is no reading, marked missing", false),
    INFINITE("infinite cells, marked missing", false),
    TEXT("cells that are not numbers, marked missing", false),
    GROUPED("cells with thousands separators, read without them", false),
    WRONG_COUNT("rows with the wrong number of cells, left out", true),
    BINARY("rows with bytes that are not text, left out", true),
    BAD_TIME("rows whose time cannot be read, left out", true),
    HEADER_AGAIN("header lines that come again, left out; the recorder may have begun anew", false);

    private final String text;
    private final boolean losesRow;

    Kind(String text, boolean losesRow) {
      this.text = text;
      this.losesRow = losesRow;
    }

    boolean losesRow() {
      return losesRow;
    }
  }

  /** A place: line counted within its block until it is merged, column 1 based, 0 for none. */
  record Place(long line, int column, String cell) {}

  private static final int PLACES_KEPT = 3;
  private static final int CELL_SHOWN = 40;

  private final Map<Kind, Long> counts = new EnumMap<>(Kind.class);
  private final Map<Kind, List<Place>> places = new EnumMap<>(Kind.class);

  void add(Kind kind, long line, int column, String cell) {
    if (count(kind) < PLACES_KEPT) {
      places
          .computeIfAbsent(kind, key -> new ArrayList<>())
          .add(new Place(line, column, shown(cell)));
    }
    counts.merge(kind, 1L, Long::sum);
  }

  boolean wantsPlace(Kind kind) {
    return count(kind) < PLACES_KEPT;
  }

  long count(Kind kind) {
    return counts.getOrDefault(kind, 0L);
  }

  List<Place> places(Kind kind) {
    return places.getOrDefault(kind, List.of());
  }

  /** Adds those of a later block whose first line is {@code firstLine}. */
  void merge(CsvProblems later, long firstLine) {
    later.counts.forEach(
        (kind, count) -> {
          for (Place place : later.places(kind)) {
            if (places(kind).size() < PLACES_KEPT) {
              places
                  .computeIfAbsent(kind, key -> new ArrayList<>())
                  .add(new Place(firstLine + place.line(), place.column(), place.cell()));
            }
          }
          counts.merge(kind, count, Long::sum);
        });
  }

  long rowsLost() {
    long lost = 0;
    for (Kind kind : Kind.values()) {
      lost += kind.losesRow() ? count(kind) : 0;
    }
    return lost;
  }

  /** One line for each kind that occurred. */
  List<String> warnings() {
    List<String> lines = new ArrayList<>();
    counts.forEach(
        (kind, count) -> {
          StringBuilder line = new StringBuilder();
          line.append(String.format(Locale.ROOT, "%d %s; first at ", count, kind.text));
          String between = "";
          for (Place place : places(kind)) {
            line.append(between).append("line ").append(place.line());
            if (place.column() > 0) {
              line.append(" column ").append(place.column());
            }
            if (!place.cell().isEmpty()) {
              line.append(" (\"").append(place.cell()).append("\")");
            }
            between = ", ";
          }
          lines.add(line.toString());
        });
    return lines;
  }

  /** A cell's text short enough and clean enough for a message. */
  static String shown(String cell) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < cell.length() && i < CELL_SHOWN; i++) {
      char c = cell.charAt(i);
      text.append(Character.isISOControl(c) ? '?' : c);
    }
    return cell.length() > CELL_SHOWN ? text + "..." : text.toString();
  }
}
