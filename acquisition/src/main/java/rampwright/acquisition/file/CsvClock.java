package rampwright.acquisition.file;

import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Reads wall-clock stamps: ISO 8601, day first or month first, 12 and 24 hours, with or without
 * offset. One instance is used by one thread; after {@link #parse} its fields hold the last stamp.
 */
final class CsvClock {
  /** Order of day and month where the year does not come first. */
  enum Order {
    DAY_FIRST,
    MONTH_FIRST,
    /** No value above 12 tells the two apart; read as day first until the date changes. */
    UNDECIDED;

    /** The order a person names as the unit of the stamps; null when it is none. */
    static @Nullable Order named(@Nullable String unit) {
      String letters = unit == null ? "" : unit.toLowerCase(Locale.ROOT).replaceAll("[^dmy]+", "");
      if (letters.matches("d+m+y*")) {
        return DAY_FIRST;
      }
      return letters.matches("m+d+y*") ? MONTH_FIRST : null;
    }
  }

  private static final long SECOND = 1_000_000_000L;
  private static final String MONTHS = "janfebmaraprmayjunjulaugsepoctnovdec";
  private static final int LONGEST = 64;

  /** Letters that clocks put behind a time; common practice, no source. */
  private static final String[] ZONES = {
    "CET", "CEST", "MEZ", "MESZ", "WET", "WEST", "BST", "EET", "EEST", "MSK", "EST", "EDT", "CST",
    "CDT", "MST", "MDT", "PST", "PDT", "AKST", "HST", "AEST", "AEDT", "ACST", "AWST", "NZST",
    "NZDT", "JST", "KST", "IST", "SAST", "BRT", "HKT", "SGT"
  };

  private final Order order;
  private byte[] text = new byte[0];
  private int at;
  private int end;
  private int lastDigits;

  private boolean hasDate;
  private boolean hasClock;
  private boolean hasOffset;
  private boolean bigEndian;
  private int first;
  private int second;
  private long epochDay;
  private int lastYear;
  private int lastMonth;
  private int lastDay;
  private long nanosOfDay;
  private int offsetS;
  private String zoneName = "";

  CsvClock(Order order) {
    this.order = order;
  }

  boolean hasDate() {
    return hasDate;
  }

  boolean hasClock() {
    return hasClock;
  }

  /** Whether the stamp names its offset from UTC. */
  boolean hasOffset() {
    return hasOffset;
  }

  long epochDay() {
    return epochDay;
  }

  /** Nanoseconds since midnight, local to the stamp. */
  long nanosOfDay() {
    return nanosOfDay;
  }

  int offsetS() {
    return offsetS;
  }

  static boolean looksLikeStamp(String cell) {
    return cell.length() >= 5
        && cell.length() <= LONGEST
        && Character.isDigit(cell.charAt(0))
        && new CsvClock(Order.UNDECIDED).parse(cell);
  }

  /** The order that all stamps allow. */
  static Order orderOf(List<String> stamps) {
    CsvClock clock = new CsvClock(Order.UNDECIDED);
    for (String stamp : stamps) {
      if (clock.parse(stamp) && clock.hasDate && !clock.bigEndian) {
        if (clock.first > 12) {
          return Order.DAY_FIRST;
        }
        if (clock.second > 12) {
          return Order.MONTH_FIRST;
        }
        if (stamp.indexOf('.') >= 0 && stamp.indexOf('.') <= 2) {
          // Points between day, month and year are written day first (DIN 1355-1, before ISO 8601).
          return Order.DAY_FIRST;
        }
      }
    }
    return Order.UNDECIDED;
  }

  /** Whether the last stamp's date could be read in two ways. */
  boolean isAmbiguous() {
    return hasDate && !bigEndian && order == Order.UNDECIDED && first != second;
  }

  /**
   * Whether the last stamp's day and month were told apart by nothing but its likeness to others.
   */
  boolean isUndecided() {
    return hasDate && !bigEndian && order == Order.UNDECIDED;
  }

  boolean parse(String cell) {
    byte[] bytes = cell.getBytes(StandardCharsets.ISO_8859_1);
    return parse(bytes, 0, bytes.length);
  }

  boolean parse(byte[] bytes, int from, int to) {
    text = bytes;
    at = from;
    end = to;
    hasDate = false;
    hasClock = false;
    hasOffset = false;
    bigEndian = false;
    offsetS = 0;
    zoneName = "";
    nanosOfDay = 0;
    if (to - from > LONGEST || !date()) {
      return false;
    }
    if (at == end) {
      return hasDate;
    }
    if (hasDate && !gapBeforeClock()) {
      return false;
    }
    return clock() && offset() && (at == end || (bigEndian && peek() == '/'));
  }

  private int peek() {
    return at < end ? text[at] : -1;
  }

  private int digits(int most) {
    int value = 0;
    int from = at;
    while (at < end && at - from < most && text[at] >= '0' && text[at] <= '9') {
      value = value * 10 + text[at++] - '0';
    }
    lastDigits = at - from;
    return value;
  }

  /** Takes a date if one is there; false when what is there can be neither date nor clock. */
  private boolean date() {
    int from = at;
    int a = digits(8);
    int length = lastDigits;
    int mark = peek();
    if (length == 8 && (mark == 'T' || mark == ' ' || mark == ':')) {
      bigEndian = true;
      return day(a / 10000, a / 100 % 100, a % 100);
    }
    if (mark == ':') {
      at = from;
      return true;
    }
    boolean parted = mark == '-' || mark == '/' || mark == '.' || mark == ' ';
    if (!parted || (length != 4 && (length < 1 || length > 2))) {
      return false;
    }
    at++;
    int b = month();
    boolean named = b > 0;
    if (!named) {
      b = digits(2);
      if (lastDigits == 0 || mark == ' ') {
        return false;
      }
    }
    if (peek() != mark) {
      return false;
    }
    at++;
    int c = digits(4);
    if (length == 4) {
      bigEndian = true;
      return lastDigits > 0 && lastDigits <= 2 && day(a, b, c);
    }
    if (lastDigits != 4 && lastDigits != 2) {
      return false;
    }
    int year = lastDigits == 2 ? 2000 + c : c;
    first = a;
    second = b;
    bigEndian = named;
    boolean monthFirst =
        !named && (order == Order.MONTH_FIRST || (order == Order.UNDECIDED && b > 12));
    return monthFirst ? day(year, a, b) : day(year, b, a);
  }

  private int month() {
    if (end - at < 3) {
      return 0;
    }
    String name = new String(text, at, 3, StandardCharsets.ISO_8859_1).toLowerCase(Locale.ROOT);
    int index = Character.isLetter(name.charAt(0)) ? MONTHS.indexOf(name) : -1;
    if (index < 0 || index % 3 != 0) {
      return 0;
    }
    at += 3;
    return index / 3 + 1;
  }

  private boolean day(int year, int month, int day) {
    hasDate = true;
    // A file's rows mostly share one day; working it out once is enough.
    if (year == lastYear && month == lastMonth && day == lastDay) {
      return true;
    }
    if (year < 1900 || year > 2200 || month < 1 || month > 12 || day < 1 || day > 31) {
      return false;
    }
    try {
      epochDay = LocalDate.of(year, month, day).toEpochDay();
    } catch (DateTimeException e) {
      return false;
    }
    lastYear = year;
    lastMonth = month;
    lastDay = day;
    return true;
  }

  private boolean gapBeforeClock() {
    int mark = peek();
    if (mark == 'T' || mark == ':' || mark == '_' || mark == '-') {
      at++;
      return true;
    }
    int from = at;
    while (peek() == ' ' || peek() == '\t') {
      at++;
    }
    return at > from;
  }

  private boolean clock() {
    int hours = digits(2);
    if (lastDigits == 0) {
      return false;
    }
    boolean colon = peek() == ':';
    if (colon) {
      at++;
    } else if (!bigEndian || lastDigits != 2) {
      return false;
    }
    int minutes = digits(2);
    if (lastDigits == 0) {
      return false;
    }
    long nanos = 0;
    int seconds = 0;
    if (peek() == ':' || (!colon && at < end && Character.isDigit(peek()))) {
      at += colon ? 1 : 0;
      seconds = digits(2);
      if (lastDigits == 0) {
        return false;
      }
      if (peek() == '.' || peek() == ',' || peek() == ':') {
        nanos = fraction();
      }
    } else if ((peek() == '.' || peek() == ',') && !hasDate) {
      // 12:34.5 can only be minutes and seconds.
      nanos = fraction();
      seconds = minutes;
      minutes = hours;
      hours = 0;
    }
    hours = twelveHours(hours);
    hasClock = true;
    nanosOfDay = ((hours * 60L + minutes) * 60 + seconds) * SECOND + nanos;
    return hours >= 0 && hours < 24 && minutes < 60 && seconds < 61;
  }

  private long fraction() {
    at++;
    long value = digits(9);
    for (int i = lastDigits; i < 9; i++) {
      value *= 10;
    }
    // More digits than nanoseconds have no meaning for a recording.
    while (at < end && Character.isDigit(peek())) {
      at++;
    }
    return value;
  }

  private int twelveHours(int hours) {
    int from = at;
    while (peek() == ' ') {
      at++;
    }
    int half = peek() | 0x20;
    if ((half == 'a' || half == 'p') && at < end) {
      at++;
      at += peek() == '.' ? 1 : 0;
      if ((peek() | 0x20) == 'm') {
        at++;
        at += peek() == '.' ? 1 : 0;
        if (hours < 1 || hours > 12) {
          return -1;
        }
        return hours % 12 + (half == 'p' ? 12 : 0);
      }
    }
    at = from;
    return hours;
  }

  private boolean offset() {
    while (peek() == ' ') {
      at++;
    }
    if (peek() == 'Z') {
      at++;
      hasOffset = true;
    } else if (isWord("UTC") || isWord("GMT")) {
      at += 3;
      hasOffset = true;
      return at == end || shift();
    } else if (peek() == '+' || peek() == '-') {
      return shift();
    } else {
      for (String name : ZONES) {
        if (end - at == name.length() && isWord(name)) {
          zoneName = name;
          at = end;
        }
      }
    }
    return true;
  }

  /** The zone the last stamp names by letters; empty when it names none. */
  String zoneName() {
    return zoneName;
  }

  private boolean isWord(String word) {
    boolean same = end - at >= word.length();
    for (int i = 0; same && i < word.length(); i++) {
      same = text[at + i] == word.charAt(i);
    }
    return same;
  }

  /** Takes hours and minutes from UTC with their sign; one digit will do behind UTC or GMT. */
  private boolean shift() {
    if (peek() != '+' && peek() != '-') {
      return false;
    }
    boolean named = hasOffset;
    int sign = peek() == '-' ? -1 : 1;
    at++;
    int hours = digits(2);
    int minutes = 0;
    if (lastDigits != 2 && !(named && lastDigits == 1)) {
      return false;
    }
    at += peek() == ':' ? 1 : 0;
    if (at < end) {
      minutes = digits(2);
    }
    offsetS = sign * (hours * 60 + minutes) * 60;
    hasOffset = hours <= 18;
    return hasOffset;
  }
}
