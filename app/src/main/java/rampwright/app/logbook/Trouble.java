package rampwright.app.logbook;

import java.sql.SQLException;

/** What a store says, in words that say what to do. */
final class Trouble {
  private Trouble() {}

  /** Whether another writer got in the way, and the same may well succeed when done again. */
  static boolean isMeeting(SQLException e) {
    String state = String.valueOf(e.getSQLState());
    return state.equals("40001") || state.equals("40P01") || state.equals("23505");
  }

  static LogbookException of(Location location, SQLException e) {
    String said = String.valueOf(e.getMessage()).replaceAll("\\s+", " ");
    String remedy =
        location.store() == Location.Store.POSTGRESQL
            ? shared(said, String.valueOf(e.getSQLState()))
            : file(said);
    return new LogbookException("logbook " + location.shown() + ": " + remedy, e);
  }

  private static String file(String said) {
    if (said.contains("SQLITE_NOTADB")) {
      return "it is no logbook; name another file";
    }
    if (said.contains("SQLITE_BUSY") || said.contains("SQLITE_LOCKED")) {
      return "another program holds it; try again when it is done";
    }
    if (said.contains("SQLITE_FULL")) {
      return "the disk is full; this part was not entered, what was before it stays; make room and repeat";
    }
    if (said.contains("SQLITE_IOERR")) {
      return "the disk cannot be read or written; this part was not entered; check room and"
          + " health of the disk and repeat ("
          + said
          + ")";
    }
    if (said.contains("SQLITE_CANTOPEN")) {
      return "the file cannot be opened; check the folder and who may write in it";
    }
    if (said.contains("SQLITE_READONLY")) {
      return "it may only be read; check who may write it";
    }
    if (said.contains("SQLITE_CORRUPT")) {
      return "the file is damaged; take the last backup and import what is newer again";
    }
    return said;
  }

  /** By the classes of the SQL standard's SQLSTATE and PostgreSQL's own. */
  private static String shared(String said, String state) {
    if (state.startsWith("28")) {
      return "the server does not let you in; check PGUSER and PGPASSWORD or PGPASSFILE ("
          + said
          + ")";
    }
    if (state.startsWith("08") || state.startsWith("57P")) {
      return "the server cannot be reached; check address, TLS and whether it runs (" + said + ")";
    }
    if (state.equals("3D000")) {
      return "there is no such database; make it first, for example with createdb (" + said + ")";
    }
    if (state.equals("42501")) {
      return "you may not do this there; ask whoever keeps the database (" + said + ")";
    }
    if (state.equals("53100")) {
      return "the server's disk is full; this part was not entered, what was before it stays; make room and repeat";
    }
    if (state.startsWith("53")) {
      return "the server has no room for this now; try again later (" + said + ")";
    }
    return said;
  }
}
