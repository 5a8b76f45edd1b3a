package rampwright.app.logbook;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;

/**
 * The tables, step by step from an empty store. A step that has been released is never changed; a
 * new need is a new step at the end.
 */
final class Migrations {
  /** Each step's statements. {@code #id} and {@code #bytes} stand for the store's own words. */
  private static final List<List<String>> STEPS =
      List.of(
          List.of(
              "CREATE TABLE start (id #id, asset TEXT NOT NULL, at_utc TEXT NOT NULL,"
                  + " settings TEXT NOT NULL, outcome TEXT NOT NULL, counts INTEGER NOT NULL,"
                  + " reason TEXT NOT NULL, note TEXT NOT NULL, author TEXT NOT NULL,"
                  + " source TEXT NOT NULL, tool_version TEXT NOT NULL,"
                  + " trace_sha256 TEXT NOT NULL, trace #bytes, packed_sha256 TEXT NOT NULL,"
                  + " fingerprint TEXT NOT NULL UNIQUE, replaces BIGINT REFERENCES start(id),"
                  + " logged_utc TEXT NOT NULL)",
              "CREATE INDEX start_of_asset ON start (asset, at_utc)",
              "CREATE INDEX start_replaced ON start (replaces)",
              "CREATE TABLE figure (start_id BIGINT NOT NULL REFERENCES start(id),"
                  + " figure TEXT NOT NULL, value DOUBLE PRECISION, unit TEXT NOT NULL,"
                  + " uncertainty DOUBLE PRECISION, why TEXT NOT NULL,"
                  + " PRIMARY KEY (start_id, figure))",
              "CREATE TABLE asset_limit (id #id, asset TEXT NOT NULL, figure TEXT NOT NULL,"
                  + " lowest DOUBLE PRECISION, highest DOUBLE PRECISION, logged_utc TEXT NOT NULL)",
              "CREATE TABLE event (id #id, asset TEXT NOT NULL, at_utc TEXT NOT NULL,"
                  + " kind TEXT NOT NULL, text TEXT NOT NULL, author TEXT NOT NULL,"
                  + " logged_utc TEXT NOT NULL)"));

  private static final List<String> TABLES = List.of("start", "figure", "asset_limit", "event");

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
      int done = done(statement);
      if (done > STEPS.size()) {
        throw new LogbookException(
            "the logbook was made by a newer version of this program (step "
                + done
                + ", this one knows "
                + STEPS.size()
                + "); use that version");
      }
      for (int step = done; step < STEPS.size(); step++) {
        for (String sql : STEPS.get(step)) {
          statement.execute(inWordsOf(store, sql));
        }
        if (step == 0) {
          forbidChanges(statement, store);
        }
        statement.execute("INSERT INTO logbook_step (step) VALUES (" + (step + 1) + ")");
      }
    }
  }

  private static int done(Statement statement) throws SQLException {
    try (ResultSet rows = statement.executeQuery("SELECT MAX(step) FROM logbook_step")) {
      return rows.next() ? rows.getInt(1) : 0;
    }
  }

  private static String inWordsOf(Location.Store store, String sql) {
    boolean sqlite = store == Location.Store.SQLITE;
    return sql.replace(
            "#id",
            sqlite
                ? "INTEGER PRIMARY KEY AUTOINCREMENT"
                : "BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY")
        .replace("#bytes", sqlite ? "BLOB" : "BYTEA");
  }

  /** The store itself refuses to change or delete what was entered. */
  private static void forbidChanges(Statement statement, Location.Store store) throws SQLException {
    if (store == Location.Store.POSTGRESQL) {
      statement.execute(
          "CREATE FUNCTION logbook_is_append_only() RETURNS trigger LANGUAGE plpgsql AS $$"
              + " BEGIN RAISE EXCEPTION 'the logbook is append-only'; END $$");
    }
    for (String table : TABLES) {
      for (String verb : List.of("UPDATE", "DELETE")) {
        statement.execute(
            "CREATE TRIGGER no_"
                + verb
                + "_of_"
                + table
                + " BEFORE "
                + verb
                + " ON "
                + table
                + (store == Location.Store.SQLITE
                    ? " BEGIN SELECT RAISE(ABORT, 'the logbook is append-only'); END"
                    : " FOR EACH STATEMENT EXECUTE FUNCTION logbook_is_append_only()"));
      }
    }
  }
}
