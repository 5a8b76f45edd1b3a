package rampwright.app.usecase;

import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.TraceKind;

/**
 * How traces are to be read, as a person chose it. What is null is found beside the trace.
 *
 * @param asset asset file or asset folder for every trace
 * @param settings settings file for every trace
 * @param columns file with a {@code [columns]} table for every trace
 * @param kind what the values are
 * @param secondary COMTRADE values at the secondary side
 * @param assetOfFile asset file of certain traces, by normalized absolute path; before {@code
 *     asset}
 */
public record InputChoice(
    @Nullable Path asset,
    @Nullable Path settings,
    @Nullable Path columns,
    @Nullable TraceKind kind,
    boolean secondary,
    Map<Path, Path> assetOfFile) {
  /** Nothing chosen. */
  public static final InputChoice DEFAULT =
      new InputChoice(null, null, null, null, false, Map.of());

  public InputChoice {
    assetOfFile = Map.copyOf(assetOfFile);
  }
}
