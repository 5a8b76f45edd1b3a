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
  private static final String COMPLETED = "completed";
  private static final int FIRST_FIGURE = 7;
  private static final int AT_FIRST = 256;

  /** A figure without a column has its value in the numbers, before a colon. */
  private static final String BEFORE_FIGURES =
      "SELECT e.at_utc, e.settings, e.outcome, e.counts,"
          + " CASE WHEN e.numbers LIKE '%:%' THEN e.wording END,"
          + " CASE WHEN e.numbers LIKE '%:%' THEN e.numbers END, ";

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
        PreparedStatement select =
            connection.prepareStatement(BEFORE_FIGURES + cells.selected() + AFTER_FIGURES)) {
      select.setString(1, asset);
      select.setString(2, asset);
      try (ResultSet row = select.executeQuery()) {
        while (row.next()) {
          take(row, cells.of(row, FIRST_FIGURE), rows);
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

  private void take(ResultSet row, double[] values, EntryRows rows) throws SQLException {
    int n = at.size();
    at.add(UtcText.instant(row.getString(1)));
    settings.add(words.computeIfAbsent(row.getString(2), word -> word));
    String outcome = row.getString(3);
    counts.add(row.getInt(4) != 0 && (outcome.isEmpty() || outcome.equals(COMPLETED)));
    if (n == columns[0].length) {
      for (int i = 0; i < columns.length; i++) {
        columns[i] = Arrays.copyOf(columns[i], 2 * n);
      }
    }
    for (int i = 0; i < columns.length; i++) {
      columns[i][n] = values[i];
      present[i] |= Double.isFinite(values[i]);
    }
    String wording = row.getString(5);
    if (wording != null) {
      takeOthers(n, rows.figures(wording, row.getString(6)));
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
