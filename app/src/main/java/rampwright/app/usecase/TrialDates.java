package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.Trace;
import rampwright.app.asset.TrialFile;

/** When a trial was made, and how that is known. */
final class TrialDates {
  private static final Pattern STAMP = Pattern.compile("\\d{8}T\\d{6}Z");
  private static final DateTimeFormatter FORM =
      DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'", Locale.ROOT);

  private TrialDates() {}

  /**
   * A date.
   *
   * @param at when the trace's first reading was taken
   * @param datedBy how that is known
   */
  record Date(Instant at, String datedBy) {}

  /**
   * What needs no look into the trace: a person's word, else the folder's name; null if neither.
   */
  static @Nullable Date declared(String folderName, TrialFile trial) {
    Instant noted = trial.notes().at();
    if (noted != null) {
      return new Date(noted, "settings.toml");
    }
    if (STAMP.matcher(folderName).matches()) {
      try {
        return new Date(
            LocalDateTime.parse(folderName, FORM).toInstant(ZoneOffset.UTC), "folder name");
      } catch (DateTimeException notADate) {
        return null;
      }
    }
    return null;
  }

  /** What the trace says of itself; null when it says nothing. */
  static @Nullable Date ofTrace(Trace trace) {
    String start = trace.provenance().startUtc();
    if (start == null) {
      return null;
    }
    try {
      return new Date(
          Instant.parse(start).plusNanos(Math.round(1e9 * trace.time().atS(0))), "trace");
    } catch (DateTimeException | ArithmeticException notADate) {
      return null;
    }
  }

  /** The latest it can have been: it ended when its file was last written. */
  static Date ofFile(Path trace, double lastsS) throws IOException {
    Instant written = Files.getLastModifiedTime(trace).toInstant();
    return new Date(written.minusMillis(Math.round(1000 * lastsS)), "file time");
  }
}
