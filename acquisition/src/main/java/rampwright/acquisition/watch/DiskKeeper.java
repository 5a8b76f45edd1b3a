package rampwright.acquisition.watch;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Makes room by removing the oldest trials of the watch, and only those: a trial that somebody else
 * recorded, whose settings were edited, or that holds a file the watch does not make, stays.
 */
final class DiskKeeper {
  /** Head of a trace recorded by the watch. */
  static final String MARK = "recorded by rampwright watch";

  private static final Duration UNTOUCHED = Duration.ofMinutes(5);

  private static final String TRACE = "trace.csv";
  private static final String FIGURES = "figures.json";
  private static final List<String> OWN =
      List.of(TRACE, "settings.toml", "readings.txt.gz", FIGURES);

  private static final int HEAD_LINES = 40;

  private DiskKeeper() {}

  /** Room on the disk of a folder, bytes; below 0 when it cannot be told. */
  static long free(Path folder) {
    try {
      Path there = folder;
      while (!Files.exists(there) && there.getParent() != null) {
        there = there.getParent();
      }
      return Files.getFileStore(there).getUsableSpace();
    } catch (IOException e) {
      return -1;
    }
  }

  /**
   * The oldest trial that may go; null when none may.
   *
   * @param keepNewest so many of the newest complete trials are never looked at
   */
  static @Nullable Path oldest(Path trials, int keepNewest) throws IOException {
    if (!Files.isDirectory(trials)) {
      return null;
    }
    List<Path> complete;
    try (Stream<Path> entries = Files.list(trials)) {
      complete =
          new ArrayList<>(
              entries.filter(folder -> Files.isRegularFile(folder.resolve(TRACE))).toList());
    }
    complete.sort(Comparator.comparing(folder -> String.valueOf(folder.getFileName())));
    for (Path folder : complete.subList(0, Math.max(0, complete.size() - keepNewest))) {
      if (isOurs(folder)) {
        return folder;
      }
    }
    return null;
  }

  private static boolean isOurs(Path folder) throws IOException {
    try (Stream<Path> entries = Files.list(folder)) {
      if (!entries.allMatch(file -> OWN.contains(String.valueOf(file.getFileName())))) {
        return false;
      }
    }
    Path trace = folder.resolve(TRACE);
    Path settings = folder.resolve("settings.toml");
    if (Files.exists(settings)) {
      FileTime made = Files.getLastModifiedTime(trace);
      FileTime edited = Files.getLastModifiedTime(settings);
      if (edited.toInstant().isAfter(made.toInstant().plus(UNTOUCHED))) {
        return false;
      }
    }
    return isMarked(trace);
  }

  private static boolean isMarked(Path trace) throws IOException {
    try (BufferedReader head = Files.newBufferedReader(trace)) {
      for (int i = 0; i < HEAD_LINES; i++) {
        String line = head.readLine();
        if (line == null || !line.startsWith("#")) {
          return false;
        }
        if (line.contains(MARK)) {
          return true;
        }
      }
    }
    return false;
  }

  /** Whole trials of the watch that nothing has been made of yet, the oldest first. */
  static List<Path> withoutFigures(Path trials) throws IOException {
    List<Path> found = new ArrayList<>();
    if (Files.isDirectory(trials)) {
      List<Path> whole;
      try (Stream<Path> entries = Files.list(trials)) {
        whole =
            entries
                .filter(folder -> Files.isRegularFile(folder.resolve(TRACE)))
                .filter(folder -> !Files.exists(folder.resolve(FIGURES)))
                .sorted()
                .toList();
      }
      for (Path folder : whole) {
        if (isMarked(folder.resolve(TRACE))) {
          found.add(folder);
        }
      }
    }
    return found;
  }

  /** Removes a trial. */
  static void remove(Path folder) throws IOException {
    for (String name : OWN) {
      Files.deleteIfExists(folder.resolve(name));
    }
    Files.deleteIfExists(folder);
  }
}
