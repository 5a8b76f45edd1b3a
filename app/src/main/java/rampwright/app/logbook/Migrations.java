package rampwright.app.logbook;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * The tables, step by step from an empty store. A step that has been released is never changed; a
 * new need is a new step. Steps are done in the order of their numbers, each once.
 *
 * <p>Every key begins with the asset (or is a hash), so that the tables can be spread over
 * partitions or servers by asset. Nothing refers across tables with a constraint, for the same
 * reason; {@link Verifier} looks after that.
 */
final class Migrations {
  /** Step of the first form, which was never released. */
  private static final int PRELIMINARY = 1;

  /**
   * One step.
   *
   * @param statements {@code #id} and {@code #bytes} stand for the store's own words, {@code #key}
   *     for the primary key where {@code #id} is none by itself
   * @param guarded tables whose rows are never changed or deleted
   */
  private record Step(int number, List<String> statements, List<String> guarded) {}

  private static final List<Step> STEPS =
      List.of(
          new Step(
              2,
              List.of(
                  "CREATE TABLE entry (id #id, asset TEXT NOT NULL, at_utc TEXT NOT NULL,"
                      + " version INTEGER NOT NULL, settings TEXT NOT NULL, outcome TEXT NOT NULL,"
                      + " counts INTEGER NOT NULL, reason TEXT NOT NULL, note TEXT NOT NULL,"
                      + " author TEXT NOT NULL, source TEXT NOT NULL, trial TEXT NOT NULL,"
                      + " tool_version TEXT NOT NULL, definitions TEXT NOT NULL,"
                      + " trace_sha256 TEXT NOT NULL, files TEXT NOT NULL, replaces BIGINT,"
                      + " wording TEXT NOT NULL, numbers TEXT NOT NULL, fingerprint TEXT NOT NULL,"
                      + " seal TEXT NOT NULL, logged_utc TEXT NOT NULL, "
                      + FigureColumns.KEYS.stream()
                          .map(key -> key + " DOUBLE PRECISION")
                          .collect(Collectors.joining(", "))
                      + "#key)",
                  // two writers cannot both enter the first word on a start, nor both replace one
                  "CREATE UNIQUE INDEX entry_of_start ON entry (asset, at_utc, version)",
                  "CREATE UNIQUE INDEX entry_replaced ON entry (asset, replaces)",
                  "CREATE INDEX entry_of_trial ON entry (asset, trial)",
                  "CREATE TABLE wording (sha256 TEXT PRIMARY KEY, text TEXT NOT NULL)",
                  "CREATE TABLE file (sha256 TEXT PRIMARY KEY, packed #bytes NOT NULL)",
                  "CREATE TABLE looked_at (basis TEXT PRIMARY KEY, starts INTEGER NOT NULL,"
                      + " logged_utc TEXT NOT NULL)",
                  "CREATE TABLE asset_limit (id #id, asset TEXT NOT NULL, figure TEXT NOT NULL,"
                      + " lowest DOUBLE PRECISION, highest DOUBLE PRECISION,"
                      + " logged_utc TEXT NOT NULL#key)",
                  "CREATE TABLE event (id #id, asset TEXT NOT NULL, at_utc TEXT NOT NULL,"
                      + " kind TEXT NOT NULL, text TEXT NOT NULL, author TEXT NOT NULL,"
                      + " logged_utc TEXT NOT NULL#key)",
                  "CREATE INDEX limit_of_asset ON asset_limit (asset)",
                  "CREATE INDEX event_of_asset ON event (asset)"),
              List.of("entry", "wording", "file", "looked_at", "asset_limit", "event")),
          new Step(101, AlertTable.STEP, List.of(AlertTable.NAME)));

  private Migrations() {}

  /** Brings the store to the newest step, all or nothing. */
  static void run(Connection connection, Location.Store store)
      throws SQLException, LogbookException {
    try (Statement statement = connection.createStatement()) {
      if (store == Location.Store.POSTGRESQL) {
        // one at a time: any number, the same for all who open a logbook
        statement.execute("SELECT pg_advisory_xact_lock(725021)");
      }
      statement.execute("CREATE TABLE IF NOT EXISTS logbook_step (step INTEGER PRIMARY KEY)");
      Set<Integer> done = done(statement);
      demandKnown(done);
      for (Step step : STEPS) {
        if (done.contains(step.number())) {
          continue;
        }
        for (String sql : step.statements()) {
          statement.execute(inWordsOf(store, sql));
        }
        forbidChanges(statement, store, step.guarded());
        try (PreparedStatement note =
            connection.prepareStatement("INSERT INTO logbook_step (step) VALUES (?)")) {
          note.setInt(1, step.number());
          note.executeUpdate();
        }
      }
    }
  }

  /** Whether nothing is left to do; asked first, since it needs no right to write. */
  static boolean areDone(Connection connection) throws LogbookException {
    try (Statement statement = connection.createStatement()) {
      Set<Integer> done = done(statement);
      demandKnown(done);
      return done.containsAll(STEPS.stream().map(Step::number).toList());
    } catch (SQLException noTablesYet) {
      return false;
    }
  }

  private static void demandKnown(Set<Integer> done) throws LogbookException {
    if (done.contains(PRELIMINARY)) {
      throw new LogbookException(
          "the logbook was made by a preliminary version of this program; export it with that"
              + " version and import the table, or the asset folders, into a new logbook");
    }
    Set<Integer> unknown = new TreeSet<>(done);
    STEPS.forEach(step -> unknown.remove(step.number()));
    if (!unknown.isEmpty()) {
      throw new LogbookException(
          "the logbook was made by a newer version of this program (it has step "
              + unknown.iterator().next()
              + ", which this one does not know); use that version");
    }
  }

  private static Set<Integer> done(Statement statement) throws SQLException {
    Set<Integer> done = new TreeSet<>();
    try (ResultSet rows = statement.executeQuery("SELECT step FROM logbook_step")) {
      while (rows.next()) {
        done.add(rows.getInt(1));
      }
    }
    return done;
  }

  private static String inWordsOf(Location.Store store, String sql) {
    boolean sqlite = store == Location.Store.SQLITE;
    return sql.replace(
            "#id",
            sqlite
                ? "INTEGER PRIMARY KEY AUTOINCREMENT"
                : "BIGINT GENERATED BY DEFAULT AS IDENTITY")
        .replace("#bytes", sqlite ? "BLOB" : "BYTEA")
        .replace("#key", sqlite ? "" : ", PRIMARY KEY (asset, id)");
  }

  /** The store itself refuses to change or delete what was entered. */
  private static void forbidChanges(Statement statement, Location.Store store, List<String> tables)
      throws SQLException {
    boolean sqlite = store == Location.Store.SQLITE;
    if (!sqlite) {
      statement.execute(
          "CREATE OR REPLACE FUNCTION logbook_is_append_only() RETURNS trigger LANGUAGE plpgsql"
              + " AS $$ BEGIN RAISE EXCEPTION 'the logbook is append-only'; END $$");
    }
    for (String table : tables) {
      for (String verb :
          sqlite ? List.of("UPDATE", "DELETE") : List.of("UPDATE", "DELETE", "TRUNCATE")) {
        statement.execute(
            "CREATE TRIGGER no_"
                + verb
                + "_of_"
                + table
                + " BEFORE "
                + verb
                + " ON "
                + table
                + (sqlite
                    ? " BEGIN SELECT RAISE(ABORT, 'the logbook is append-only'); END"
                    : " FOR EACH STATEMENT EXECUTE FUNCTION logbook_is_append_only()"));
      }
    }
  }
}
