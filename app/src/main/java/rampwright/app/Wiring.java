package rampwright.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import rampwright.acquisition.file.TraceFileException;
import rampwright.analysis.figure.TraceAnalyzer;
import rampwright.analysis.trace.Trace;
import rampwright.app.usecase.Analyzer;
import rampwright.app.usecase.ChartRenderer;
import rampwright.app.usecase.TraceFileDoor;

/** Which class stands behind which port. A part that is not built in says so when it is asked. */
final class Wiring {
  private Wiring() {}

  static Analyzer analyzer() {
    return TraceAnalyzer::analyze;
  }

  static TraceFileDoor traceFiles() {
    return new TraceFileDoor() {
      @Override
      public Trace read(ReadRequest request) throws TraceFileException {
        throw new TraceFileException(
            request.file().toString(), "this build has no readers for trace files in it");
      }

      @Override
      public List<Path> write(WriteRequest request) throws TraceFileException {
        throw new TraceFileException(
            request.target().toString(), "this build has no writers for trace files in it");
      }
    };
  }

  static ChartRenderer charts() {
    return request -> {
      throw new IOException("this build draws no charts");
    };
  }
}
