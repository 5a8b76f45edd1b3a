package rampwright.app.logbook;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import org.sqlite.Function;
import org.sqlite.SQLiteConnection;

/**
 * The figures of rows of entries, as numbers. A server's driver has a row at hand and gives its
 * cells one by one. The file's driver crosses into the library and back, twice, for each of 38
 * cells of a million rows, which took most of the reading's time; there a function of SQL is handed
 * them all at once.
 */
abstract class FigureCells implements AutoCloseable {
  /** For this store. */
  static FigureCells of(Connection connection) throws SQLException {
    return connection instanceof SQLiteConnection ? new Handed(connection) : new OneByOne();
  }

  /** What is selected, at the end of all that is, from entries called {@code e}. */
  abstract String selected();

  /**
   * Those of a row.
   *
   * @param row whose cells before the figures are read already
   * @param first column of {@link #selected}
   * @return NaN where a figure is missing; written over with the next row
   */
  abstract double[] of(ResultSet row, int first) throws SQLException;

  @Override
  public abstract void close() throws SQLException;

  private static final class OneByOne extends FigureCells {
    private final double[] values = new double[FigureColumns.KEYS.size()];

    @Override
    String selected() {
      return FigureColumns.listed("e.");
    }

    @Override
    double[] of(ResultSet row, int first) throws SQLException {
      for (int i = 0; i < values.length; i++) {
        double value = row.getDouble(first + i);
        // a driver gives 0 for nothing; asking after each of a million starts would take its time
        values[i] = value == 0 && row.wasNull() ? Double.NaN : value;
      }
      return values;
    }

    @Override
    public void close() {
      // holds nothing
    }
  }

  private static final class Handed extends FigureCells {
    private static final String NAME = "figures_of_start";

    /** Most arguments of a function that the library allows in every build of it. */
    private static final int MOST = 100;

    private final Connection connection;

    /** In the order in which the store handed them, which is not promised to be that of rows. */
    private final List<double[]> handed = new ArrayList<>();

    Handed(Connection connection) throws SQLException {
      if (FigureColumns.KEYS.size() > MOST) {
        throw new IllegalStateException("more figures than a function takes");
      }
      this.connection = connection;
      Function.create(
          connection,
          NAME,
          new Function() {
            @Override
            protected void xFunc() throws SQLException {
              double[] values = new double[args()];
              for (int i = 0; i < values.length; i++) {
                double value = value_double(i);
                values[i] = value == 0 && value_type(i) == NULL ? Double.NaN : value;
              }
              handed.add(values);
              result(handed.size() - 1);
            }
          });
    }

    private static final double[] GIVEN = {};

    /** The library's code of a cell without a value. */
    private static final int NULL = 5;

    @Override
    String selected() {
      return NAME + "(" + FigureColumns.listed("e.") + ")";
    }

    @Override
    double[] of(ResultSet row, int first) throws SQLException {
      return handed.set(row.getInt(first), GIVEN);
    }

    @Override
    public void close() throws SQLException {
      Function.destroy(connection, NAME);
    }
  }
}
