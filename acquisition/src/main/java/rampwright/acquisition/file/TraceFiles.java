package rampwright.acquisition.file;

import java.nio.file.Path;
import rampwright.analysis.trace.Trace;

/** The one door for trace files of any format. */
public final class TraceFiles {
  private TraceFiles() {}

  /** The trace in a file, whose format is found out. */
  public static Trace read(Path file, ReadOptions options) throws TraceFileException {
    return switch (TraceFormat.of(file)) {
      case COMTRADE -> ComtradeReader.read(file, options);
      case CSV ->
          CsvTraceReader.read(
              file,
              options.columns(),
              options.declaredKind(),
              options.context(),
              CsvLimits.standard());
    };
  }
}
