package rampwright.app.asset;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Where things lie in asset folders and trial folders. */
public final class AssetFolders {
  public static final String ASSET = "asset.toml";
  public static final String SETTINGS = "settings.toml";
  public static final String TRIALS = "trials";
  public static final String FIGURES = "figures.json";

  /** What a recording keeps while it is under way; the trace takes its place. */
  public static final String JOURNAL = "readings.journal";

  private static final List<String> TRACE_ENDINGS =
      List.of("csv", "csv.gz", "txt", "txt.gz", "tsv", "cfg", "cff");

  /** The data beside a COMTRADE configuration. */
  private static final String DATA_ENDING = "dat";

  private AssetFolders() {}

  /** Whether a folder holds an asset file. */
  public static boolean isAssetFolder(Path folder) {
    return Files.isRegularFile(folder.resolve(ASSET));
  }

  /**
   * What lies in a trial's folder.
   *
   * @throws FileSystemException when it holds more than one trace
   */
  public static TrialFolder trial(Path folder) throws IOException {
    List<Path> traces;
    try (Stream<Path> entries = Files.list(folder)) {
      traces = entries.filter(AssetFolders::isTrace).sorted().toList();
    }
    if (traces.size() > 1) {
      throw new FileSystemException(
          folder.toString(),
          null,
          "holds more than one trace ("
              + traces.stream().map(p -> "" + p.getFileName()).collect(Collectors.joining(", "))
              + "); a trial has one; move the others to folders of their own");
    }
    Path settings = folder.resolve(SETTINGS);
    Path name = folder.toAbsolutePath().normalize().getFileName();
    return new TrialFolder(
        folder,
        name == null ? folder.toString() : name.toString(),
        traces.isEmpty() ? null : traces.get(0),
        Files.isRegularFile(settings) ? settings : null);
  }

  private static boolean isTrace(Path path) {
    return TRACE_ENDINGS.contains(traceEnding(path)) && Files.isRegularFile(path);
  }

  /** Whether a file of a trial's folder is what its figures rest on: settings, trace, its data. */
  public static boolean isEvidence(Path path) {
    boolean named =
        SETTINGS.equals(String.valueOf(path.getFileName()))
            || TRACE_ENDINGS.contains(traceEnding(path))
            || DATA_ENDING.equals(traceEnding(path));
    return named && Files.isRegularFile(path);
  }

  /** What follows "trace." in a file's name; empty where it has another name. */
  private static String traceEnding(Path path) {
    String name = String.valueOf(path.getFileName()).toLowerCase(Locale.ROOT);
    return name.startsWith("trace.") ? name.substring("trace.".length()) : "";
  }

  /**
   * The asset file a trial's folder belongs to: beside it, or two levels up from a folder under
   * {@code trials}; null when there is none.
   */
  public static @Nullable Path assetOf(Path trialFolder) {
    Path beside = trialFolder.resolve(ASSET);
    if (Files.isRegularFile(beside)) {
      return beside;
    }
    Path trials = trialFolder.toAbsolutePath().normalize().getParent();
    Path trialsName = trials == null ? null : trials.getFileName();
    Path folder = trials == null ? null : trials.getParent();
    if (folder == null || trialsName == null || !TRIALS.equals(trialsName.toString())) {
      return null;
    }
    Path above = folder.resolve(ASSET);
    return Files.isRegularFile(above) ? above : null;
  }
}
