package rampwright.acquisition.record;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicInteger;

/** Names in and of trial folders. */
final class TrialFolders {
  static final String TRACE = "trace.csv";
  static final String SETTINGS = "settings.toml";

  /** The journal once the trace is made, packed: raw words for whoever mends a map later. */
  static final String READINGS = "readings.txt.gz";

  /** Beginning of the names of folders of recordings that have not begun. */
  static final String ARMED = ".armed-";

  private static final DateTimeFormatter NAME =
      DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);

  private static final AtomicInteger SERIAL = new AtomicInteger();

  private TrialFolders() {}

  /**
   * Makes a folder named by the trial's begin that nobody else has: two who record one start begin
   * in the same second. Where none can be made now, the name is of this process alone, and the
   * folder is made when the disk allows.
   */
  static Path claim(Path trials, Instant begin) {
    String name = NAME.format(begin);
    try {
      Files.createDirectories(trials);
      for (int i = 1; ; i++) {
        // A clock that was set back meets its own names again.
        Path folder = trials.resolve(i == 1 ? name : name + "-" + i);
        if (isMade(folder)) {
          return folder;
        }
      }
    } catch (IOException e) {
      return trials.resolve(
          name + "-" + ProcessHandle.current().pid() + "-" + SERIAL.incrementAndGet());
    }
  }

  private static boolean isMade(Path folder) throws IOException {
    try {
      Files.createDirectory(folder);
      return true;
    } catch (FileAlreadyExistsException e) {
      return false;
    }
  }

  /** Removes folders that were claimed by who was cut short before anything was in them. */
  static void removeUnused(Path trials) throws IOException {
    try (DirectoryStream<Path> entries = Files.newDirectoryStream(trials, "????????T??????Z*")) {
      for (Path entry : entries) {
        if (Files.isDirectory(entry) && isEmpty(entry)) {
          Files.deleteIfExists(entry);
        }
      }
    }
  }

  private static boolean isEmpty(Path folder) throws IOException {
    try (DirectoryStream<Path> entries = Files.newDirectoryStream(folder)) {
      return !entries.iterator().hasNext();
    }
  }
}
