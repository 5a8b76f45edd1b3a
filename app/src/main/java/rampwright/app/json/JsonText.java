package rampwright.app.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A JSON text being written: objects, arrays and values, numbers that are not finite as null. Lines
 * end in a line feed everywhere, so that a file is the same on every machine.
 */
public final class JsonText {
  // a number in its shortest digits; Java 17 itself takes longer over them and at times misses them
  private static final JsonFactory FACTORY =
      JsonFactory.builder().enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER).build();

  private final StringWriter text = new StringWriter();
  private final JsonGenerator out;

  JsonText() {
    this(true);
  }

  /** All on one line, for files with an object a line. */
  static JsonText ofOneLine() {
    return new JsonText(false);
  }

  private JsonText(boolean pretty) {
    try {
      out = FACTORY.createGenerator(text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    if (!pretty) {
      return;
    }
    DefaultIndenter indent = new DefaultIndenter("  ", "\n");
    DefaultPrettyPrinter printer =
        new DefaultPrettyPrinter(
            Separators.createDefaultInstance()
                .withObjectFieldValueSpacing(Separators.Spacing.AFTER));
    printer.indentObjectsWith(indent);
    printer.indentArraysWith(indent);
    out.setPrettyPrinter(printer);
  }

  private interface Step {
    void run() throws IOException;
  }

  private JsonText step(Step step) {
    try {
      step.run();
      return this;
    } catch (IOException e) {
      // Writing to memory; it cannot fail, but the library's signature says so.
      throw new UncheckedIOException(e);
    }
  }

  /** Writes one value, of any shape. */
  public interface Body {
    void write(JsonText json);
  }

  /** An object as a field. */
  public JsonText object(String key, Body body) {
    step(() -> out.writeFieldName(key));
    return object(body);
  }

  /** An object as the whole text or an array's element. */
  public JsonText object(Body body) {
    step(out::writeStartObject);
    body.write(this);
    return step(out::writeEndObject);
  }

  /** An array as a field. */
  public JsonText array(String key, Body body) {
    step(
        () -> {
          out.writeFieldName(key);
          out.writeStartArray();
        });
    body.write(this);
    return step(out::writeEndArray);
  }

  public JsonText texts(String key, List<String> values) {
    return array(key, json -> values.forEach(value -> json.step(() -> out.writeString(value))));
  }

  public JsonText text(String key, @Nullable String value) {
    return step(
        () -> {
          out.writeFieldName(key);
          if (value == null) {
            out.writeNull();
          } else {
            out.writeString(value);
          }
        });
  }

  public JsonText number(String key, @Nullable Double value) {
    return step(
        () -> {
          out.writeFieldName(key);
          number(value);
        });
  }

  private void number(@Nullable Double value) throws IOException {
    if (value == null || !Double.isFinite(value)) {
      out.writeNull();
    } else {
      out.writeNumber(value);
    }
  }

  public JsonText count(String key, long value) {
    return step(() -> out.writeNumberField(key, value));
  }

  public JsonText flag(String key, @Nullable Boolean value) {
    return step(
        () -> {
          out.writeFieldName(key);
          if (value == null) {
            out.writeNull();
          } else {
            out.writeBoolean(value);
          }
        });
  }

  public JsonText nothing(String key) {
    return step(() -> out.writeNullField(key));
  }

  /** A pair of numbers as an array's element. */
  JsonText pair(double first, double second) {
    return step(
        () -> {
          out.writeStartArray();
          number(first);
          number(second);
          out.writeEndArray();
        });
  }

  /** The text, ended with a line feed. */
  public String finish() {
    step(out::close);
    return escaped(text.append('\n').toString());
  }

  /**
   * JSON escapes control characters below the space alone. The others, and those that turn the
   * direction of writing, can stand in strings only; escaped, they cannot steer a terminal.
   */
  private static String escaped(String json) {
    StringBuilder safe = null;
    for (int i = 0; i < json.length(); i++) {
      char c = json.charAt(i);
      boolean steers = c > '~' && steers(c);
      if (steers && safe == null) {
        safe = new StringBuilder(json.substring(0, i));
      }
      if (safe != null) {
        safe.append(steers ? String.format(Locale.ROOT, "\\u%04x", (int) c) : String.valueOf(c));
      }
    }
    return safe == null ? json : safe.toString();
  }

  private static boolean steers(char c) {
    int type = Character.getType(c);
    return type == Character.CONTROL
        || type == Character.FORMAT
        || type == Character.LINE_SEPARATOR
        || type == Character.PARAGRAPH_SEPARATOR;
  }
}
