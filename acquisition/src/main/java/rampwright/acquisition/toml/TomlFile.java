package rampwright.acquisition.toml;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.tomlj.Toml;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlVersion;

/**
 * A TOML file being read: its sections are asked for values, problems are gathered, and {@link
 * #finish} refuses the file with all of them.
 */
public final class TomlFile {
  /** Files of this kind are written by people; a larger one is something else. */
  static final int LARGEST_BYTES = 1 << 20;

  static final int DEEPEST_NESTING = 32;

  private final String name;
  private final List<Problem> problems = new ArrayList<>();
  private final TomlSection root;

  private TomlFile(String name, TomlParseResult parsed) {
    this.name = name;
    this.root = new TomlSection(name, "", parsed, problems, 1);
  }

  /**
   * Reads and parses a file.
   *
   * @throws TomlProblemsException when it is not TOML; then only the syntax is complained about (as
   *     far as the parser gets), since missing keys would be consequences
   * @throws IOException when it cannot be read
   */
  public static TomlFile read(Path path) throws IOException, TomlProblemsException {
    String name = path.toString();
    byte[] bytes;
    try (InputStream in = Files.newInputStream(path)) {
      bytes = in.readNBytes(LARGEST_BYTES + 1);
    }
    if (bytes.length > LARGEST_BYTES) {
      throw refused(
          name, 0, "is larger than 1 MiB; asset and settings files are short texts; name another");
    }
    return parse(name, decode(name, bytes));
  }

  /** Parses a text; {@code name} stands for the file in messages. */
  public static TomlFile parse(String name, String text) throws TomlProblemsException {
    String body = text.startsWith("\uFEFF") ? text.substring(1) : text;
    int tooDeep = NestingDepth.lineDeeperThan(body, DEEPEST_NESTING);
    if (tooDeep > 0) {
      throw refused(
          name, tooDeep, "brackets nest deeper than " + DEEPEST_NESTING + "; close them earlier");
    }
    int control = lineOfControlCharacter(body);
    if (control > 0) {
      throw refused(
          name,
          control,
          "holds a control character; this is no text file, or its encoding is not UTF-8");
    }
    TomlParseResult parsed = Toml.parse(body, TomlVersion.V1_0_0);
    if (parsed.hasErrors()) {
      throw new TomlProblemsException(
          parsed.errors().stream()
              .map(
                  error ->
                      new Problem(
                          name,
                          error.position().line(),
                          "column "
                              + error.position().column()
                              + ": not TOML: "
                              + firstLine(String.valueOf(error.getMessage()))
                              + "; mend the line"))
              .toList());
    }
    return new TomlFile(name, parsed);
  }

  /** Name of the file for messages. */
  public String name() {
    return name;
  }

  /** The top of the file. */
  public TomlSection root() {
    return root;
  }

  /**
   * Ends the reading.
   *
   * @throws TomlProblemsException when anything was wrong
   */
  public void finish() throws TomlProblemsException {
    if (!problems.isEmpty()) {
      List<Problem> sorted = new ArrayList<>(problems);
      sorted.sort(Comparator.comparingInt(Problem::line));
      throw new TomlProblemsException(sorted);
    }
  }

  private static String decode(String name, byte[] bytes) throws TomlProblemsException {
    ByteBuffer buffer = ByteBuffer.wrap(bytes);
    try {
      return StandardCharsets.UTF_8
          .newDecoder()
          .onMalformedInput(CodingErrorAction.REPORT)
          .onUnmappableCharacter(CodingErrorAction.REPORT)
          .decode(buffer)
          .toString();
    } catch (CharacterCodingException e) {
      int line = 1;
      for (int i = 0; i < buffer.position(); i++) {
        if (bytes[i] == '\n') {
          line++;
        }
      }
      throw refused(
          name,
          line,
          String.format(
              Locale.ROOT,
              "byte 0x%02x is not UTF-8; save the file as UTF-8 text",
              bytes[Math.min(buffer.position(), bytes.length - 1)] & 0xff));
    }
  }

  private static int lineOfControlCharacter(String text) {
    int line = 1;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '\n') {
        line++;
      } else if ((c < ' ' && c != '\t' && c != '\r') || c == 0x7f) {
        return line;
      }
    }
    return 0;
  }

  private static String firstLine(String text) {
    int end = text.indexOf('\n');
    return end < 0 ? text : text.substring(0, end);
  }

  private static TomlProblemsException refused(String name, int line, String text) {
    return new TomlProblemsException(List.of(new Problem(name, line, text)));
  }
}
