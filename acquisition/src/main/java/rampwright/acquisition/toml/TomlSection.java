package rampwright.acquisition.toml;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.tomlj.TomlArray;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;

/**
 * One table of a file. A value that is missing or wrong is noted as a problem and a stand-in within
 * the allowed range is returned, so that the reading goes on and finds the other problems; {@link
 * TomlFile#finish} then refuses the file, so that no stand-in is ever used.
 */
public final class TomlSection {
  private static final int LONGEST_TEXT = 2000;

  private final String file;
  private final String path;
  private final TomlTable table;
  private final List<Problem> problems;
  private final int line;
  private final Set<String> known = new LinkedHashSet<>();

  TomlSection(String file, String path, TomlTable table, List<Problem> problems, int line) {
    this.file = file;
    this.path = path;
    this.table = table;
    this.problems = problems;
    this.line = line;
  }

  /** The number of an optional key; null when it is not there. */
  public @Nullable Double number(NumberKey key) {
    Object value = get(key.name());
    if (value == null) {
      return null;
    }
    Double number = asNumber(value);
    if (number == null) {
      problem(key.name(), key.name() + " = " + shown(value) + " is not a number; " + example(key));
      return key.min();
    }
    if (!key.allows(number)) {
      problem(key.name(), key.complaint(number));
      return key.min();
    }
    return number;
  }

  /** The number of a key that must be there. */
  public double requiredNumber(NumberKey key) {
    Double value = number(key);
    if (value == null) {
      missing(key.name(), key.meaning() + ", " + key.range());
      return key.min();
    }
    return value;
  }

  /** The text of an optional key; null when it is not there. */
  public @Nullable String text(String key) {
    Object value = get(key);
    if (value == null) {
      return null;
    }
    if (!(value instanceof String text)) {
      problem(key, key + " = " + shown(value) + " is not a text; put it in quotes");
      return "";
    }
    if (text.length() > LONGEST_TEXT) {
      problem(key, key + " is longer than " + LONGEST_TEXT + " characters; shorten it");
      return "";
    }
    return text;
  }

  /** The text of a key that must be there and not be blank. */
  public String requiredText(String key, String meaning) {
    String value = text(key);
    if (value == null) {
      missing(key, meaning);
      return "-";
    }
    if (value.isBlank()) {
      problem(key, key + " is blank; it is " + meaning);
    }
    return value;
  }

  /** The meaning of a word out of a few; null when the key is not there. */
  public <T> @Nullable T word(String key, Map<String, T> words) {
    if (!(get(key) instanceof String)) {
      // Not there, or of another type, which text() complains about.
      return text(key) == null ? null : words.values().iterator().next();
    }
    String value = String.valueOf(text(key));
    T meaning = words.get(value);
    if (meaning == null) {
      problem(
          key,
          key
              + " = \""
              + value
              + "\" is not known; allowed: "
              + quoted(words.keySet())
              + suggestion(value, words.keySet()));
      return words.values().iterator().next();
    }
    return meaning;
  }

  /** The truth of an optional key; null when it is not there. */
  public @Nullable Boolean flag(String key) {
    Object value = get(key);
    if (value == null) {
      return null;
    }
    if (!(value instanceof Boolean flag)) {
      problem(key, key + " = " + shown(value) + " is neither true nor false (without quotes)");
      return Boolean.FALSE;
    }
    return flag;
  }

  /** The truth of a key that may be left out for the usual. */
  public boolean flag(String key, boolean usual) {
    Boolean value = flag(key);
    return value == null ? usual : value;
  }

  /** The instant of a key that must be there; the epoch after a problem. */
  public Instant requiredInstant(String key, String meaning) {
    Instant value = instant(key);
    if (value == null) {
      missing(key, meaning + ", for example 2026-03-14T09:12:05Z");
      return Instant.EPOCH;
    }
    return value;
  }

  /** The instant of an optional key; null when it is not there. */
  public @Nullable Instant instant(String key) {
    Object value = get(key);
    if (value == null) {
      return null;
    }
    if (!(value instanceof OffsetDateTime time)) {
      problem(
          key,
          key
              + " = "
              + shown(value)
              + " is not an instant; write date, time and zone without quotes, for example"
              + " 2026-03-14T09:12:05Z");
      return Instant.EPOCH;
    }
    return time.toInstant();
  }

  /** A table within this one; null when it is not there. */
  public @Nullable TomlSection section(String key) {
    Object value = get(key);
    if (value == null) {
      return null;
    }
    if (!(value instanceof TomlTable inner)) {
      problem(key, key + " = " + shown(value) + " is not a table; write [" + pathOf(key) + "]");
      return null;
    }
    return new TomlSection(file, pathOf(key), inner, problems, lineOf(key));
  }

  /** A table that must be there; null after a problem. */
  public @Nullable TomlSection requiredSection(String key, String meaning) {
    TomlSection section = section(key);
    if (section == null && !table.keySet().contains(key)) {
      problems.add(new Problem(file, 0, "[" + pathOf(key) + "] is missing; it holds " + meaning));
    }
    return section;
  }

  /** The tables of an array of tables; empty when it is not there. */
  public List<TomlSection> sections(String key) {
    Object value = get(key);
    if (value == null) {
      return List.of();
    }
    List<TomlSection> sections = new ArrayList<>();
    if (value instanceof TomlArray array) {
      for (int i = 0; i < array.size(); i++) {
        if (array.get(i) instanceof TomlTable inner) {
          TomlPosition at = array.inputPositionOf(i);
          int innerLine = inner.isEmpty() ? at.line() : firstLine(inner, at.line());
          sections.add(new TomlSection(file, pathOf(key), inner, problems, innerLine));
        } else {
          problem(key, key + " must hold tables only; write [[" + pathOf(key) + "]] before each");
        }
      }
    } else {
      problem(key, key + " is not a list of tables; write [[" + pathOf(key) + "]] before each");
    }
    return sections;
  }

  /** What the tables of an array of tables say, each read to its end. */
  public <T> List<T> each(String key, Function<TomlSection, T> reader) {
    List<T> all = new ArrayList<>();
    for (TomlSection one : sections(key)) {
      all.add(reader.apply(one));
      one.finish();
    }
    return all;
  }

  /** Pairs of numbers, {@code [[0, 3.6], [10, 3.6]]}; empty when the key is not there. */
  public List<double[]> pairs(String key) {
    Object value = get(key);
    if (value == null) {
      return List.of();
    }
    List<double[]> pairs = new ArrayList<>();
    if (!(value instanceof TomlArray array)) {
      problem(key, key + " = " + shown(value) + " is not a list of pairs such as [[0, 3.6]]");
      return pairs;
    }
    for (int i = 0; i < array.size(); i++) {
      double[] pair = pair(array.get(i));
      if (pair == null) {
        problem(key, key + " entry " + (i + 1) + " is not a pair of numbers such as [0, 3.6]");
      } else {
        pairs.add(pair);
      }
    }
    return pairs;
  }

  /** The keys that are there, as written. */
  public Set<String> keys() {
    return table.keySet();
  }

  /** Whether a key is there; it counts as known from then on. */
  public boolean has(String key) {
    return get(key) != null;
  }

  /** Line of a key in the file; the section's own line when the key is not there. */
  public int lineOf(String key) {
    TomlPosition position =
        table.keySet().contains(key) ? table.inputPositionOf(List.of(key)) : null;
    return position == null ? line : position.line();
  }

  /** Line the section begins at. */
  public int line() {
    return line;
  }

  /** Notes a problem of a key. */
  public void problem(String key, String text) {
    problems.add(new Problem(file, lineOf(key), where() + text));
  }

  /** Notes a key that must be there and is not. */
  public void missing(String key, String meaning) {
    problems.add(
        new Problem(file, line, where() + key + " is missing; it is " + meaning + "; add it"));
  }

  /** Notes every key that nobody asked for. To be called when all keys were asked for. */
  public void finish() {
    finish(known);
  }

  /** The same where the keys that are allowed are known beforehand. */
  public void finish(Collection<String> allowed) {
    for (String key : table.keySet()) {
      if (!allowed.contains(key)) {
        problem(
            key,
            key
                + " is not known here"
                + suggestion(key, allowed)
                + "; allowed: "
                + String.join(", ", allowed));
      }
    }
  }

  private @Nullable Object get(String key) {
    known.add(key);
    return table.keySet().contains(key) ? table.get(List.of(key)) : null;
  }

  private static @Nullable Double asNumber(Object value) {
    if (value instanceof Long number) {
      return (double) number;
    }
    return value instanceof Double number && Double.isFinite(number) ? number : null;
  }

  private static double @Nullable [] pair(Object value) {
    if (!(value instanceof TomlArray array) || array.size() != 2) {
      return null;
    }
    Double first = asNumber(array.get(0));
    Double second = asNumber(array.get(1));
    return first == null || second == null ? null : new double[] {first, second};
  }

  private static int firstLine(TomlTable table, int otherwise) {
    int first = Integer.MAX_VALUE;
    for (String key : table.keySet()) {
      TomlPosition position = table.inputPositionOf(List.of(key));
      first = position == null ? first : Math.min(first, position.line());
    }
    return first == Integer.MAX_VALUE ? otherwise : first;
  }

  private String where() {
    return path.isEmpty() ? "" : "[" + path + "] ";
  }

  private String pathOf(String key) {
    return path.isEmpty() ? key : path + "." + key;
  }

  private static String example(NumberKey key) {
    return "write it without quotes, " + key.range();
  }

  private static String shown(Object value) {
    if (value instanceof String text) {
      return "\"" + (text.length() > 60 ? text.substring(0, 60) + "..." : text) + "\"";
    }
    if (value instanceof TomlTable) {
      return "a table";
    }
    return value instanceof TomlArray ? "a list" : value.toString();
  }

  private static String suggestion(String written, Collection<String> words) {
    return NearestWord.of(written, words).map(word -> "; did you mean " + word + "?").orElse("");
  }

  private static String quoted(Collection<String> words) {
    return "\"" + String.join("\", \"", words) + "\"";
  }
}
