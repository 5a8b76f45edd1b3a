import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.Arrays;

/** Reads a file a number of times into a table, or on into arrays; prints seconds and a checksum. */
public final class ReadDuckDb {
  public static void main(String[] arguments) throws Exception {
    boolean fetch = arguments[2].equals("arrays");
    for (int run = 0; run < Integer.parseInt(arguments[1]); run++) {
      long start = System.nanoTime();
      try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
          Statement statement = connection.createStatement()) {
        double sum = 0;
        int rows = 0;
        if (fetch) {
          double[][] columns = new double[8][1 << 16];
          try (ResultSet result =
              statement.executeQuery("SELECT * FROM read_csv('" + arguments[0] + "')")) {
            while (result.next()) {
              if (rows == columns[0].length) {
                for (int i = 0; i < 8; i++) {
                  columns[i] = Arrays.copyOf(columns[i], rows * 2);
                }
              }
              for (int i = 0; i < 8; i++) {
                columns[i][rows] = result.getDouble(i + 1);
              }
              rows++;
            }
          }
          double seconds = (System.nanoTime() - start) / 1e9;
          for (int i = 0; i < rows; i++) {
            sum += columns[1][i];
          }
          System.out.println(seconds + " " + rows + " " + sum);
        } else {
          statement.execute("CREATE TABLE t AS SELECT * FROM read_csv('" + arguments[0] + "')");
          double seconds = (System.nanoTime() - start) / 1e9;
          try (ResultSet result = statement.executeQuery("SELECT count(*), sum(i1_A) FROM t")) {
            result.next();
            System.out.println(seconds + " " + result.getInt(1) + " " + result.getDouble(2));
          }
        }
      }
    }
  }
}
