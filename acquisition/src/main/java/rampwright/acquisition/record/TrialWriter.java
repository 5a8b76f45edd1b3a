package rampwright.acquisition.record;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.GZIPOutputStream;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.AtomicFile;
import rampwright.acquisition.file.CsvTraceWriter;
import rampwright.acquisition.file.TraceFileException;

/** The files of a trial's folder. */
final class TrialWriter {
  private TrialWriter() {}

  /**
   * Writes trace and settings, then packs the journal; in this order and each forced to the disk,
   * so that at any instant, a loss of power included, either the journal or the trace is there.
   */
  static RecordedTrial write(
      Path folder,
      TrialBuilder.Built built,
      @Nullable SettingsText settings,
      JournalLine.@Nullable Clock clock,
      JournalLine.Begin begin,
      String ended,
      List<String> remarks)
      throws IOException {
    Files.createDirectories(folder);
    try {
      CsvTraceWriter.write(built.trace(), folder.resolve(TrialFolders.TRACE));
    } catch (TraceFileException e) {
      throw new IOException(String.valueOf(e.getMessage()), e);
    }
    Path settingsFile = folder.resolve(TrialFolders.SETTINGS);
    if (!Files.exists(settingsFile) && settings != null && clock != null) {
      Instant at = clock.utc().plusNanos(begin.atNs() - clock.atNs());
      AtomicFile.write(settingsFile, settings.of(at, "").getBytes(StandardCharsets.UTF_8));
    }
    List<String> all = new ArrayList<>(remarks);
    try {
      pack(folder);
    } catch (IOException e) {
      all.add("the journal could not be packed and stays beside the trace: " + e.getMessage());
    }
    double lengthS =
        built.trace().time().atS(built.trace().size() - 1) - built.trace().time().atS(0);
    return new RecordedTrial(folder, ended, lengthS, built.quality(), all);
  }

  /** Packs the journal of a trial whose trace is there. */
  static void pack(Path folder) throws IOException {
    Path journal = folder.resolve(Journal.NAME);
    if (!Files.exists(journal)) {
      return;
    }
    Path part = folder.resolve("." + TrialFolders.READINGS + ".part");
    try {
      try (InputStream in = Files.newInputStream(journal);
          OutputStream out = new GZIPOutputStream(Files.newOutputStream(part))) {
        in.transferTo(out);
      }
      AtomicFile.force(part);
      Files.move(part, folder.resolve(TrialFolders.READINGS), StandardCopyOption.REPLACE_EXISTING);
      AtomicFile.forceNames(folder);
    } finally {
      Files.deleteIfExists(part);
    }
    Files.delete(journal);
  }
}
