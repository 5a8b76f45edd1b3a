package rampwright.app.usecase;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import rampwright.acquisition.file.ReadOptions;
import rampwright.acquisition.file.TraceFileException;
import rampwright.acquisition.file.TraceFiles;
import rampwright.analysis.figure.TraceAnalyzer;
import rampwright.analysis.heat.HeatPart;
import rampwright.analysis.trace.Trace;
import rampwright.app.fixture.Workshop;
import rampwright.app.result.HeatResult;

/** A folder of a pump with trials, and what keeps its account, for tests. */
abstract class HeatFolder {
  static final Instant NINE = Instant.parse("2026-03-14T09:00:00Z");

  /** The end of a start lies within some readings of 0.05 s, dated late on purpose. */
  static final double EDGE_S = 0.5;

  @TempDir Path folder;
  Path pump;
  Instant now = NINE.plusSeconds(600);
  int reads;

  final TraceFileDoor door =
      new TraceFileDoor() {
        @Override
        public Trace read(ReadRequest request) throws TraceFileException {
          reads++;
          return TraceFiles.read(
              request.file(),
              new ReadOptions(
                  request.columns(),
                  request.declaredKind(),
                  request.secondary(),
                  request.context()));
        }

        @Override
        public List<Path> write(WriteRequest request) {
          throw new UnsupportedOperationException("nothing is written here");
        }
      };

  KeepHeat keep() {
    return new KeepHeat(door, TraceAnalyzer::analyze, "1", () -> now);
  }

  @BeforeEach
  void lay() throws IOException {
    pump = new Workshop(folder).asset("pump");
  }

  /** A trial of a motor of 160 A: 8 s at 3.5 x, some seconds at 0.7 x, stopped. */
  Path trial(String name, double startS) throws IOException {
    Path trial = Files.createDirectories(pump.resolve("trials").resolve(name));
    StringBuilder csv = new StringBuilder("time_s,i1_A,i2_A,i3_A\n");
    for (int k = 0; k < 20 * 20; k++) {
      double t = k / 20.0;
      double amps = t < 1 ? 0 : t < 1 + startS ? 560 : t < 17 ? 112 : 0;
      csv.append(String.format(Locale.ROOT, "%.2f,%.1f,%.1f,%.1f%n", t, amps, amps, amps));
    }
    return Files.writeString(trial.resolve("trace.csv"), csv);
  }

  static double rotor(HeatResult result) {
    HeatPart part = result.standing().part(HeatPart.Kind.ROTOR);
    assertThat(part).isNotNull();
    return part.usedPct();
  }
}
