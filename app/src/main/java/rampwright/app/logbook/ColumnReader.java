package rampwright.app.logbook;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Reads an asset's starts by column. Words that many starts share are kept once. */
final class ColumnReader {
  private static final int FIRST_FIGURE = 5;
  private static final int AT_FIRST = 256;

  /** A figure without a column has its value in the numbers, before a colon: few entries have. */
  private static final String BEFORE_FIGURES =
      "SELECT e.at_utc, e.settings,"
          + " CASE WHEN e.counts <> 0 AND e.outcome IN ('', 'completed') THEN 1 ELSE 0 END,"
          + " CASE WHEN e.numbers LIKE '%:%' THEN e.id ELSE 0 END, ";

  private static final String OTHERS =
      "SELECT wording, numbers FROM entry WHERE asset = ? AND id = ?";

  private static final String AFTER_FIGURES =
      // few are corrected: listed once sooner than looked for at each, as IN_FORCE does
      " FROM entry e WHERE e.asset = ? AND e.id NOT IN"
          + " (SELECT r.replaces FROM entry r WHERE r.asset = ? AND r.replaces IS NOT NULL)"
          + " ORDER BY e.at_utc, e.version";

  private final Connection connection;
  private final List<Instant> at = new ArrayList<>();
  private final List<String> settings = new ArrayList<>();
  private final List<Boolean> counts = new ArrayList<>();
  private final Map<String, String> words = new HashMap<>();
  private final double[][] columns = new double[FigureColumns.KEYS.size()][AT_FIRST];
  private final boolean[] present = new boolean[FigureColumns.KEYS.size()];
  private final Map<String, double[]> others = new HashMap<>();

  ColumnReader(Connection connection) {
    this.connection = connection;
  }

  StartColumns of(String asset) throws SQLException {
    try (EntryRows rows = new EntryRows(connection);
        FigureCells cells = FigureCells.of(connection);
        PreparedStatement without = connection.prepareStatement(OTHERS);
        PreparedStatement select =
            connection.prepareStatement(BEFORE_FIGURES + cells.selected() + AFTER_FIGURES)) {
      without.setString(1, asset);
      select.setString(1, asset);
      select.setString(2, asset);
      try (ResultSet row = select.executeQuery()) {
        while (row.next()) {
          take(row, cells.of(row, FIRST_FIGURE));
          long id = row.getLong(4);
          if (id != 0) {
            without.setLong(2, id);
            takeOthers(at.size() - 1, without, rows);
          }
        }
      }
    }
    int n = at.size();
    Map<String, double[]> figures = new LinkedHashMap<>();
    for (int i = 0; i < columns.length; i++) {
      if (present[i]) {
        figures.put(FigureColumns.KEYS.get(i), Arrays.copyOf(columns[i], n));
      }
    }
    // entered before the figure had its column, some starts may have it among the numbers
    others.forEach((key, values) -> figures.merge(key, padded(values, n), ColumnReader::either));
    return new StartColumns(at, settings, counts, figures);
  }

  private void take(ResultSet row, double[] values) throws SQLException {
    int n = at.size();
    at.add(UtcText.instant(row.getString(1)));
    settings.add(words.computeIfAbsent(row.getString(2), word -> word));
    counts.add(row.getInt(3) != 0);
    if (n == columns[0].length) {
      for (int i = 0; i < columns.length; i++) {
        columns[i] = Arrays.copyOf(columns[i], 2 * n);
      }
    }
    for (int i = 0; i < columns.length; i++) {
      columns[i][n] = values[i];
      present[i] |= Double.isFinite(values[i]);
    }
  }

  private void takeOthers(int n, PreparedStatement select, EntryRows rows) throws SQLException {
    try (ResultSet row = select.executeQuery()) {
      if (row.next()) {
        takeOthers(n, rows.figures(row.getString(1), row.getString(2)));
      }
    }
  }

  private void takeOthers(int n, Map<String, LoggedFigure> figures) {
    figures.forEach(
        (key, figure) -> {
          if (Double.isFinite(figure.value())) {
            double[] values = others.getOrDefault(key, new double[0]);
            if (values.length <= n) {
              values = padded(values, columns[0].length);
              others.put(key, values);
            }
            values[n] = figure.value();
          }
        });
  }

  private static double[] padded(double[] values, int n) {
    double[] padded = Arrays.copyOf(values, n);
    if (values.length < n) {
      Arrays.fill(padded, values.length, n, Double.NaN);
    }
    return padded;
  }

  private static double[] either(double[] first, double[] second) {
    for (int i = 0; i < first.length; i++) {
      first[i] = Double.isNaN(first[i]) ? second[i] : first[i];
    }
    return first;
  }
}
