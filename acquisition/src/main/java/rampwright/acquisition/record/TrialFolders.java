package rampwright.acquisition.record;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

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

  private TrialFolders() {}

  /** A folder that is not there yet, named by the trial's begin. */
  static Path free(Path trials, Instant begin) {
    String name = NAME.format(begin);
    Path folder = trials.resolve(name);
    // A clock that was set back meets its own names again.
    for (int i = 2; Files.exists(folder); i++) {
      folder = trials.resolve(name + "-" + i);
    }
    return folder;
  }
}
