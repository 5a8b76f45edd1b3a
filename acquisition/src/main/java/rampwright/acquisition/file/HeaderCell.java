package rampwright.acquisition.file;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.UnitTable.Unit;

/**
 * A column's header, parted into name and unit.
 *
 * @param index 0 based
 * @param text as in the file
 * @param name the text without its unit
 * @param unitText the unit as written; empty when none is
 * @param unit what it was understood to be; null when it is not a known unit
 */
record HeaderCell(int index, String text, String name, String unitText, @Nullable Unit unit) {

  /** Parts one header. {@code row} is all headers: a last letter may be a phase or a unit. */
  static HeaderCell of(int index, List<String> row, String unitRow) {
    String text = row.get(index);
    HeaderCell parted = part(index, text, row);
    if (!unitRow.isBlank()) {
      Unit unit = UnitTable.find(unitRow);
      if (unit != null || parted.unitText.isEmpty()) {
        return new HeaderCell(index, text, parted.name, unitRow.strip(), unit);
      }
    }
    return parted;
  }

  /** The same with the unit that its cells name. */
  HeaderCell withUnit(Unit ofCells) {
    return new HeaderCell(index, text, name, ofCells.symbol(), ofCells);
  }

  private static HeaderCell part(int index, String text, List<String> row) {
    String bare = text.strip();
    if (isUnitAlone(bare, row)) {
      return cell(index, text, "", bare);
    }
    HeaderCell bracketed = bracketed(index, text, bare);
    if (bracketed != null) {
      return bracketed;
    }
    int tick = bare.lastIndexOf('`');
    if (tick >= 0) {
      return cell(index, text, bare.substring(0, tick), bare.substring(tick + 1));
    }
    for (String mark : new String[] {" in ", ", ", " "}) {
      // 1/min and tr/min behind a word: their slash does not part name and unit.
      int at = bare.lastIndexOf(mark);
      String tail = at > 0 ? bare.substring(at + mark.length()).strip() : "";
      if (tail.indexOf('/') > 0 && UnitTable.find(tail) != null) {
        return cell(index, text, bare.substring(0, at), tail);
      }
    }
    for (int at = 1; at < bare.length() - 1; at++) {
      // The first slash, so that m/s and 1/min stay whole behind it.
      if (bare.charAt(at) == '/') {
        Unit unit = UnitTable.find(bare.substring(at + 1));
        if (unit != null) {
          return cell(index, text, bare.substring(0, at), bare.substring(at + 1));
        }
      }
    }
    for (String mark : new String[] {", ", " in ", "_", " "}) {
      int at = bare.lastIndexOf(mark);
      if (at > 0) {
        String tail = bare.substring(at + mark.length()).strip();
        if (UnitTable.find(tail) != null && !isPhaseLetter(bare, tail, row)) {
          return cell(index, text, bare.substring(0, at), tail);
        }
      }
    }
    return new HeaderCell(index, text, bare, "", null);
  }

  /**
   * Whether the header is a unit and no name: a unit of time in letters, or one among headers that
   * are all units.
   */
  private static boolean isUnitAlone(String bare, List<String> row) {
    Unit unit = UnitTable.find(bare);
    if (unit == null) {
      return false;
    }
    if (unit.dimension() == UnitTable.Dimension.TIME && bare.length() > 1) {
      // "min" is a minimum more often than minutes.
      return !unit.symbol().equals("min");
    }
    return row.stream()
        .filter(head -> !head.isBlank())
        .allMatch(
            head -> {
              Unit other = UnitTable.find(head);
              return other != null && head.strip().equals(other.symbol());
            });
  }

  private static @Nullable HeaderCell bracketed(int index, String text, String bare) {
    int close = bare.length() - 1;
    for (String pair : new String[] {"[]", "()", "{}"}) {
      int open = bare.lastIndexOf(pair.charAt(0));
      int end = bare.indexOf(pair.charAt(1), Math.max(open, 0));
      if (open >= 0
          && end > open + 1
          && (end == close || pair.equals("[]") || isUnit(bare, open, end))) {
        String name = bare.substring(0, open) + " " + bare.substring(end + 1);
        String inside = bare.substring(open + 1, end);
        if (!pair.equals("()") || UnitTable.find(inside) != null || name.isBlank()) {
          return cell(index, text, name, inside);
        }
        // (L1) is a phase and (foo) a unit nobody knows; the name keeps both.
        return new HeaderCell(index, text, bare, "", null);
      }
    }
    return null;
  }

  private static boolean isUnit(String bare, int open, int end) {
    return UnitTable.find(bare.substring(open + 1, end)) != null;
  }

  private static HeaderCell cell(int index, String text, String name, String unitText) {
    return new HeaderCell(index, text, name.strip(), unitText.strip(), UnitTable.find(unitText));
  }

  /** Whether a last letter is one of a family such as "Current A", "Current B", "Current C". */
  private static boolean isPhaseLetter(String bare, String tail, List<String> row) {
    if (tail.length() != 1) {
      return false;
    }
    String family =
        switch (tail.toUpperCase(Locale.ROOT)) {
          case "A", "B", "C" -> "ABC";
          case "R", "S", "T" -> "RST";
          case "U", "V", "W" -> "UVW";
          default -> "";
        };
    String stem = bare.substring(0, bare.length() - 1);
    int siblings = 0;
    for (int i = 0; i < family.length(); i++) {
      String other = stem + family.charAt(i);
      if (row.stream().anyMatch(head -> head.strip().equalsIgnoreCase(other))) {
        siblings++;
      }
    }
    return siblings > 1;
  }
}
