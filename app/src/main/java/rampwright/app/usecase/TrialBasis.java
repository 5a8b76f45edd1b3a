package rampwright.app.usecase;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import rampwright.analysis.figure.Definitions;
import rampwright.app.logbook.LogFile;

/**
 * Everything a trial's entries follow from, as one hash: its files, its folder's name, how it is
 * read, the definitions and the program. The same basis gives the same entries.
 */
final class TrialBasis {
  private TrialBasis() {}

  /** The hash; empty where the files cannot be read or are too large to be read for this. */
  static String of(TrialJob job, InputChoice choice, String toolVersion) {
    if (job.problem() != null) {
      return "";
    }
    StringBuilder text = new StringBuilder();
    Path trace = job.trace();
    var files = TrialFileSet.of(trace, job.settingsFile(), job.assetFile(), choice);
    if (files.isEmpty()) {
      return "";
    }
    for (LogFile file : files) {
      text.append(file.name()).append(' ').append(file.sha256()).append('\n');
    }
    Path parent = Path.of(job.shown()).toAbsolutePath().normalize().getParent();
    text.append(parent == null ? "" : String.valueOf(parent.getFileName())).append('\n');
    text.append(Definitions.VERSION).append(' ').append(toolVersion);
    return LogFile.sha256(text.toString().getBytes(StandardCharsets.UTF_8));
  }

  /** Size of the trial's trace. */
  static long bytes(TrialJob job) {
    Path trace = job.trace();
    try {
      return trace == null ? 0 : Files.size(trace);
    } catch (IOException e) {
      return 0;
    }
  }
}
