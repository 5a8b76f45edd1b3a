package rampwright.app.logbook;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;

/** Rows of the table of entries as entries. Each wording is read once. */
final class EntryRows implements AutoCloseable {
  /** In the order {@link #kept} reads them. */
  static final String COLUMNS =
      "e.id, e.asset, e.at_utc, e.settings, e.outcome, e.counts, e.reason, e.note, e.author,"
          + " e.source, e.trial, e.tool_version, e.definitions, e.trace_sha256, e.files,"
          + " e.replaces, e.wording, e.numbers, e.logged_utc, e.fingerprint, e.seal, e.version, "
          + FigureColumns.listed("e.");

  /** Condition on {@code e}: no later entry corrects it. */
  static final String IN_FORCE =
      " NOT EXISTS (SELECT 1 FROM entry r WHERE r.asset = e.asset AND r.replaces = e.id)";

  private static final int FILES = 15;
  private static final int FINGERPRINT = 20;
  private static final int FIRST_FIGURE = 23;

  private final PreparedStatement wording;
  private final Map<String, List<FigureText.Line>> known = new HashMap<>();

  EntryRows(Connection connection) throws SQLException {
    wording = connection.prepareStatement("SELECT text FROM wording WHERE sha256 = ?");
  }

  KeptEntry kept(ResultSet row, boolean inForce) throws SQLException {
    Map<String, Double> values = new HashMap<>();
    for (int i = 0; i < FigureColumns.KEYS.size(); i++) {
      double value = row.getDouble(FIRST_FIGURE + i);
      if (!row.wasNull()) {
        values.put(FigureColumns.KEYS.get(i), value);
      }
    }
    long replaces = row.getLong(16);
    OptionalLong replaced = row.wasNull() ? OptionalLong.empty() : OptionalLong.of(replaces);
    return new KeptEntry(
        row.getLong(1),
        replaced,
        UtcText.instant(row.getString(19)),
        inForce,
        new LogEntry(
            row.getString(2),
            UtcText.instant(row.getString(3)),
            row.getString(4),
            row.getString(5),
            row.getInt(6) != 0,
            row.getString(7),
            row.getString(8),
            row.getString(9),
            new Origin(
                row.getString(10),
                row.getString(11),
                row.getString(12),
                row.getString(13),
                row.getString(14),
                List.of()),
            FigureText.figures(lines(row.getString(17)), row.getString(18), values)));
  }

  /** Figures of the numbers alone: those that have no column. */
  Map<String, LoggedFigure> figures(String wordingSha256, String numbers) throws SQLException {
    return FigureText.figures(lines(wordingSha256), numbers, Map.of());
  }

  /** Names and hashes of the entry's files, as they are kept. */
  static String files(ResultSet row) throws SQLException {
    return row.getString(FILES);
  }

  /** Whether what the row says, and how it was entered, is as it was entered. */
  static boolean isAsEntered(ResultSet row, KeptEntry kept) throws SQLException {
    String fingerprint = Fingerprint.of(kept.entry());
    String replaces = kept.replaces().isPresent() ? "" + kept.replaces().getAsLong() : "";
    String seal =
        Fingerprint.seal(
            fingerprint, kept.entry().origin(), files(row), replaces, row.getString(19));
    return fingerprint.equals(row.getString(FINGERPRINT))
        && seal.equals(row.getString(FINGERPRINT + 1));
  }

  private List<FigureText.Line> lines(String sha256) throws SQLException {
    List<FigureText.Line> lines = known.get(sha256);
    if (lines == null) {
      String text = wording(sha256);
      lines = text == null ? List.of() : FigureText.lines(text);
      known.put(sha256, lines);
    }
    return lines;
  }

  private @Nullable String wording(String sha256) throws SQLException {
    wording.setString(1, sha256);
    try (ResultSet rows = wording.executeQuery()) {
      return rows.next() ? rows.getString(1) : null;
    }
  }

  @Override
  public void close() throws SQLException {
    wording.close();
  }
}
