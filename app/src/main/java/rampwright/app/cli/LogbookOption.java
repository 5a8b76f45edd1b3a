package rampwright.app.cli;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Which logbook is meant. */
final class LogbookOption {
  @Option(
      names = "--logbook",
      paramLabel = "FILE|URL",
      description =
          "The logbook: a file, or postgresql://host/database with the credentials in PGUSER and"
              + " PGPASSWORD or PGPASSFILE. Default: RAMPWRIGHT_LOGBOOK, else logbook.db here.")
  private @Nullable String logbook;

  @Nullable String value() {
    return logbook;
  }
}
