package rampwright.app.logbook;

import java.io.IOException;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;

/** Reads what was entered. */
final class EntryReader {
  /** Rows asked for at a time, where all are looked at. */
  static final int PAGE = 500;

  private final Connection connection;

  EntryReader(Connection connection) {
    this.connection = connection;
  }

  Connection connection() {
    return connection;
  }

  /** From asset to asset along the index; reading every entry would take as long as there are. */
  List<String> assets() throws SQLException {
    List<String> assets = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        ResultSet rows =
            statement.executeQuery(
                "WITH RECURSIVE present(asset) AS (SELECT MIN(asset) FROM entry UNION ALL"
                    + " SELECT (SELECT MIN(e.asset) FROM entry e WHERE e.asset > present.asset)"
                    + " FROM present WHERE present.asset IS NOT NULL)"
                    + " SELECT asset FROM present WHERE asset IS NOT NULL")) {
      while (rows.next()) {
        assets.add(rows.getString(1));
      }
    }
    Collections.sort(assets);
    return assets;
  }

  boolean holds(String asset) throws SQLException {
    try (PreparedStatement select =
        connection.prepareStatement("SELECT 1 FROM entry WHERE asset = ? LIMIT 1")) {
      select.setString(1, asset);
      try (ResultSet rows = select.executeQuery()) {
        return rows.next();
      }
    }
  }

  List<LogEntry> starts(String asset) throws SQLException {
    return inForce(asset, "ORDER BY e.at_utc, e.version", -1).stream()
        .map(KeptEntry::entry)
        .toList();
  }

  /** The newest starts in force, the newest first. */
  List<KeptEntry> newest(String asset, int most) throws SQLException {
    return inForce(asset, "ORDER BY e.at_utc DESC, e.version DESC LIMIT ?", most);
  }

  private List<KeptEntry> inForce(String asset, String order, int most) throws SQLException {
    return entries(
        "SELECT "
            + EntryRows.COLUMNS
            + " FROM entry e WHERE e.asset = ? AND"
            + EntryRows.IN_FORCE
            + " "
            + order,
        select -> {
          select.setString(1, asset);
          if (most >= 0) {
            select.setInt(2, most);
          }
        },
        Set.of());
  }

  /** Every entry on the asset's starts in a span of time, replaced ones too, in order of time. */
  List<KeptEntry> history(String asset, Instant from, Instant to) throws SQLException {
    Set<Long> replaced = new HashSet<>();
    try (PreparedStatement select =
        connection.prepareStatement(
            "SELECT replaces FROM entry WHERE asset = ? AND replaces IS NOT NULL")) {
      select.setString(1, asset);
      try (ResultSet rows = select.executeQuery()) {
        while (rows.next()) {
          replaced.add(rows.getLong(1));
        }
      }
    }
    return entries(
        "SELECT "
            + EntryRows.COLUMNS
            + " FROM entry e WHERE e.asset = ? AND e.at_utc >= ? AND e.at_utc <= ?"
            + " ORDER BY e.at_utc, e.version",
        select -> {
          select.setString(1, asset);
          select.setString(2, UtcText.of(from));
          select.setString(3, UtcText.of(to));
        },
        replaced);
  }

  private interface Filling {
    void into(PreparedStatement select) throws SQLException;
  }

  private List<KeptEntry> entries(String sql, Filling filling, Set<Long> replaced)
      throws SQLException {
    List<KeptEntry> entries = new ArrayList<>();
    try (EntryRows rows = new EntryRows(connection);
        PreparedStatement select = connection.prepareStatement(sql)) {
      filling.into(select);
      try (ResultSet row = select.executeQuery()) {
        while (row.next()) {
          entries.add(rows.kept(row, !replaced.contains(row.getLong(1))));
        }
      }
    }
    return entries;
  }

  List<LogEvent> events(String asset) throws SQLException {
    Map<String, LogEvent.Kind> kinds = new HashMap<>();
    for (LogEvent.Kind kind : LogEvent.Kind.values()) {
      kinds.put(kind.word(), kind);
    }
    List<LogEvent> events = new ArrayList<>();
    try (PreparedStatement select =
        connection.prepareStatement(
            "SELECT at_utc, kind, text, author, logged_utc FROM event WHERE asset = ? ORDER BY at_utc, id")) {
      select.setString(1, asset);
      try (ResultSet rows = select.executeQuery()) {
        while (rows.next()) {
          LogEvent.Kind kind = kinds.get(rows.getString(2));
          if (kind != null) {
            events.add(
                new LogEvent(
                    asset,
                    UtcText.instant(rows.getString(1)),
                    kind,
                    rows.getString(3),
                    rows.getString(4),
                    UtcText.instant(rows.getString(5))));
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

  /** Files of an entry, whole; those that are gone or damaged are left out. */
  List<LogFile> files(String asset, long number) throws SQLException {
    List<LogFile> files = new ArrayList<>();
    try (PreparedStatement select =
        connection.prepareStatement("SELECT files FROM entry WHERE asset = ? AND id = ?")) {
      select.setString(1, asset);
      select.setLong(2, number);
      try (ResultSet rows = select.executeQuery()) {
        if (rows.next()) {
          for (FileList.Line line : FileList.lines(rows.getString(1))) {
            file(line.sha256()).ifPresent(content -> files.add(new LogFile(line.name(), content)));
          }
        }
      }
    }
    return files;
  }

  /** A kept file by its hash; empty where it is not there or damaged. */
  Optional<byte[]> file(String sha256) throws SQLException {
    try (PreparedStatement select =
        connection.prepareStatement("SELECT packed FROM file WHERE sha256 = ?")) {
      select.setString(1, sha256);
      try (ResultSet rows = select.executeQuery()) {
        return rows.next() ? Optional.of(Packed.plain(rows.getBytes(1))) : Optional.empty();
      } catch (IOException damaged) {
        return Optional.empty();
      }
    }
  }

  /** Versions of the definitions of an asset's starts in force, and of how many starts each. */
  Map<String, Integer> definitions(String asset) throws SQLException {
    Map<String, Integer> versions = new LinkedHashMap<>();
    try (PreparedStatement select =
        connection.prepareStatement(
            "SELECT e.definitions, COUNT(*) FROM entry e WHERE e.asset = ? AND"
                + EntryRows.IN_FORCE
                + " AND e.definitions <> '' GROUP BY e.definitions ORDER BY e.definitions")) {
      select.setString(1, asset);
      try (ResultSet rows = select.executeQuery()) {
        while (rows.next()) {
          versions.put(rows.getString(1), rows.getInt(2));
        }
      }
    }
    return versions;
  }

  /** Keys of the figures that any entry has a value of. */
  List<String> figures() throws SQLException {
    String counts =
        FigureColumns.KEYS.stream()
            .map(key -> "COUNT(" + key + ")")
            .collect(Collectors.joining(", "));
    List<String> present = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery("SELECT " + counts + " FROM entry")) {
      row.next();
      for (int i = 0; i < FigureColumns.KEYS.size(); i++) {
        if (row.getLong(i + 1) > 0) {
          present.add(FigureColumns.KEYS.get(i));
        }
      }
    }
    return present;
  }

  long size() throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery("SELECT COUNT(*) FROM entry")) {
      return rows.next() ? rows.getLong(1) : 0L;
    }
  }

  OptionalInt lookedAt(String basis) throws SQLException {
    try (PreparedStatement select =
        connection.prepareStatement("SELECT starts FROM looked_at WHERE basis = ?")) {
      select.setString(1, basis);
      try (ResultSet rows = select.executeQuery()) {
        return rows.next() ? OptionalInt.of(rows.getInt(1)) : OptionalInt.empty();
      }
    }
  }
}
