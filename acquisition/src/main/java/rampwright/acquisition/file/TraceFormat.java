package rampwright.acquisition.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/** Which kind of trace file a file is. */
public enum TraceFormat {
  /** Text with columns, packed or not. */
  CSV,
  /** A configuration, its data, or both in one file. */
  COMTRADE;

  private static final int HEAD_BYTES = 4096;
  private static final Pattern COUNTS =
      Pattern.compile("\\s*\\d+\\s*,\\s*\\d+\\s*[Aa]\\s*,\\s*\\d+\\s*[Dd]\\s*,?\\s*");
  private static final Set<String> TEXT = Set.of("csv", "tsv", "txt", "gz", "tab", "asc");

  /**
   * The format of a file, by what its first bytes show, and where they show nothing by its
   * extension. A .dat file is COMTRADE when a .cfg file of its name lies beside it, or when it is
   * not text.
   */
  public static TraceFormat of(Path file) throws TraceFileException {
    String name = ComtradeParts.name(file);
    if (Files.isDirectory(file)) {
      throw new TraceFileException(name, "this is a folder; expected a trace file");
    }
    if (!Files.exists(file)) {
      throw new TraceFileException(name, "there is no such file; check the name");
    }
    try {
      return of(file, head(file), ComtradeParts.extension(file));
    } catch (IOException e) {
      throw new TraceFileException(
          name, 0, 0, "cannot be read (" + e.getMessage() + "); check its rights", e);
    }
  }

  private static TraceFormat of(Path file, byte[] head, String extension) throws IOException {
    List<String> lines =
        new String(head, StandardCharsets.ISO_8859_1)
            .replace("\u00ef\u00bb\u00bf", "")
            .lines()
            .toList();
    boolean isConfig = lines.size() > 1 && COUNTS.matcher(lines.get(1)).matches();
    boolean isSection = !lines.isEmpty() && ComtradeParts.isSection(lines.get(0));
    if (isConfig || isSection) {
      return COMTRADE;
    }
    if (TEXT.contains(extension)) {
      return CSV;
    }
    return switch (extension.toLowerCase(Locale.ROOT)) {
      case "cfg", "cff" -> COMTRADE;
      case "dat" -> !isText(head) || ComtradeParts.neighbour(file, "cfg") != null ? COMTRADE : CSV;
      default -> CSV;
    };
  }

  private static boolean isText(byte[] head) {
    for (byte b : head) {
      if (b >= 0 && b < ' ' && b != '\t' && b != '\n' && b != '\r' && b != 0x1a) {
        return false;
      }
    }
    return true;
  }

  private static byte[] head(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(HEAD_BYTES);
    }
  }
}
