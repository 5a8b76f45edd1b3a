package rampwright.app.chart;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Places the words of upright lines above a drawing so that none covers another or is crossed by a
 * line. Each word hangs on its line like a flag, to the right or left, in one of several rows; a
 * line reaches up through the lower rows to its own.
 */
final class FlagRows {
  private static final int MOST_ROWS = 9;
  private static final int MOST_STEPS = 8_000;

  /**
   * A line with its word.
   *
   * @param x position of the line
   * @param width width of the word with the air around it
   */
  record Flag(double x, double width) {}

  /**
   * Where a word goes.
   *
   * @param row 0 is nearest to the drawing
   * @param toTheLeft whether the word ends at the line instead of beginning there
   */
  record Place(int row, boolean toTheLeft) {}

  private final List<Flag> flags;
  private final double left;
  private final double right;
  private final List<Place> places = new ArrayList<>();
  private int steps;

  private FlagRows(List<Flag> flags, double left, double right) {
    this.flags = flags;
    this.left = left;
    this.right = right;
  }

  /**
   * Places for flags in ascending order of x, in as few rows as can be had.
   *
   * @param left words do not begin left of this
   * @param right words do not end right of this
   * @return a place for each flag, or null in a place's stead where a word cannot be shown
   */
  static List<@Nullable Place> of(List<Flag> flags, double left, double right) {
    for (int rows = 1; rows <= MOST_ROWS; rows++) {
      FlagRows attempt = new FlagRows(flags, left, right);
      if (attempt.place(0, rows)) {
        return new ArrayList<>(attempt.places);
      }
    }
    // Too many for the room: keep every second word and try again.
    List<Flag> fewer = new ArrayList<>();
    for (int i = 0; i < flags.size(); i += 2) {
      fewer.add(flags.get(i));
    }
    List<@Nullable Place> result = new ArrayList<>();
    List<@Nullable Place> kept = flags.size() < 2 ? List.of() : of(fewer, left, right);
    for (int i = 0; i < flags.size(); i++) {
      result.add(i % 2 == 0 && i / 2 < kept.size() ? kept.get(i / 2) : null);
    }
    return result;
  }

  private boolean place(int index, int rows) {
    if (index == flags.size()) {
      return true;
    }
    if (++steps > MOST_STEPS) {
      return false;
    }
    for (int row = 0; row < rows; row++) {
      for (boolean toTheLeft : new boolean[] {false, true}) {
        Place place = new Place(row, toTheLeft);
        if (fits(flags.get(index), place)) {
          places.add(place);
          if (place(index + 1, rows)) {
            return true;
          }
          places.remove(places.size() - 1);
        }
      }
    }
    return false;
  }

  private boolean fits(Flag flag, Place place) {
    double from = from(flag, place);
    if (from < left || from + flag.width() > right) {
      return false;
    }
    for (int i = 0; i < places.size(); i++) {
      Flag other = flags.get(i);
      Place otherPlace = places.get(i);
      double otherFrom = from(other, otherPlace);
      if (place.row() == otherPlace.row()) {
        if (from < otherFrom + other.width() && otherFrom < from + flag.width()) {
          return false;
        }
      } else if (place.row() < otherPlace.row()) {
        if (crosses(other.x(), from, flag.width())) {
          return false;
        }
      } else if (crosses(flag.x(), otherFrom, other.width())) {
        return false;
      }
    }
    return true;
  }

  private static boolean crosses(double x, double from, double width) {
    return x > from + 0.5 && x < from + width - 0.5;
  }

  private static double from(Flag flag, Place place) {
    return place.toTheLeft() ? flag.x() - flag.width() : flag.x();
  }
}
