package rampwright.app.logbook;

import java.sql.Array;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Which of many starts a server knows nothing of: neither of their instant nor of their trial. One
 * question for all of them, since each costs a way there and back.
 */
final class NewStarts {
  private static final String SELECT =
      "SELECT w.k FROM unnest(?, ?, ?, ?) WITH ORDINALITY AS w(asset, at_utc, trial, trace, k)"
          + " WHERE EXISTS (SELECT 1 FROM entry e WHERE e.asset = w.asset"
          + " AND e.at_utc = w.at_utc)"
          + " OR (w.trial <> '' AND w.trace <> '' AND EXISTS (SELECT 1 FROM entry e"
          + " WHERE e.asset = w.asset AND e.trial = w.trial AND e.trace_sha256 = w.trace))";

  private NewStarts() {}

  /** Places of those of which nothing is there and which differ from each other in both. */
  static List<Integer> of(Connection connection, List<LogEntry> entries) throws SQLException {
    Set<Integer> known = known(connection, entries);
    Set<List<String>> instants = new HashSet<>();
    Set<List<String>> trials = new HashSet<>();
    List<Integer> fresh = new ArrayList<>();
    for (int i = 0; i < entries.size(); i++) {
      LogEntry entry = entries.get(i);
      Origin origin = entry.origin();
      boolean first = instants.add(List.of(entry.asset(), UtcText.of(entry.at())));
      if (origin.hasTrace() && !origin.trial().isEmpty()) {
        first &= trials.add(List.of(entry.asset(), origin.trial(), origin.traceSha256()));
      }
      if (first && !known.contains(i)) {
        fresh.add(i);
      }
    }
    return fresh;
  }

  private static Set<Integer> known(Connection connection, List<LogEntry> entries)
      throws SQLException {
    int n = entries.size();
    String[][] columns = new String[4][n];
    for (int i = 0; i < n; i++) {
      LogEntry entry = entries.get(i);
      columns[0][i] = entry.asset();
      columns[1][i] = UtcText.of(entry.at());
      columns[2][i] = entry.origin().trial();
      columns[3][i] = entry.origin().traceSha256();
    }
    Set<Integer> known = new HashSet<>();
    try (PreparedStatement select = connection.prepareStatement(SELECT)) {
      for (int i = 0; i < columns.length; i++) {
        Array array = connection.createArrayOf("text", columns[i]);
        select.setArray(i + 1, array);
      }
      try (ResultSet rows = select.executeQuery()) {
        while (rows.next()) {
          known.add((int) rows.getLong(1) - 1);
        }
      }
    }
    return known;
  }
}
