package rampwright.app.logbook;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Instants as text of one width, so that the order of texts is the order of time. */
final class UtcText {
  private static final DateTimeFormatter FORM =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
          .withZone(ZoneOffset.UTC);

  private UtcText() {}

  static String of(Instant at) {
    return FORM.format(at);
  }
}
