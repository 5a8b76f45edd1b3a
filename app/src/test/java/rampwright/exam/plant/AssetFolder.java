package rampwright.exam.plant;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/** Writes an asset folder: asset file, and for each trial settings, trace and (if wanted) truth. */
public final class AssetFolder {
  private final Path folder;

  public AssetFolder(Path folder) {
    this.folder = folder;
  }

  public Path path() {
    return folder;
  }

  public void writeAsset(String toml) {
    write(folder.resolve("asset.toml"), toml);
  }

  /** Folder of the trial with that number, counted from 1: one a day, at eight in the morning. */
  public Path trialFolder(int number) {
    java.time.LocalDate day = java.time.LocalDate.of(2026, 1, 1).plusDays(number - 1L);
    String name =
        String.format(
            Locale.ROOT,
            "%04d%02d%02dT080000Z",
            day.getYear(),
            day.getMonthValue(),
            day.getDayOfMonth());
    return folder.resolve("trials").resolve(name);
  }

  /**
   * Writes one trial.
   *
   * @param truthJson empty: none is written
   */
  public void writeTrial(int number, String settingsToml, String trace, String truthJson) {
    Path trial = trialFolder(number);
    write(trial.resolve("settings.toml"), settingsToml);
    write(trial.resolve("trace.csv"), trace);
    if (!truthJson.isEmpty()) {
      write(trial.resolve("truth.json"), truthJson);
    }
  }

  private static void write(Path file, String text) {
    try {
      Files.createDirectories(file.getParent());
      Files.writeString(file, text);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot write " + file, e);
    }
  }
}
