package rampwright.app.logbook;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.temporal.ChronoUnit;
import java.util.HexFormat;
import java.util.Map;

/**
 * SHA-256 over everything an entry says, so that a changed entry shows and a known one is known.
 */
final class Fingerprint {
  private Fingerprint() {}

  static String of(LogEntry entry) {
    StringBuilder text = new StringBuilder();
    add(text, entry.asset());
    add(text, entry.at().truncatedTo(ChronoUnit.MILLIS).toString());
    add(text, entry.settings());
    add(text, entry.outcome());
    add(text, Boolean.toString(entry.counts()));
    add(text, entry.reason());
    add(text, entry.note());
    add(text, entry.author());
    add(text, entry.traceSha256());
    for (Map.Entry<String, LoggedFigure> figure : entry.figures().entrySet()) {
      LoggedFigure value = figure.getValue();
      add(text, figure.getKey());
      add(text, Double.toString(value.value()));
      add(text, value.unit());
      add(text, Double.toString(value.uncertainty()));
      add(text, value.why());
    }
    return of(text.toString().getBytes(StandardCharsets.UTF_8));
  }

  /** Length before text, so that no two entries share one. */
  private static void add(StringBuilder text, String part) {
    text.append(part.length()).append(':').append(part).append('\n');
  }

  static String of(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
