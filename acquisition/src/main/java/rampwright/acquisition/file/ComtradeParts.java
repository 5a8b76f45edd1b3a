package rampwright.acquisition.file;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Where the parts of a COMTRADE record lie: in files side by side, or in one file of sections.
 *
 * @param configFile file with the configuration
 * @param config text of the configuration
 * @param configLinesBefore lines of its file before it
 * @param header free text about the record; empty when there is none
 * @param information the section or file of that name; empty when there is none
 * @param dataFile file with the data
 * @param dataStart offset of the first byte of the data
 * @param dataEnd offset after the last one
 * @param dataLinesBefore lines of the file before the data
 * @param sectionEncoding encoding named in the data's section head; null without one
 * @param warnings what was passed over
 */
record ComtradeParts(
    Path configFile,
    ComtradeText config,
    int configLinesBefore,
    String header,
    String information,
    Path dataFile,
    long dataStart,
    long dataEnd,
    long dataLinesBefore,
    @Nullable ComtradeEncoding sectionEncoding,
    List<String> warnings) {

  private static final int MOST_TEXT_BYTES = 64 << 20;
  private static final Pattern SECTION =
      Pattern.compile(
          "\\s*-+\\s*file\\s*type\\s*:?\\s*(CFG|INF|HDR|DAT)\\s*([A-Z0-9]*)\\s*(?::\\s*(\\d+))?\\s*-*\\s*",
          Pattern.CASE_INSENSITIVE);

  /** Parts of the record that {@code file} (.cfg, .dat or .cff, in any case) belongs to. */
  static ComtradeParts of(Path file) throws TraceFileException, IOException {
    requireFile(file);
    if (startsWithSection(file)) {
      return single(file);
    }
    return switch (extension(file)) {
      case "cff" ->
          throw new TraceFileException(
              name(file),
              1,
              0,
              "expected a section head such as \"--- file type: CFG ---\"; a .cff file begins with"
                  + " one",
              null);
      case "dat", "hdr", "inf" -> of(sibling(file, "cfg", "configuration"), file);
      default -> of(file, sibling(file, "dat", "data"));
    };
  }

  /** Parts in two files that may have any names. */
  static ComtradeParts of(Path config, Path data) throws TraceFileException, IOException {
    requireFile(config);
    requireFile(data);
    if (Files.size(config) > MOST_TEXT_BYTES) {
      throw tooMuchText(config);
    }
    return new ComtradeParts(
        config,
        ComtradeText.of(Files.readAllBytes(config)),
        0,
        neighbourText(config, "hdr"),
        neighbourText(config, "inf"),
        data,
        0,
        Files.size(data),
        0,
        null,
        List.of());
  }

  /** True for the head of a section of a single-file record. */
  static boolean isSection(String line) {
    return SECTION.matcher(line).matches();
  }

  private static ComtradeParts single(Path file) throws TraceFileException, IOException {
    long size = Files.size(file);
    StringBuilder header = new StringBuilder();
    StringBuilder information = new StringBuilder();
    byte[] config = new byte[0];
    int configLines = 0;
    String section = "";
    long sectionStart = 0;
    try (ComtradeLines lines =
        new ComtradeLines(file, name(file), 0, size, 0, MOST_TEXT_BYTES / 16)) {
      long before = 0;
      while (lines.next()) {
        int length = lines.to() - lines.from();
        boolean mayBeHead = length < 200 && length > 8;
        String text =
            mayBeHead || !section.equals("CFG")
                ? new String(lines.buffer(), lines.from(), length, StandardCharsets.UTF_8)
                    .replace("\uFEFF", "")
                : "";
        Matcher head = SECTION.matcher(text);
        if (mayBeHead && head.matches()) {
          if (section.equals("CFG")) {
            config = bytes(file, sectionStart, before);
          }
          section = word(head, 1).toUpperCase(Locale.ROOT);
          sectionStart = lines.offsetAfter();
          if (section.equals("CFG")) {
            configLines = (int) lines.number();
          } else if (section.equals("DAT")) {
            return withData(file, config, configLines, header, information, head, lines, size);
          }
        } else if (section.equals("HDR")) {
          header.append(text).append('\n');
        } else if (section.equals("INF")) {
          information.append(text).append('\n');
        }
        before = lines.offsetAfter();
        if (before > MOST_TEXT_BYTES) {
          throw tooMuchText(file);
        }
      }
    }
    throw new TraceFileException(
        name(file), "no section \"--- file type: DAT ... ---\" found; the file is cut off");
  }

  private static ComtradeParts withData(
      Path file,
      byte[] config,
      int configLines,
      StringBuilder header,
      StringBuilder information,
      Matcher head,
      ComtradeLines lines,
      long size)
      throws TraceFileException {
    if (config.length == 0) {
      throw new TraceFileException(
          name(file),
          lines.number(),
          0,
          "the data come before any section \"--- file type: CFG ---\"; the configuration must"
              + " stand first",
          null);
    }
    List<String> warnings = new ArrayList<>();
    long start = lines.offsetAfter();
    long end = size;
    String digits = word(head, 3);
    if (!digits.isEmpty()) {
      long count = digits.length() > 18 ? Long.MAX_VALUE : Long.parseLong(digits);
      if (count > size - start) {
        warnings.add(
            name(file)
                + " line "
                + lines.number()
                + ": the data section should have "
                + digits
                + " bytes, but only "
                + (size - start)
                + " follow; those are used");
      } else {
        end = start + count;
      }
    }
    return new ComtradeParts(
        file,
        ComtradeText.of(config),
        configLines,
        header.toString(),
        information.toString(),
        file,
        start,
        end,
        lines.number(),
        ComtradeEncoding.of(word(head, 2)).orElse(null),
        warnings);
  }

  private static String word(Matcher matcher, int group) {
    String text = matcher.group(group);
    return text == null ? "" : text;
  }

  private static byte[] bytes(Path file, long from, long to) throws IOException {
    try (var in = Files.newInputStream(file)) {
      in.skipNBytes(from);
      return in.readNBytes((int) (to - from));
    }
  }

  private static boolean startsWithSection(Path file) throws IOException {
    try (var in = Files.newInputStream(file)) {
      String head = new String(in.readNBytes(256), StandardCharsets.ISO_8859_1);
      return head.replace("\u00ef\u00bb\u00bf", "")
          .lines()
          .dropWhile(String::isBlank)
          .findFirst()
          .filter(ComtradeParts::isSection)
          .isPresent();
    }
  }

  private static void requireFile(Path file) throws TraceFileException, IOException {
    if (!Files.exists(file)) {
      throw new TraceFileException(name(file), "there is no such file; check the name");
    }
    if (!Files.isRegularFile(file)) {
      throw new TraceFileException(
          name(file), "this is not a file; expected a .cfg, .dat or .cff file");
    }
    if (Files.size(file) == 0) {
      throw new TraceFileException(
          name(file), "the file is empty (0 bytes); fetch it from the recorder again");
    }
  }

  private static Path sibling(Path file, String extension, String what)
      throws TraceFileException, IOException {
    Path found = neighbour(file, extension);
    if (found == null) {
      throw new TraceFileException(
          name(file),
          "its "
              + what
              + " file "
              + stem(file)
              + "."
              + extension
              + " is not beside it; a COMTRADE record needs .cfg and .dat of one name in one"
              + " folder");
    }
    return found;
  }

  /** File beside this one with the same stem and that extension, in any case. */
  static @Nullable Path neighbour(Path file, String extension) throws IOException {
    Path folder = file.toAbsolutePath().getParent();
    String stem = stem(file);
    for (String form : List.of(extension, extension.toUpperCase(Locale.ROOT))) {
      Path direct = file.resolveSibling(stem + "." + form);
      if (Files.isRegularFile(direct)) {
        return direct;
      }
    }
    if (folder == null) {
      return null;
    }
    String wanted = stem + "." + extension;
    try (DirectoryStream<Path> all = Files.newDirectoryStream(folder)) {
      for (Path other : all) {
        Path last = other.getFileName();
        if (last != null && last.toString().equalsIgnoreCase(wanted)) {
          return other;
        }
      }
    }
    return null;
  }

  private static String neighbourText(Path config, String extension) throws IOException {
    Path file = neighbour(config, extension);
    if (file == null || Files.size(file) > MOST_TEXT_BYTES / 16) {
      return "";
    }
    return String.join("\n", ComtradeText.of(Files.readAllBytes(file)).lines());
  }

  static String extension(Path file) {
    String name = name(file);
    int dot = name.lastIndexOf('.');
    return dot < 0 ? "" : name.substring(dot + 1).toLowerCase(Locale.ROOT);
  }

  private static String stem(Path file) {
    String name = name(file);
    int dot = name.lastIndexOf('.');
    return dot < 0 ? name : name.substring(0, dot);
  }

  static String name(Path file) {
    Path last = file.getFileName();
    return last == null ? file.toString() : last.toString();
  }

  private static TraceFileException tooMuchText(Path file) {
    return new TraceFileException(
        name(file),
        "more than "
            + (MOST_TEXT_BYTES >> 20)
            + " MiB of text where a configuration should be; this is not a COMTRADE configuration");
  }
}
