package rampwright.app.cli;

import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import rampwright.analysis.trace.TraceKind;
import rampwright.app.usecase.InputChoice;

/** Options that say how traces are to be read. */
final class ReadingOptions {
  @Option(
      names = "--asset",
      paramLabel = "FILE",
      description =
          "asset.toml or asset folder of the motor circuit. Left out: the one the trace lies with.")
  private @Nullable Path asset;

  @Option(
      names = "--settings",
      paramLabel = "FILE",
      description = "settings.toml of the trial. Left out: the one beside the trace.")
  private @Nullable Path settings;

  @Option(
      names = "--columns",
      paramLabel = "FILE",
      description = "File with a [columns] table: which column of a foreign file is what.")
  private @Nullable Path columns;

  @Option(
      names = "--kind",
      paramLabel = "waveform|rms",
      converter = KindConverter.class,
      description = "What the values are. Left out: found out and said.")
  private @Nullable TraceKind kind;

  @Option(
      names = "--secondary",
      description = "COMTRADE: values at the secondary side of the transformers.")
  private boolean secondary;

  InputChoice choice(Map<Path, Path> assetOfFile) {
    return new InputChoice(asset, settings, columns, kind, secondary, assetOfFile);
  }
}
