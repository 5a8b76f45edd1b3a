package rampwright.app.logbook;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Instants as text of one width, so that the order of texts is the order of time. */
final class UtcText {
  private static final DateTimeFormatter FORM =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
          .withZone(ZoneOffset.UTC);

  private static final int WIDTH = 24;

  private UtcText() {}

  static String of(Instant at) {
    return FORM.format(at);
  }

  /**
   * The instant again. A logbook of a million starts has as many of these: the usual form is read
   * by its places, any other by the general way.
   */
  static Instant instant(String text) {
    boolean usual =
        text.length() == WIDTH
            && text.charAt(4) == '-'
            && text.charAt(7) == '-'
            && text.charAt(10) == 'T'
            && text.charAt(13) == ':'
            && text.charAt(16) == ':'
            && text.charAt(19) == '.'
            && text.charAt(23) == 'Z';
    int year = usual ? number(text, 0, 4) : -1;
    int month = usual ? number(text, 5, 7) : -1;
    int day = usual ? number(text, 8, 10) : -1;
    int hour = usual ? number(text, 11, 13) : -1;
    int minute = usual ? number(text, 14, 16) : -1;
    int second = usual ? number(text, 17, 19) : -1;
    int milli = usual ? number(text, 20, 23) : -1;
    boolean inRange = hour >= 0 && hour < 24 && minute >= 0 && minute < 60 && second < 60;
    if (year < 0 || month < 1 || day < 1 || !inRange || second < 0 || milli < 0) {
      return Instant.parse(text);
    }
    long days = LocalDate.of(year, month, day).toEpochDay();
    long ofDay = (hour * 60L + minute) * 60L + second;
    return Instant.ofEpochSecond(days * 86_400L + ofDay, milli * 1_000_000L);
  }

  /** Of digits alone; -1 where there is anything else. */
  private static int number(String text, int from, int to) {
    int number = 0;
    for (int i = from; i < to; i++) {
      int digit = text.charAt(i) - '0';
      if (digit < 0 || digit > 9) {
        return -1;
      }
      number = 10 * number + digit;
    }
    return number;
  }
}
