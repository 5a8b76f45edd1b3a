package rampwright.app.logbook;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Map;

/** SHA-256 over what an entry says, and over how it was entered. */
final class Fingerprint {
  private Fingerprint() {}

  /** Of what an entry says: two entries that share it say the same. */
  static String of(LogEntry entry) {
    StringBuilder text = new StringBuilder();
    add(text, entry.asset());
    add(text, entry.at().toString());
    add(text, entry.settings());
    add(text, entry.outcome());
    add(text, Boolean.toString(entry.counts()));
    add(text, entry.reason());
    add(text, entry.note());
    add(text, entry.author());
    add(text, entry.origin().traceSha256());
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

  /**
   * Of an entry as a whole: besides what it says its origin, its files, what it replaces and when
   * it was entered, so that a change of any shows.
   */
  static String seal(
      String fingerprint, Origin origin, String files, String replaces, String loggedUtc) {
    StringBuilder text = new StringBuilder();
    add(text, fingerprint);
    add(text, origin.source());
    add(text, origin.trial());
    add(text, origin.toolVersion());
    add(text, origin.definitions());
    add(text, files);
    add(text, replaces);
    add(text, loggedUtc);
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
