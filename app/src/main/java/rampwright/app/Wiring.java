package rampwright.app;

import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.file.ComtradeEncoding;
import rampwright.acquisition.file.ComtradeForm;
import rampwright.acquisition.file.ComtradeWriter;
import rampwright.acquisition.file.CsvTraceWriter;
import rampwright.acquisition.file.ReadOptions;
import rampwright.acquisition.file.TraceFileException;
import rampwright.acquisition.file.TraceFiles;
import rampwright.analysis.figure.TraceAnalyzer;
import rampwright.analysis.trace.Trace;
import rampwright.app.cli.HeatText;
import rampwright.app.usecase.Analyzer;
import rampwright.app.usecase.ArmingPermit;
import rampwright.app.usecase.ChartHeat;
import rampwright.app.usecase.ChartPrediction;
import rampwright.app.usecase.ChartReadiness;
import rampwright.app.usecase.ChartRenderer;
import rampwright.app.usecase.DevicePorts;
import rampwright.app.usecase.HeatPermit;
import rampwright.app.usecase.KeepHeat;
import rampwright.app.usecase.TraceFileDoor;
import rampwright.app.usecase.TraceFormat;

/** Which class stands behind which port. */
final class Wiring {
  private Wiring() {}

  static Analyzer analyzer() {
    return TraceAnalyzer::analyze;
  }

  static TraceFileDoor traceFiles() {
    return new TraceFileDoor() {
      @Override
      public Trace read(ReadRequest request) throws TraceFileException {
        return TraceFiles.read(
            request.file(),
            new ReadOptions(
                request.columns(), request.declaredKind(), request.secondary(), request.context()));
      }

      @Override
      public List<Path> write(WriteRequest request) throws TraceFileException {
        if (request.format() == TraceFormat.CSV) {
          CsvTraceWriter.write(request.trace(), request.target());
          return List.of(request.target());
        }
        Double frequencyHz = request.frequencyHz();
        return ComtradeWriter.write(
                request.trace(),
                request.target(),
                new ComtradeForm(
                    request.edition(),
                    encoding(request.format()),
                    "rampwright",
                    "trace",
                    frequencyHz == null ? 0 : frequencyHz,
                    true))
            .files();
      }
    };
  }

  private static ComtradeEncoding encoding(TraceFormat format) {
    return switch (format) {
      case COMTRADE_ASCII -> ComtradeEncoding.ASCII;
      case COMTRADE_BINARY -> ComtradeEncoding.BINARY;
      case COMTRADE_BINARY32 -> ComtradeEncoding.BINARY32;
      case COMTRADE_FLOAT32, CSV -> ComtradeEncoding.FLOAT32;
    };
  }

  static Timekeeper timekeeper(LongSupplier nanos, Supplier<Instant> utc) {
    return new Timekeeper() {
      @Override
      public long nanos() {
        return nanos.getAsLong();
      }

      @Override
      public Instant utc() {
        return utc.get();
      }
    };
  }

  static DevicePorts devices(Timekeeper time, ArmingPermit permit) {
    return new DevicePorts(new DeviceLinks(time), time, permit);
  }

  /** The heat account's word on the next start. */
  static ArmingPermit permit(String version, InstantSource clock) {
    return new HeatPermit(new KeepHeat(traceFiles(), analyzer(), version, clock), HeatText::line);
  }

  static ChartRenderer charts() {
    return new ChartFiles();
  }

  static ChartPrediction.PredictionRenderer predictions() {
    return ChartFiles::predicted;
  }

  static ChartReadiness.ReadinessRenderer readiness() {
    return ReadyPicture::render;
  }

  static ChartHeat.HeatRenderer heat() {
    return HeatPicture::render;
  }
}
