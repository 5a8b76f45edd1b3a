package rampwright.app.usecase;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.app.asset.AssetFolders;
import rampwright.app.logbook.LogFile;

/**
 * The files a trial's figures rest on, under the names they have in an asset folder: trace,
 * settings, asset, and how the trace was to be read where somebody said so. With them the figures
 * can be taken again without the folder.
 */
final class TrialFileSet {
  /** Holds the choices of {@link InputChoice} that are no files, a line each. */
  static final String READING = "reading.txt";

  static final String COLUMNS = "columns.toml";
  static final String SECONDARY = "secondary";

  /** Larger traces stay where they are; their hash is kept. */
  private static final long LARGEST_TRACE_BYTES = 64L << 20;

  private TrialFileSet() {}

  /**
   * Files of a trial, empty where its trace is too large to be kept or cannot be read.
   *
   * @param trace the trace; null for a trial noted by hand
   * @param settings null where there is none
   */
  static List<LogFile> of(
      @Nullable Path trace, @Nullable Path settings, @Nullable Path asset, InputChoice choice) {
    List<LogFile> files = new ArrayList<>();
    try {
      if (trace != null) {
        for (Path part : parts(trace)) {
          if (Files.size(part) > LARGEST_TRACE_BYTES) {
            return List.of();
          }
          files.add(new LogFile("trace." + ending(part), Files.readAllBytes(part)));
        }
      }
      add(files, AssetFolders.SETTINGS, settings);
      add(files, AssetFolders.ASSET, asset);
      add(files, COLUMNS, choice.columns());
      String reading =
          (choice.kind() == null ? "" : choice.kind().name() + "\n")
              + (choice.secondary() ? SECONDARY + "\n" : "");
      if (!reading.isEmpty()) {
        files.add(new LogFile(READING, reading.getBytes(StandardCharsets.UTF_8)));
      }
      return files;
    } catch (IOException e) {
      // The figures are entered all the same; the hash says which trace they were taken from.
      return List.of();
    }
  }

  private static void add(List<LogFile> files, String name, @Nullable Path file)
      throws IOException {
    if (file != null && Files.isRegularFile(file)) {
      files.add(new LogFile(name, Files.readAllBytes(file)));
    }
  }

  /** The settings a trace finds beside it where none were chosen. */
  static @Nullable Path settingsOf(Path trace, InputChoice choice) {
    if (choice.settings() != null) {
      return choice.settings();
    }
    Path beside = trace.resolveSibling(AssetFolders.SETTINGS);
    boolean ofTrial = String.valueOf(trace.getFileName()).startsWith("trace.");
    return ofTrial && Files.isRegularFile(beside) ? beside : null;
  }

  /** A COMTRADE configuration has its data beside it. */
  private static List<Path> parts(Path trace) throws IOException {
    String name = String.valueOf(trace.getFileName());
    if (!name.toLowerCase(Locale.ROOT).endsWith(".cfg")) {
      return List.of(trace);
    }
    String data = name.substring(0, name.length() - 3) + "dat";
    Path folder = trace.toAbsolutePath().getParent();
    if (folder == null) {
      return List.of(trace);
    }
    List<Path> parts = new ArrayList<>(List.of(trace));
    try (Stream<Path> beside = Files.list(folder)) {
      beside
          .filter(path -> data.equalsIgnoreCase(String.valueOf(path.getFileName())))
          .forEach(parts::add);
    }
    return parts;
  }

  private static String ending(Path file) {
    String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
    boolean packed = name.endsWith(".gz");
    String plain = packed ? name.substring(0, name.length() - 3) : name;
    String ending = plain.substring(plain.lastIndexOf('.') + 1);
    return packed ? ending + ".gz" : ending;
  }
}
