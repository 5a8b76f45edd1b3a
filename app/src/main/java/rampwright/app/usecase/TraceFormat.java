package rampwright.app.usecase;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The formats a trace can be written in. */
public enum TraceFormat {
  CSV("csv"),
  COMTRADE_ASCII("comtrade-ascii"),
  COMTRADE_BINARY("comtrade-binary"),
  COMTRADE_BINARY32("comtrade-binary32"),
  COMTRADE_FLOAT32("comtrade-float32");

  private final String key;

  TraceFormat(String key) {
    this.key = key;
  }

  /** Word used on the command line. */
  public String key() {
    return key;
  }

  /** All words in order. */
  public static List<String> keys() {
    return Arrays.stream(values()).map(TraceFormat::key).toList();
  }

  /** The format of that word, if there is one. */
  public static Optional<TraceFormat> ofKey(String key) {
    return Arrays.stream(values()).filter(format -> format.key.equals(key)).findFirst();
  }

  /**
   * The format a file's ending stands for: {@code .csv} or {@code .csv.gz} canonical CSV, {@code
   * .cfg} or {@code .cff} COMTRADE with 32-bit floats, which keep the values as they are.
   */
  public static Optional<TraceFormat> ofEnding(Path target) {
    String name = String.valueOf(target.getFileName()).toLowerCase(Locale.ROOT);
    if (name.endsWith(".csv") || name.endsWith(".csv.gz")) {
      return Optional.of(CSV);
    }
    return name.endsWith(".cfg") || name.endsWith(".cff")
        ? Optional.of(COMTRADE_FLOAT32)
        : Optional.empty();
  }
}
