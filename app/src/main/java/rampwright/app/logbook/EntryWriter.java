package rampwright.app.logbook;

import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Enters starts within a transaction. Another writer may enter the same start meanwhile: the
 * store's unique keys let one through, and the other looks again.
 */
final class EntryWriter implements AutoCloseable {
  /** What became of an entry. */
  enum Fate {
    NEW,
    CORRECTION,
    KNOWN
  }

  /** Looks at a start before giving up; each one lost means another writer got through. */
  private static final int MOST_LOOKS = 50;

  /** Starts a server is asked about and told at a time. */
  private static final int MOST_TOGETHER = 200;

  private static final int FIXED_COLUMNS = 21;

  private final EntryRows rows;
  private final PreparedStatement atTime;
  private final PreparedStatement ofTrial;
  private final PreparedStatement wording;
  private final PreparedStatement file;
  private final PreparedStatement insert;
  private final Set<String> enteredWordings = new HashSet<>();
  private final Set<String> enteredFiles = new HashSet<>();
  private final String now;

  EntryWriter(Connection connection, Instant now) throws SQLException {
    this.now = UtcText.of(now);
    rows = new EntryRows(connection);
    atTime =
        connection.prepareStatement(
            "SELECT "
                + EntryRows.COLUMNS
                + ", CASE WHEN"
                + EntryRows.IN_FORCE
                + " THEN 1 ELSE 0 END AS in_force FROM entry e WHERE e.asset = ? AND e.at_utc = ?");
    ofTrial =
        connection.prepareStatement(
            "SELECT "
                + EntryRows.COLUMNS
                + " FROM entry e WHERE e.asset = ? AND e.trial = ? AND e.trace_sha256 = ? AND"
                + EntryRows.IN_FORCE);
    wording =
        connection.prepareStatement(
            "INSERT INTO wording (sha256, text) VALUES (?, ?) ON CONFLICT DO NOTHING");
    file =
        connection.prepareStatement(
            "INSERT INTO file (sha256, packed) VALUES (?, ?) ON CONFLICT DO NOTHING");
    insert =
        connection.prepareStatement(
            "INSERT INTO entry (asset, at_utc, version, settings, outcome, counts, reason, note,"
                + " author, source, trial, tool_version, definitions, trace_sha256, files,"
                + " replaces, wording, numbers, fingerprint, seal, logged_utc, "
                + FigureColumns.listed("")
                + ") VALUES ("
                + String.join(
                    ",", Collections.nCopies(FIXED_COLUMNS + FigureColumns.KEYS.size(), "?"))
                + ") ON CONFLICT DO NOTHING");
  }

  Fate write(LogEntry entry) throws SQLException {
    String fingerprint = Fingerprint.of(entry);
    for (int look = 0; look < MOST_LOOKS; look++) {
      Standing standing = standing(entry);
      Former former = standing.former();
      if (former != null
          && (former.fingerprint().equals(fingerprint)
              || entry.saysNoMoreThan(former.kept().entry()))) {
        return Fate.KNOWN;
      }
      if (insert(entry, fingerprint, standing)) {
        return former == null ? Fate.NEW : Fate.CORRECTION;
      }
    }
    throw new SQLException(
        "other programs keep entering " + entry.asset() + " " + entry.at() + "; try again");
  }

  /**
   * Enters all of them.
   *
   * @param together whether the store is a server, which is told of many in one way there and back
   */
  Logbook.Appended writeAll(Connection connection, List<LogEntry> entries, boolean together)
      throws SQLException {
    int added = 0;
    int corrected = 0;
    for (int from = 0; from < entries.size(); from += MOST_TOGETHER) {
      List<LogEntry> part = entries.subList(from, Math.min(from + MOST_TOGETHER, entries.size()));
      Set<Integer> entered =
          together ? writeTogether(part, NewStarts.of(connection, part)) : Set.of();
      added += entered.size();
      for (int i = 0; i < part.size(); i++) {
        if (!entered.contains(i)) {
          Fate fate = write(part.get(i));
          added += fate == Fate.KNOWN ? 0 : 1;
          corrected += fate == Fate.CORRECTION ? 1 : 0;
        }
      }
    }
    return new Logbook.Appended(added, entries.size() - added, corrected);
  }

  /**
   * Enters those of which the store knows nothing.
   *
   * @param fresh their places; no two of the same instant or trial
   * @return places of those that are in; another writer may have entered the others meanwhile
   */
  private Set<Integer> writeTogether(List<LogEntry> part, List<Integer> fresh) throws SQLException {
    for (int place : fresh) {
      LogEntry entry = part.get(place);
      fill(entry, Fingerprint.of(entry), new Standing(null, 0));
      insert.addBatch();
    }
    file.executeBatch();
    int[] rowsEach = insert.executeBatch();
    Set<Integer> entered = new HashSet<>();
    for (int i = 0; i < rowsEach.length; i++) {
      if (rowsEach[i] == 1) {
        entered.add(fresh.get(i));
      }
    }
    return entered;
  }

  /** The entry in force on the same start. */
  private record Former(KeptEntry kept, String fingerprint) {}

  /**
   * How a start stands, of one look: what another writer enters after it makes the insert fail.
   *
   * @param former the entry in force on the same start; null for none
   * @param version the latest of its instant; 0 for none
   */
  private record Standing(@Nullable Former former, int version) {}

  /** The former is that of the same instant; else, where that was corrected, of the same trial. */
  private Standing standing(LogEntry entry) throws SQLException {
    Former former = null;
    int version = 0;
    atTime.setString(1, entry.asset());
    atTime.setString(2, UtcText.of(entry.at()));
    try (ResultSet row = atTime.executeQuery()) {
      while (row.next()) {
        version = Math.max(version, row.getInt("version"));
        if (row.getInt("in_force") == 1) {
          former = new Former(rows.kept(row, true), row.getString("fingerprint"));
        }
      }
    }
    if (former == null && entry.origin().hasTrace() && !entry.origin().trial().isEmpty()) {
      ofTrial.setString(1, entry.asset());
      ofTrial.setString(2, entry.origin().trial());
      ofTrial.setString(3, entry.origin().traceSha256());
      try (ResultSet row = ofTrial.executeQuery()) {
        if (row.next()) {
          former = new Former(rows.kept(row, true), row.getString("fingerprint"));
        }
      }
    }
    return new Standing(former, version);
  }

  private boolean insert(LogEntry entry, String fingerprint, Standing standing)
      throws SQLException {
    fill(entry, fingerprint, standing);
    file.executeBatch();
    return insert.executeUpdate() == 1;
  }

  /** Puts the entry into the statement, and its files into theirs. */
  private void fill(LogEntry entry, String fingerprint, Standing standing) throws SQLException {
    Former former = standing.former();
    FigureText text = FigureText.of(entry.figures());
    String wordingSha256 = wording(text.wording());
    for (LogFile kept : entry.origin().files()) {
      file(kept);
    }
    Origin origin = entry.origin();
    String files = FileList.of(origin.files());
    String replaces = former == null ? "" : "" + former.kept().number();
    int at = 0;
    insert.setString(++at, entry.asset());
    insert.setString(++at, UtcText.of(entry.at()));
    insert.setInt(++at, 1 + standing.version());
    insert.setString(++at, entry.settings());
    insert.setString(++at, entry.outcome());
    insert.setInt(++at, entry.counts() ? 1 : 0);
    insert.setString(++at, entry.reason());
    insert.setString(++at, entry.note());
    insert.setString(++at, entry.author());
    insert.setString(++at, origin.source());
    insert.setString(++at, origin.trial());
    insert.setString(++at, origin.toolVersion());
    insert.setString(++at, origin.definitions());
    insert.setString(++at, origin.traceSha256());
    insert.setString(++at, files);
    if (former == null) {
      insert.setNull(++at, Types.BIGINT);
    } else {
      insert.setLong(++at, former.kept().number());
    }
    insert.setString(++at, wordingSha256);
    insert.setString(++at, text.numbers());
    insert.setString(++at, fingerprint);
    insert.setString(++at, Fingerprint.seal(fingerprint, origin, files, replaces, now));
    insert.setString(++at, now);
    for (String key : FigureColumns.KEYS) {
      double value = entry.value(key);
      if (Double.isFinite(value)) {
        insert.setDouble(++at, value);
      } else {
        insert.setNull(++at, Types.DOUBLE);
      }
    }
  }

  private String wording(String text) throws SQLException {
    String sha256 = Fingerprint.of(text.getBytes(StandardCharsets.UTF_8));
    if (enteredWordings.add(sha256)) {
      wording.setString(1, sha256);
      wording.setString(2, text);
      wording.executeUpdate();
    }
    return sha256;
  }

  private void file(LogFile kept) throws SQLException {
    String sha256 = kept.sha256();
    if (enteredFiles.add(sha256)) {
      file.setString(1, sha256);
      file.setBytes(2, Packed.of(kept.content()));
      file.addBatch();
    }
  }

  @Override
  public void close() throws SQLException {
    try (rows;
        atTime;
        ofTrial;
        wording;
        file;
        insert) {
      // closed in turn
    }
  }
}
