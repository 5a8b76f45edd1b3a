package rampwright.app.logbook;

import java.io.IOException;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;

/** Reads what was entered. */
final class EntryReader {
  private static final String COLUMNS =
      "s.id, s.asset, s.at_utc, s.settings, s.outcome, s.counts, s.reason, s.note, s.author,"
          + " s.source, s.tool_version, s.trace_sha256";

  private static final String IN_FORCE =
      " NOT EXISTS (SELECT 1 FROM start r WHERE r.replaces = s.id)";

  private final Connection connection;

  EntryReader(Connection connection) {
    this.connection = connection;
  }

  List<String> assets() throws SQLException {
    List<String> assets = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        ResultSet rows =
            statement.executeQuery("SELECT DISTINCT asset FROM start ORDER BY asset")) {
      while (rows.next()) {
        assets.add(rows.getString(1));
      }
    }
    return assets;
  }

  List<LogEntry> starts(String asset) throws SQLException {
    Map<Long, Map<String, LoggedFigure>> figures = new HashMap<>();
    try (PreparedStatement select =
        connection.prepareStatement(
            "SELECT f.start_id, f.figure, f.value, f.unit, f.uncertainty, f.why FROM figure f"
                + " JOIN start s ON s.id = f.start_id WHERE s.asset = ?")) {
      select.setString(1, asset);
      try (ResultSet rows = select.executeQuery()) {
        while (rows.next()) {
          figures
              .computeIfAbsent(rows.getLong(1), id -> new TreeMap<>())
              .put(rows.getString(2), figure(rows, 3));
        }
      }
    }
    List<LogEntry> entries = new ArrayList<>();
    try (PreparedStatement select =
        connection.prepareStatement(
            "SELECT "
                + COLUMNS
                + " FROM start s WHERE s.asset = ? AND"
                + IN_FORCE
                + " ORDER BY s.at_utc, s.id")) {
      select.setString(1, asset);
      try (ResultSet rows = select.executeQuery()) {
        while (rows.next()) {
          entries.add(entry(rows, figures.getOrDefault(rows.getLong(1), Map.of()), new byte[0]));
        }
      }
    }
    return entries;
  }

  private static LoggedFigure figure(ResultSet rows, int at) throws SQLException {
    double value = rows.getDouble(at);
    if (rows.wasNull()) {
      value = Double.NaN;
    }
    double uncertainty = rows.getDouble(at + 2);
    if (rows.wasNull()) {
      uncertainty = Double.NaN;
    }
    return new LoggedFigure(value, rows.getString(at + 1), uncertainty, rows.getString(at + 3));
  }

  private static LogEntry entry(ResultSet rows, Map<String, LoggedFigure> figures, byte[] trace)
      throws SQLException {
    return new LogEntry(
        rows.getString(2),
        Instant.parse(rows.getString(3)),
        rows.getString(4),
        rows.getString(5),
        rows.getInt(6) != 0,
        rows.getString(7),
        rows.getString(8),
        rows.getString(9),
        rows.getString(10),
        rows.getString(11),
        rows.getString(12),
        trace,
        figures);
  }

  List<LogEvent> events(String asset) throws SQLException {
    Map<String, LogEvent.Kind> kinds = new HashMap<>();
    for (LogEvent.Kind kind : LogEvent.Kind.values()) {
      kinds.put(kind.word(), kind);
    }
    List<LogEvent> events = new ArrayList<>();
    try (PreparedStatement select =
        connection.prepareStatement(
            "SELECT at_utc, kind, text, author FROM event WHERE asset = ? ORDER BY at_utc, id")) {
      select.setString(1, asset);
      try (ResultSet rows = select.executeQuery()) {
        while (rows.next()) {
          LogEvent.Kind kind = kinds.get(rows.getString(2));
          if (kind != null) {
            events.add(
                new LogEvent(
                    asset,
                    Instant.parse(rows.getString(1)),
                    kind,
                    rows.getString(3),
                    rows.getString(4)));
          }
        }
      }
    }
    return events;
  }

  Map<String, AssetLimit> limits(String asset) throws SQLException {
    Map<String, AssetLimit> limits = new LinkedHashMap<>();
    try (PreparedStatement select =
        connection.prepareStatement(
            "SELECT figure, lowest, highest FROM asset_limit WHERE asset = ? ORDER BY id")) {
      select.setString(1, asset);
      try (ResultSet rows = select.executeQuery()) {
        while (rows.next()) {
          String figure = rows.getString(1);
          limits.put(figure, new AssetLimit(asset, figure, optional(rows, 2), optional(rows, 3)));
        }
      }
    }
    return limits;
  }

  private static OptionalDouble optional(ResultSet rows, int at) throws SQLException {
    double value = rows.getDouble(at);
    return rows.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  Optional<byte[]> trace(String sha256) throws SQLException {
    try (PreparedStatement select =
        connection.prepareStatement(
            "SELECT trace FROM start WHERE trace_sha256 = ? ORDER BY id DESC")) {
      select.setString(1, sha256);
      try (ResultSet rows = select.executeQuery()) {
        while (rows.next()) {
          byte[] packed = rows.getBytes(1);
          if (packed != null && packed.length > 0) {
            return Optional.of(Packed.plain(packed));
          }
        }
        return Optional.empty();
      } catch (IOException e) {
        throw new SQLException("the trace " + sha256 + " is damaged", e);
      }
    }
  }

  Logbook.Verified verify() throws SQLException {
    List<String> damaged = new ArrayList<>();
    int entries = 0;
    int traces = 0;
    try (Statement statement = connection.createStatement();
        PreparedStatement figures =
            connection.prepareStatement(
                "SELECT figure, value, unit, uncertainty, why FROM figure WHERE start_id = ?");
        ResultSet rows =
            statement.executeQuery(
                "SELECT "
                    + COLUMNS
                    + ", s.fingerprint, s.packed_sha256, s.trace FROM start s"
                    + " ORDER BY s.id")) {
      while (rows.next()) {
        entries++;
        LogEntry entry = entry(rows, figures(figures, rows.getLong(1)), new byte[0]);
        String where = entry.asset() + " " + rows.getString(3);
        if (!Fingerprint.of(entry).equals(rows.getString(13))) {
          damaged.add(where + ": the entry is not as it was entered");
        }
        byte[] packed = rows.getBytes(15);
        if (packed != null && packed.length > 0) {
          traces++;
          if (!isWhole(packed, rows.getString(14))) {
            damaged.add(where + ": the trace is not as it was entered");
          }
        } else if (!rows.getString(14).isEmpty()) {
          damaged.add(where + ": the trace is gone");
        }
      }
    }
    return new Logbook.Verified(entries, traces, damaged);
  }

  private static Map<String, LoggedFigure> figures(PreparedStatement select, long id)
      throws SQLException {
    Map<String, LoggedFigure> figures = new TreeMap<>();
    select.setLong(1, id);
    try (ResultSet rows = select.executeQuery()) {
      while (rows.next()) {
        figures.put(rows.getString(1), figure(rows, 2));
      }
    }
    return figures;
  }

  private static boolean isWhole(byte[] packed, String sha256) {
    try {
      return Fingerprint.of(Packed.plain(packed)).equals(sha256);
    } catch (IOException e) {
      return false;
    }
  }
}
