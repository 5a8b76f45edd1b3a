package rampwright.acquisition.file;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Unit symbols found in files and what turns a number in them into the program's unit.
 *
 * <p>The table, with the source of each factor, is the resource {@code units.csv}. Case counts
 * where it must ({@code mA}, {@code MW}); a symbol in another case is understood when only one unit
 * can be meant.
 */
final class UnitTable {
  /** What a unit measures. */
  enum Dimension {
    TIME,
    CURRENT,
    VOLTAGE,
    SPEED,
    TORQUE,
    POWER,
    PRESSURE,
    /** Percent and multiples: of what is the channel's business. */
    RATIO,
    FREQUENCY,
    OTHER
  }

  /**
   * A unit.
   *
   * @param symbol as in the table
   * @param factor number x factor is in s, A, V, rpm, N m, W or bar; for a ratio the bare ratio
   */
  record Unit(String symbol, Dimension dimension, double factor) {}

  private static final UnitTable TABLE = load();

  private final Map<String, Unit> exact = new HashMap<>();
  private final Map<String, Unit> folded = new HashMap<>();
  private final Set<String> unclear = new HashSet<>();

  private UnitTable() {}

  /** The unit of that symbol; null when it is none. Brackets and outer blanks are taken off. */
  static @Nullable Unit find(String text) {
    String symbol = bare(text);
    if (symbol.isEmpty() || symbol.length() > 12) {
      return null;
    }
    Unit unit = TABLE.exact.get(symbol);
    if (unit != null) {
      return unit;
    }
    String fold = symbol.toLowerCase(Locale.ROOT);
    return TABLE.unclear.contains(fold) ? null : TABLE.folded.get(fold);
  }

  private static String bare(String text) {
    String symbol = text.strip();
    while (symbol.length() > 1
        && "[({<".indexOf(symbol.charAt(0)) >= 0
        && "])}>".indexOf(symbol.charAt(symbol.length() - 1)) >= 0) {
      symbol = symbol.substring(1, symbol.length() - 1).strip();
    }
    // Two signs look like the micro prefix; the other one is the Greek letter.
    return symbol
        .replace('\u03bc', '\u00b5')
        .replace('\u22c5', '\u00b7')
        .replace('\u2126', '\u03a9');
  }

  private void add(Unit unit) {
    exact.put(unit.symbol(), unit);
    String fold = unit.symbol().toLowerCase(Locale.ROOT);
    Unit other = folded.putIfAbsent(fold, unit);
    if (other != null
        && (other.factor() != unit.factor() || other.dimension() != unit.dimension())) {
      unclear.add(fold);
    }
  }

  private static UnitTable load() {
    UnitTable table = new UnitTable();
    for (String line : lines("units.csv")) {
      String[] cell = line.split(";", 4);
      table.add(
          new Unit(
              cell[0],
              Dimension.valueOf(cell[1].toUpperCase(Locale.ROOT)),
              Double.parseDouble(cell[2])));
    }
    return table;
  }

  /** Lines of a table shipped beside this class, without its comments. */
  static List<String> lines(String resource) {
    try (InputStream in = UnitTable.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("table " + resource + " is missing from the program");
      }
      BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
      return reader.lines().filter(line -> !line.isBlank() && !line.startsWith("#")).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
