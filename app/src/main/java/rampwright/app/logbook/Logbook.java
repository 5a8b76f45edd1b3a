package rampwright.app.logbook;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * The store of starts. Each call that writes is one transaction: after a power cut it is there as a
 * whole or not at all. Several programs may write at a time.
 */
public final class Logbook implements AutoCloseable {
  private static final int WAIT_FOR_OTHERS_MS = 20_000;

  private final Connection connection;
  private final Location location;
  private final InstantSource clock;

  private Logbook(Connection connection, Location location, InstantSource clock) {
    this.connection = connection;
    this.location = location;
    this.clock = clock;
  }

  /**
   * Opens a logbook, making it where it is not there yet.
   *
   * @param where path of a file, or {@code postgresql://host/database}
   * @param environment where credentials of a shared logbook are looked up
   * @throws LogbookException where it cannot be opened, with the reason
   */
  public static Logbook open(
      String where, UnaryOperator<@Nullable String> environment, InstantSource clock)
      throws LogbookException {
    Location location = Location.of(where);
    try {
      Connection connection =
          DriverManager.getConnection(location.url(), location.credentials(environment));
      Logbook logbook = new Logbook(connection, location, clock);
      logbook.prepare();
      return logbook;
    } catch (SQLException e) {
      throw trouble(location, e);
    }
  }

  private void prepare() throws SQLException, LogbookException {
    try (Statement statement = connection.createStatement()) {
      if (location.store() == Location.Store.SQLITE) {
        statement.execute("PRAGMA busy_timeout = " + WAIT_FOR_OTHERS_MS);
        statement.execute("PRAGMA journal_mode = WAL");
        statement.execute("PRAGMA synchronous = FULL");
        statement.execute("PRAGMA foreign_keys = ON");
      }
    } catch (SQLException e) {
      connection.close();
      throw e;
    }
    try {
      inTransaction(
          () -> {
            Migrations.run(connection, location.store());
            return true;
          });
    } catch (LogbookException e) {
      connection.close();
      throw e;
    }
  }

  /** Work on the connection. */
  interface Work<T> {
    T run() throws SQLException, LogbookException;
  }

  private <T> T inTransaction(Work<T> work) throws LogbookException {
    try (Statement statement = connection.createStatement()) {
      // SQLite: the right to write is taken first, so that two writers wait rather than fail
      statement.execute(location.store() == Location.Store.SQLITE ? "BEGIN IMMEDIATE" : "BEGIN");
      boolean done = false;
      try {
        T result = work.run();
        statement.execute("COMMIT");
        done = true;
        return result;
      } finally {
        if (!done) {
          statement.execute("ROLLBACK");
        }
      }
    } catch (SQLException e) {
      throw trouble(location, e);
    }
  }

  /**
   * Enters starts, all or none. One that is already there word for word is passed over; one of the
   * same asset and instant with other content is entered as a correction of the former.
   */
  public Appended append(List<LogEntry> entries) throws LogbookException {
    return inTransaction(
        () -> {
          try (EntryWriter writer = new EntryWriter(connection, clock.instant())) {
            int added = 0;
            int corrected = 0;
            for (LogEntry entry : entries) {
              EntryWriter.Fate fate = writer.write(entry);
              added += fate == EntryWriter.Fate.KNOWN ? 0 : 1;
              corrected += fate == EntryWriter.Fate.CORRECTION ? 1 : 0;
            }
            return new Appended(added, entries.size() - added, corrected);
          }
        });
  }

  /**
   * What came of entering starts.
   *
   * @param added entries, corrections included
   * @param known that were there already
   * @param corrected entries that replace an older one
   */
  public record Appended(int added, int known, int corrected) {}

  /** Notes what a person says of an asset. */
  public void append(LogEvent event) throws LogbookException {
    inTransaction(
        () -> {
          try (PreparedStatement insert =
              connection.prepareStatement(
                  "INSERT INTO event (asset, at_utc, kind, text, author, logged_utc)"
                      + " VALUES (?, ?, ?, ?, ?, ?)")) {
            insert.setString(1, event.asset());
            insert.setString(2, UtcText.of(event.at()));
            insert.setString(3, event.kind().word());
            insert.setString(4, event.text());
            insert.setString(5, event.author());
            insert.setString(6, UtcText.of(clock.instant()));
            return insert.executeUpdate();
          }
        });
  }

  /** Notes limits; the last one of an asset and figure is the one that holds. */
  public void append(AssetLimit limit) throws LogbookException {
    inTransaction(
        () -> {
          try (PreparedStatement insert =
              connection.prepareStatement(
                  "INSERT INTO asset_limit (asset, figure, lowest, highest, logged_utc)"
                      + " VALUES (?, ?, ?, ?, ?)")) {
            insert.setString(1, limit.asset());
            insert.setString(2, limit.figure());
            insert.setObject(3, limit.min().isPresent() ? limit.min().getAsDouble() : null);
            insert.setObject(4, limit.max().isPresent() ? limit.max().getAsDouble() : null);
            insert.setString(5, UtcText.of(clock.instant()));
            return insert.executeUpdate();
          }
        });
  }

  /** Assets that have starts, in alphabetical order. */
  public List<String> assets() throws LogbookException {
    return reading(EntryReader::assets);
  }

  /** Starts of an asset as they now hold, in order of time, without their traces. */
  public List<LogEntry> starts(String asset) throws LogbookException {
    return reading(reader -> reader.starts(asset));
  }

  /** Events of an asset in order of time. */
  public List<LogEvent> events(String asset) throws LogbookException {
    return reading(reader -> reader.events(asset));
  }

  /** Limits of an asset by figure. */
  public Map<String, AssetLimit> limits(String asset) throws LogbookException {
    return reading(reader -> reader.limits(asset));
  }

  /** The trace of a start, where it is kept. */
  public Optional<byte[]> trace(String traceSha256) throws LogbookException {
    return reading(reader -> reader.trace(traceSha256));
  }

  /** Recomputes every hash; one line for each entry that is not as it was entered. */
  public Verified verify() throws LogbookException {
    return reading(EntryReader::verify);
  }

  /**
   * What verifying found.
   *
   * @param entries looked at
   * @param traces looked at
   * @param damaged one line each
   */
  public record Verified(int entries, int traces, List<String> damaged) {
    public Verified {
      damaged = List.copyOf(damaged);
    }
  }

  /**
   * Copies a file's logbook while it is in use.
   *
   * @throws LogbookException where it is shared: PostgreSQL has its own tools for that
   */
  public void backup(Path target) throws LogbookException {
    if (location.store() != Location.Store.SQLITE) {
      throw new LogbookException(
          "a shared logbook is backed up with the database's own tools, for example pg_dump");
    }
    try (PreparedStatement copy = connection.prepareStatement("VACUUM INTO ?")) {
      copy.setString(1, target.toString());
      copy.execute();
    } catch (SQLException e) {
      throw trouble(location, e);
    }
  }

  private interface Reading<T> {
    T of(EntryReader reader) throws SQLException;
  }

  private <T> T reading(Reading<T> reading) throws LogbookException {
    try {
      return reading.of(new EntryReader(connection));
    } catch (SQLException e) {
      throw trouble(location, e);
    }
  }

  /** How many entries there are, replaced ones included. */
  public long size() throws LogbookException {
    return reading(
        reader -> {
          try (Statement statement = connection.createStatement();
              ResultSet rows = statement.executeQuery("SELECT COUNT(*) FROM start")) {
            return rows.next() ? rows.getLong(1) : 0L;
          }
        });
  }

  @Override
  public void close() throws LogbookException {
    try {
      connection.close();
    } catch (SQLException e) {
      throw trouble(location, e);
    }
  }

  static LogbookException trouble(Location location, SQLException e) {
    String said = String.valueOf(e.getMessage()).replaceAll("\\s+", " ");
    String remedy;
    if (said.contains("SQLITE_NOTADB")) {
      remedy = "it is no logbook; name another file";
    } else if (said.contains("SQLITE_BUSY") || said.contains("SQLITE_LOCKED")) {
      remedy = "another program holds it; try again when it is done";
    } else if (said.contains("SQLITE_FULL")) {
      remedy = "the disk is full; nothing of this was entered; make room and repeat";
    } else if (said.contains("SQLITE_CANTOPEN")) {
      remedy = "the file cannot be opened; check the folder and who may write in it";
    } else if (said.contains("SQLITE_READONLY")) {
      remedy = "it may only be read; check who may write it";
    } else if (said.contains("SQLITE_CORRUPT")) {
      remedy = "the file is damaged; take the last backup and import what is newer again";
    } else if (location.store() == Location.Store.POSTGRESQL) {
      remedy = said + "; check address, PGUSER, PGPASSWORD or PGPASSFILE, and whether it runs";
    } else {
      remedy = said;
    }
    return new LogbookException("logbook " + location.shown() + ": " + remedy, e);
  }
}
