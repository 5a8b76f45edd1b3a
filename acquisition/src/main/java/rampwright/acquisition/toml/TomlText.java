package rampwright.acquisition.toml;

import java.time.Instant;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Builds the text of a TOML file; absent (null) values are left out. */
public final class TomlText {
  private final StringBuilder text = new StringBuilder();

  /** Begins a table. */
  public TomlText section(String name) {
    if (text.length() > 0) {
      text.append('\n');
    }
    text.append('[').append(name).append("]\n");
    return this;
  }

  /** Begins an entry of an array of tables. */
  public TomlText entry(String name) {
    text.append("\n[[").append(name).append("]]\n");
    return this;
  }

  /** A line for people. */
  public TomlText comment(String line) {
    text.append("# ").append(line.replaceAll("\\p{Cntrl}", " ")).append('\n');
    return this;
  }

  public TomlText put(String key, @Nullable Double value) {
    return value == null ? this : raw(key, number(value));
  }

  public TomlText put(String key, @Nullable String value) {
    return value == null ? this : raw(key, quoted(value));
  }

  public TomlText put(String key, @Nullable Boolean value) {
    return value == null ? this : raw(key, value.toString());
  }

  public TomlText put(String key, @Nullable Instant value) {
    return value == null ? this : raw(key, value.toString());
  }

  /** An inline table; values are text, numbers or truths. */
  public TomlText put(String key, Map<String, ?> values) {
    StringBuilder inline = new StringBuilder("{");
    String separator = " ";
    for (Map.Entry<String, ?> entry : values.entrySet()) {
      Object value = entry.getValue();
      inline.append(separator).append(key(entry.getKey())).append(" = ");
      inline.append(value instanceof Number n ? number(n.doubleValue()) : quoted("" + value));
      separator = ", ";
    }
    return raw(key, inline.append(" }").toString());
  }

  /** A value that is TOML already. */
  public TomlText raw(String key, String value) {
    text.append(key(key)).append(" = ").append(value).append('\n');
    return this;
  }

  @Override
  public String toString() {
    return text.toString();
  }

  /** A number as TOML; a whole one keeps its decimal point so that its type does not change. */
  public static String number(double value) {
    String plain = PlainNumber.of(value);
    return plain.contains(".") ? plain : plain + ".0";
  }

  private static String key(String key) {
    return key.matches("[A-Za-z0-9_-]+") ? key : quoted(key);
  }

  private static String quoted(String value) {
    StringBuilder quoted = new StringBuilder("\"");
    for (int i = 0; i < value.length(); i++) {
      char c = value.charAt(i);
      switch (c) {
        case '"' -> quoted.append("\\\"");
        case '\\' -> quoted.append("\\\\");
        case '\n' -> quoted.append("\\n");
        case '\t' -> quoted.append("\\t");
        default -> {
          if (c < ' ' || c == 0x7f) {
            quoted.append(String.format(Locale.ROOT, "\\u%04X", (int) c));
          } else {
            quoted.append(c);
          }
        }
      }
    }
    return quoted.append('"').toString();
  }
}
