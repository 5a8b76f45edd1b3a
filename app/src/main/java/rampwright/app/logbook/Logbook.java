package rampwright.app.logbook;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.concurrent.locks.LockSupport;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * The store of starts. Each call that writes is one transaction: after a power cut it is there as a
 * whole or not at all. Several programs may write at a time.
 */
public final class Logbook implements AutoCloseable {
  private static final int WAIT_FOR_OTHERS_MS = 20_000;

  // sqlite.org, result codes: the file is held by another connection.
  private static final int SQLITE_BUSY = 5;

  private static final int WAL_PAUSE_MS = 20;

  private static final int CACHE_KIB = 32_000;

  /** Meetings with other writers a transaction survives. */
  private static final int MOST_TRIES = 20;

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
      throw Trouble.of(location, e);
    }
  }

  private void prepare() throws SQLException, LogbookException {
    try (Statement statement = connection.createStatement()) {
      if (location.store() == Location.Store.SQLITE) {
        statement.execute("PRAGMA busy_timeout = " + WAIT_FOR_OTHERS_MS);
        writeAhead(statement);
        statement.execute("PRAGMA synchronous = FULL");
        statement.execute("PRAGMA foreign_keys = ON");
        // the starts of one asset lie among those of others: the next asset's are on the same pages
        statement.execute("PRAGMA cache_size = " + -CACHE_KIB);
      }
    } catch (SQLException e) {
      connection.close();
      throw e;
    }
    try {
      if (!Migrations.areDone(connection)) {
        inTransaction(
            () -> {
              Migrations.run(connection, location.store());
              return true;
            });
      }
    } catch (LogbookException e) {
      connection.close();
      throw e;
    }
  }

  /** Where several open a new file at once, the library does not wait for this change by itself. */
  private static void writeAhead(Statement statement) throws SQLException {
    for (int tries = 1; ; tries++) {
      try {
        statement.execute("PRAGMA journal_mode = WAL");
        return;
      } catch (SQLException e) {
        if (tries >= WAIT_FOR_OTHERS_MS / WAL_PAUSE_MS || e.getErrorCode() != SQLITE_BUSY) {
          throw e;
        }
        LockSupport.parkNanos(1_000_000L * WAL_PAUSE_MS);
      }
    }
  }

  /** Work on the connection. */
  interface Work<T> {
    T run() throws SQLException, LogbookException;
  }

  /** All or nothing; what only met another writer is done again. */
  private <T> T inTransaction(Work<T> work) throws LogbookException {
    for (int tries = 1; ; tries++) {
      try {
        return once(work);
      } catch (SQLException e) {
        if (tries >= MOST_TRIES || !Trouble.isMeeting(e)) {
          throw Trouble.of(location, e);
        }
      }
    }
  }

  private <T> T once(Work<T> work) throws SQLException, LogbookException {
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
          rollBack(statement);
        }
      }
    }
  }

  private static void rollBack(Statement statement) {
    try {
      statement.execute("ROLLBACK");
    } catch (SQLException e) {
      // A full disk or a lost server has done so already; what went wrong first is what is said.
    }
  }

  /**
   * Enters starts, all or none. One that says what the entry in force says is passed over; one of
   * the same asset and instant with other content is entered as a correction of the former, and so
   * is one of the same trial and trace whose instant was corrected.
   */
  public Appended append(List<LogEntry> entries) throws LogbookException {
    return append(entries, Map.of());
  }

  /**
   * The same, and notes what they rest on, so that it need not be looked at again.
   *
   * @param bases hash of what was looked at, and how many of the starts rest on it
   */
  public Appended append(List<LogEntry> entries, Map<String, Integer> bases)
      throws LogbookException {
    // everybody in the same order, or two writers could wait for each other
    List<LogEntry> ordered = new ArrayList<>(entries);
    ordered.sort(Comparator.comparing(LogEntry::asset).thenComparing(LogEntry::at));
    return inTransaction(
        () -> {
          noteLookedAt(bases);
          try (EntryWriter writer = new EntryWriter(connection, clock.instant())) {
            return writer.writeAll(
                connection, ordered, location.store() == Location.Store.POSTGRESQL);
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

  private void noteLookedAt(Map<String, Integer> bases) throws SQLException {
    try (PreparedStatement insert =
        connection.prepareStatement(
            "INSERT INTO looked_at (basis, starts, logged_utc) VALUES (?, ?, ?)"
                + " ON CONFLICT DO NOTHING")) {
      for (Map.Entry<String, Integer> basis : new TreeMap<>(bases).entrySet()) {
        insert.setString(1, basis.getKey());
        insert.setInt(2, basis.getValue());
        insert.setString(3, UtcText.of(clock.instant()));
        insert.executeUpdate();
      }
    }
  }

  /** How many starts resting on this were entered; empty where it was never looked at. */
  public OptionalInt lookedAt(String basis) throws LogbookException {
    return reading(reader -> reader.lookedAt(basis));
  }

  /** What time it is, by the clock that dates entries. */
  public Instant now() {
    return clock.instant();
  }

  /** Enters what becomes of alerts; what another program has entered already is passed over. */
  public List<AlertAct> appendAlerts(List<AlertAct> acts) throws LogbookException {
    return inTransaction(() -> new AlertTable(connection).append(acts, clock.instant()));
  }

  /** What became of an asset's alerts, in order. */
  public List<AlertAct> alerts(String asset) throws LogbookException {
    return reading(reader -> new AlertTable(reader.connection()).of(asset));
  }

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

  /** Whether an asset has starts. */
  public boolean holds(String asset) throws LogbookException {
    return reading(reader -> reader.holds(asset));
  }

  /** Starts of an asset as they now hold, in order of time, without their traces. */
  public List<LogEntry> starts(String asset) throws LogbookException {
    return reading(reader -> reader.starts(asset));
  }

  /** The same by column, with their figures' values alone. */
  public StartColumns columns(String asset) throws LogbookException {
    return reading(reader -> new ColumnReader(reader.connection()).of(asset));
  }

  /** Events of an asset in order of time. */
  public List<LogEvent> events(String asset) throws LogbookException {
    return reading(reader -> reader.events(asset));
  }

  /** Limits of an asset by figure. */
  public Map<String, AssetLimit> limits(String asset) throws LogbookException {
    return reading(reader -> reader.limits(asset));
  }

  /** The newest starts of an asset as they now hold, the newest first. */
  public List<KeptEntry> newest(String asset, int most) throws LogbookException {
    return reading(reader -> reader.newest(asset, most));
  }

  /** Every entry on an asset's starts of that time, replaced ones too, in order of time. */
  public List<KeptEntry> history(String asset, Instant from, Instant to) throws LogbookException {
    return reading(reader -> reader.history(asset, from, to));
  }

  /** The files an entry rests on, as far as they are kept. */
  public List<LogFile> files(KeptEntry kept) throws LogbookException {
    return reading(reader -> reader.files(kept.entry().asset(), kept.number()));
  }

  /** Recomputes every hash; one line for each entry that is not as it was entered. */
  public Verified verify() throws LogbookException {
    return reading(reader -> new Verifier(reader.connection()).run());
  }

  /**
   * What verifying found.
   *
   * @param entries looked at
   * @param files kept with them
   * @param damaged one line each
   */
  public record Verified(int entries, int files, List<String> damaged) {
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
    Path part = target.resolveSibling(target.getFileName() + ".part");
    try {
      Files.deleteIfExists(part);
      try (PreparedStatement copy = connection.prepareStatement("VACUUM INTO ?")) {
        copy.setString(1, part.toString());
        copy.execute();
      }
      try (FileChannel written = FileChannel.open(part, StandardOpenOption.WRITE)) {
        written.force(true);
      }
      // only a whole copy has the name that was asked for
      Files.move(part, target);
    } catch (SQLException e) {
      throw Trouble.of(location, e);
    } catch (IOException e) {
      throw new LogbookException(
          "backup " + target + ": cannot be written (" + e + "); check folder and room", e);
    } finally {
      deleteQuietly(part);
    }
  }

  private static void deleteQuietly(Path part) {
    try {
      Files.deleteIfExists(part);
    } catch (IOException e) {
      // It is in nobody's way but the next backup's, which tries again.
    }
  }

  /** Versions of the definitions an asset's starts in force were taken by, with their numbers. */
  public Map<String, Integer> definitions(String asset) throws LogbookException {
    return reading(reader -> reader.definitions(asset));
  }

  /** Keys of the figures that any entry has. */
  public List<String> figures() throws LogbookException {
    return reading(EntryReader::figures);
  }

  /**
   * Writes the starts in force as a Parquet file, asset by asset.
   *
   * @param target a file that is not there yet
   * @throws IOException where it cannot be written
   */
  public void exportParquet(Path target) throws LogbookException, IOException {
    try (ParquetStarts out = new ParquetStarts(target, figures())) {
      for (String asset : assets()) {
        for (LogEntry entry : starts(asset)) {
          out.write(entry);
        }
      }
    }
  }

  private interface Reading<T> {
    T of(EntryReader reader) throws SQLException;
  }

  private <T> T reading(Reading<T> reading) throws LogbookException {
    try {
      return reading.of(new EntryReader(connection));
    } catch (SQLException e) {
      throw Trouble.of(location, e);
    }
  }

  /** How many entries there are, replaced ones included. */
  public long size() throws LogbookException {
    return reading(EntryReader::size);
  }

  @Override
  public void close() throws LogbookException {
    try {
      connection.close();
    } catch (SQLException e) {
      throw Trouble.of(location, e);
    }
  }
}
