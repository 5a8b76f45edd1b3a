package rampwright.acquisition.file;

import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Dates and zones of a COMTRADE configuration. */
final class ComtradeDates {
  private static final Pattern DATE = Pattern.compile("(\\d{1,4})[/.-](\\d{1,2})[/.-](\\d{1,4})");
  private static final Pattern TIME =
      Pattern.compile("(\\d{1,2}):(\\d{1,2}):(\\d{1,2})(?:[.](\\d{1,12}))?");
  private static final Pattern OFFSET = Pattern.compile("([+-]?)(\\d{1,2})(?:[hH](\\d{1,2})?)?");
  private static final int NANO_DIGITS = 9;
  private static final int MICRO_DIGITS = 6;

  private ComtradeDates() {}

  /**
   * Date and time of a line {@code date,time}; null when it holds none.
   *
   * @param monthFirst the 1991 edition's order, mm/dd/yy; turned round when a number above 12 shows
   *     that it must be
   */
  static @Nullable LocalDateTime read(String line, boolean monthFirst) {
    String packed = line.replaceAll("\\s", "");
    int comma = packed.indexOf(',');
    if (comma < 0) {
      return null;
    }
    Matcher date = DATE.matcher(packed.substring(0, comma));
    Matcher time = TIME.matcher(trimCommas(packed.substring(comma + 1)));
    if (!date.matches() || !time.matches()) {
      return null;
    }
    int first = Integer.parseInt(date.group(1));
    int second = Integer.parseInt(date.group(2));
    int year = Integer.parseInt(date.group(3));
    int day = monthFirst ? second : first;
    int month = monthFirst ? first : second;
    if (first > 31) {
      day = year;
      month = second;
      year = first;
    } else if (month > 12 && day <= 12) {
      int swap = month;
      month = day;
      day = swap;
    }
    if (year < 100) {
      year += year < 70 ? 2000 : 1900;
    }
    try {
      return LocalDateTime.of(
          year,
          month,
          day,
          Integer.parseInt(time.group(1)),
          Integer.parseInt(time.group(2)),
          Integer.parseInt(time.group(3)),
          nanos(time.group(4)));
    } catch (DateTimeException e) {
      return null;
    }
  }

  /** True when the seconds of a line {@code date,time} are written finer than a microsecond. */
  static boolean isInNanoseconds(String line) {
    String packed = trimCommas(line.replaceAll("\\s", ""));
    int dot = packed.lastIndexOf('.');
    return dot > packed.lastIndexOf(':') && packed.length() - dot - 1 > MICRO_DIGITS;
  }

  /**
   * Minutes of an offset such as {@code -5h30}, {@code 0} or {@code +2}; null for anything else.
   */
  static @Nullable Integer offsetMinutes(String field) {
    Matcher offset = OFFSET.matcher(field.strip());
    if (!offset.matches()) {
      return null;
    }
    int hours = Integer.parseInt(offset.group(2));
    String minutePart = offset.group(3);
    int minutes = minutePart == null ? 0 : Integer.parseInt(minutePart);
    if (hours > 14 || minutes > 59) {
      return null;
    }
    int all = hours * 60 + minutes;
    return "-".equals(offset.group(1)) ? -all : all;
  }

  /**
   * What a 2013 file says of a leap second in the record (0 none, 1 added, 2 taken out, 3 not
   * known); empty when it says none. Field 1 of its line is the quality of the clock.
   */
  static List<String> leapRemarks(String[] fields) {
    String leap = fields.length > 1 ? fields[1].strip() : "";
    return leap.equals("1") || leap.equals("2")
        ? List.of(
            "a leap second was "
                + (leap.equals("1") ? "added" : "taken out")
                + " during the record; times within it count on evenly")
        : List.of();
  }

  private static int nanos(@Nullable String digits) {
    if (digits == null) {
      return 0;
    }
    String padded = (digits + "0".repeat(NANO_DIGITS)).substring(0, NANO_DIGITS);
    return Integer.parseInt(padded);
  }

  private static String trimCommas(String text) {
    int end = text.length();
    while (end > 0 && text.charAt(end - 1) == ',') {
      end--;
    }
    return text.substring(0, end);
  }
}
