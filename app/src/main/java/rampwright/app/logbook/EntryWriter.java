package rampwright.app.logbook;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Types;
import java.time.Instant;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Enters starts within a transaction. */
final class EntryWriter implements AutoCloseable {
  /** What became of an entry. */
  enum Fate {
    NEW,
    CORRECTION,
    KNOWN
  }

  private final PreparedStatement known;
  private final PreparedStatement former;
  private final PreparedStatement start;
  private final PreparedStatement figure;
  private final String now;

  EntryWriter(Connection connection, Instant now) throws SQLException {
    this.now = UtcText.of(now);
    known = connection.prepareStatement("SELECT id FROM start WHERE fingerprint = ?");
    former =
        connection.prepareStatement(
            "SELECT id FROM start s WHERE asset = ? AND at_utc = ? AND NOT EXISTS"
                + " (SELECT 1 FROM start r WHERE r.replaces = s.id) ORDER BY id DESC");
    start =
        connection.prepareStatement(
            "INSERT INTO start (asset, at_utc, settings, outcome, counts, reason, note, author,"
                + " source, tool_version, trace_sha256, trace, packed_sha256, fingerprint,"
                + " replaces, logged_utc) VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)",
            Statement.RETURN_GENERATED_KEYS);
    figure =
        connection.prepareStatement(
            "INSERT INTO figure (start_id, figure, value, unit, uncertainty, why)"
                + " VALUES (?,?,?,?,?,?)");
  }

  Fate write(LogEntry entry) throws SQLException {
    String fingerprint = Fingerprint.of(entry);
    known.setString(1, fingerprint);
    try (ResultSet rows = known.executeQuery()) {
      if (rows.next()) {
        return Fate.KNOWN;
      }
    }
    Long replaced = former(entry);
    byte[] packed = entry.trace().length == 0 ? new byte[0] : Packed.of(entry.trace());
    int at = 0;
    start.setString(++at, entry.asset());
    start.setString(++at, UtcText.of(entry.at()));
    start.setString(++at, entry.settings());
    start.setString(++at, entry.outcome());
    start.setInt(++at, entry.counts() ? 1 : 0);
    start.setString(++at, entry.reason());
    start.setString(++at, entry.note());
    start.setString(++at, entry.author());
    start.setString(++at, entry.source());
    start.setString(++at, entry.toolVersion());
    start.setString(++at, entry.traceSha256());
    start.setBytes(++at, packed);
    start.setString(++at, packed.length == 0 ? "" : Fingerprint.of(entry.trace()));
    start.setString(++at, fingerprint);
    if (replaced == null) {
      start.setNull(++at, Types.BIGINT);
    } else {
      start.setLong(++at, replaced);
    }
    start.setString(++at, now);
    start.executeUpdate();
    figures(id(), entry.figures());
    return replaced == null ? Fate.NEW : Fate.CORRECTION;
  }

  private @Nullable Long former(LogEntry entry) throws SQLException {
    former.setString(1, entry.asset());
    former.setString(2, UtcText.of(entry.at()));
    try (ResultSet rows = former.executeQuery()) {
      return rows.next() ? Long.valueOf(rows.getLong(1)) : null;
    }
  }

  private long id() throws SQLException {
    try (ResultSet keys = start.getGeneratedKeys()) {
      if (!keys.next()) {
        throw new SQLException("the store gave the entry no number");
      }
      return keys.getLong(1);
    }
  }

  private void figures(long id, Map<String, LoggedFigure> figures) throws SQLException {
    for (Map.Entry<String, LoggedFigure> entry : figures.entrySet()) {
      LoggedFigure value = entry.getValue();
      figure.setLong(1, id);
      figure.setString(2, entry.getKey());
      number(3, value.value());
      figure.setString(4, value.unit());
      number(5, value.uncertainty());
      figure.setString(6, value.why());
      figure.addBatch();
    }
    figure.executeBatch();
  }

  private void number(int at, double value) throws SQLException {
    if (Double.isFinite(value)) {
      figure.setDouble(at, value);
    } else {
      figure.setNull(at, Types.DOUBLE);
    }
  }

  @Override
  public void close() throws SQLException {
    try (known;
        former;
        start;
        figure) {
      // closed in turn
    }
  }
}
