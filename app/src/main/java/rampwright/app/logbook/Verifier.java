package rampwright.app.logbook;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Recomputes every hash, and looks whether everything an entry names is there. */
final class Verifier {
  private static final int FILES_AT_A_TIME = 20;

  private final Connection connection;
  private final List<String> damaged = new ArrayList<>();
  private final Set<String> whole = new HashSet<>();
  private int entries;
  private int files;

  Verifier(Connection connection) {
    this.connection = connection;
  }

  Logbook.Verified run() throws SQLException {
    wordings();
    files();
    entries();
    return new Logbook.Verified(entries, files, damaged);
  }

  private void wordings() throws SQLException {
    paged(
        "SELECT sha256, text FROM wording WHERE sha256 > ? ORDER BY sha256 LIMIT ?",
        EntryReader.PAGE,
        row -> {
          String sha256 = row.getString(1);
          byte[] text = row.getString(2).getBytes(StandardCharsets.UTF_8);
          if (Fingerprint.of(text).equals(sha256)) {
            whole.add(sha256);
          } else {
            damaged.add("wording " + sha256 + ": is not as it was entered");
          }
        });
  }

  private void files() throws SQLException {
    paged(
        "SELECT sha256, packed FROM file WHERE sha256 > ? ORDER BY sha256 LIMIT ?",
        FILES_AT_A_TIME,
        row -> {
          files++;
          String sha256 = row.getString(1);
          if (isWhole(row.getBytes(2), sha256)) {
            whole.add(sha256);
          } else {
            damaged.add("file " + sha256 + ": is not as it was entered");
          }
        });
  }

  private static boolean isWhole(byte[] packed, String sha256) {
    try {
      return Fingerprint.of(Packed.plain(packed)).equals(sha256);
    } catch (IOException e) {
      return false;
    }
  }

  private interface Look {
    void at(ResultSet row) throws SQLException;
  }

  /** Page after page, so that a large logbook needs little memory. The key is the first column. */
  private void paged(String sql, int page, Look look) throws SQLException {
    try (PreparedStatement select = connection.prepareStatement(sql)) {
      String after = "";
      boolean more = true;
      while (more) {
        int seen = 0;
        select.setString(1, after);
        select.setInt(2, page);
        try (ResultSet row = select.executeQuery()) {
          while (row.next()) {
            seen++;
            after = row.getString(1);
            look.at(row);
          }
        }
        more = seen == page;
      }
    }
  }

  /** Asset by asset, page after page. */
  private void entries() throws SQLException {
    try (EntryRows rows = new EntryRows(connection);
        PreparedStatement select =
            connection.prepareStatement(
                "SELECT "
                    + EntryRows.COLUMNS
                    + ", (SELECT COUNT(*) FROM entry o WHERE o.asset = e.asset"
                    + " AND o.id = e.replaces) AS replaced_there FROM entry e"
                    + " WHERE e.asset = ? AND (e.at_utc, e.version) > (?, ?)"
                    + " ORDER BY e.at_utc, e.version LIMIT ?")) {
      for (String asset : new EntryReader(connection).assets()) {
        String afterAt = "";
        int afterVersion = 0;
        int seen = EntryReader.PAGE;
        while (seen == EntryReader.PAGE) {
          seen = 0;
          select.setString(1, asset);
          select.setString(2, afterAt);
          select.setInt(3, afterVersion);
          select.setInt(4, EntryReader.PAGE);
          try (ResultSet row = select.executeQuery()) {
            while (row.next()) {
              seen++;
              afterAt = row.getString("at_utc");
              afterVersion = row.getInt("version");
              entry(rows, row);
            }
          }
        }
      }
    }
  }

  private void entry(EntryRows rows, ResultSet row) throws SQLException {
    entries++;
    KeptEntry kept = rows.kept(row, true);
    String where = kept.entry().asset() + " " + row.getString("at_utc");
    if (!EntryRows.isAsEntered(row, kept)) {
      damaged.add(where + ": the entry is not as it was entered");
    }
    if (!whole.contains(row.getString("wording"))) {
      damaged.add(where + ": the wording of its figures is gone or damaged");
    }
    for (FileList.Line file : FileList.lines(EntryRows.files(row))) {
      if (!whole.contains(file.sha256())) {
        damaged.add(where + ": its file " + file.name() + " is gone or damaged");
      }
    }
    if (kept.replaces().isPresent() && row.getInt("replaced_there") == 0) {
      damaged.add(where + ": the entry it corrects is gone");
    }
  }
}
