package rampwright.analysis.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.trace.Samples;

/**
 * RMS, unbalance and sequences of measured currents: an unloaded 0.75 hp motor on 60 Hz, 1 kHz,
 * three phases, healthy and with a shorted part of one winding.
 *
 * <p>Source: open data set "ITSC" (three-phase currents, MIT licence), read in place.
 */
class MeasuredMotorTest {
  private static final double CYCLE = 1000 / 60.0;

  @ParameterizedTest
  @CsvSource({
    "SC_HLT_002.csv, 1.9714, 1.9582, 1.9761, 0.53",
    "SC_A4_B0_C0_001.csv, 2.9411, 3.1014, 2.0646, 23.6",
  })
  void agreesWithThePlainSums(String file, double a, double b, double c, double unbalancePct)
      throws IOException {
    Samples[] currents = read(file);
    // Expected: root mean square of all 1000 samples (60 cycles), computed elsewhere. The window
    // here is 59 cycles of the nominal frequency: leaving a cycle out of 60 moves it by 0.1 % where
    // cycles differ by 6 % as they do here.
    SampleWindow window = new SampleWindow(5.3, 5.3 + 59 * CYCLE);
    double[] rms = new double[3];
    for (int p = 0; p < 3; p++) {
      rms[p] = OneCycleDft.of(currents[p], window, 0).rms();
    }
    assertThat(rms[0]).isCloseTo(a, within(0.002 * a));
    assertThat(rms[1]).isCloseTo(b, within(0.002 * b));
    assertThat(rms[2]).isCloseTo(c, within(0.002 * c));
    assertThat(100 * Unbalance.maxDeviationShare(rms[0], rms[1], rms[2]))
        .isCloseTo(unbalancePct, within(0.2));
  }

  @ParameterizedTest
  @CsvSource({"SC_HLT_002.csv", "SC_A4_B0_C0_001.csv"})
  void threeWireCurrentsAddUpAndBothRoutesToTheRatioAgree(String file) throws IOException {
    // Three separate sensors: their sum is not forced to zero, and the two routes differ by about
    // its share (3 to 4 % in this data). The data set says it was filtered; at 16.7 samples a
    // cycle a plain trapezoid over cut cycles would show up to 8 % of distortion that is not there.
    Samples[] currents = read(file);
    for (int k = 5; k < 50; k += 9) {
      SampleWindow cycle = new SampleWindow(k * CYCLE + 0.4, (k + 1) * CYCLE + 0.4);
      CycleSpectrum one = OneCycleDft.of(currents[0], cycle, 1);
      CycleSpectrum two = OneCycleDft.of(currents[1], cycle, 1);
      CycleSpectrum three = OneCycleDft.of(currents[2], cycle, 1);
      SymmetricalComponents all =
          SymmetricalComponents.of(one.phasor(1), two.phasor(1), three.phasor(1));
      double fromMagnitudes =
          Unbalance.negativeShare(one.magnitude(1), two.magnitude(1), three.magnitude(1));
      double share = Math.min(all.negativeShare(), 1 / all.negativeShare());
      assertThat(fromMagnitudes).isCloseTo(share, within(2 * all.zeroShare() + 0.01));
      CycleSpectrum harmonics = OneCycleDft.of(currents[0], cycle, Harmonics.highestOrder(cycle));
      assertThat(Harmonics.totalDistortion(harmonics)).isLessThan(0.005);
    }
  }

  private static Samples[] read(String file) throws IOException {
    Path path = find(Path.of("").toAbsolutePath(), file);
    Assumptions.assumeTrue(path != null, "open data not beside the project: " + file);
    List<String> lines = path == null ? List.of() : Files.readAllLines(path);
    double[][] x = new double[3][lines.size()];
    for (int k = 0; k < lines.size(); k++) {
      String[] cells = lines.get(k).split(",");
      for (int p = 0; p < 3; p++) {
        x[p][k] = Double.parseDouble(cells[p].trim());
      }
    }
    return new Samples[] {Samples.owning(x[0]), Samples.owning(x[1]), Samples.owning(x[2])};
  }

  private static Path find(Path from, String file) {
    for (Path at = from; at != null; at = at.getParent()) {
      Path path = at.resolve("shared/open-data/induction-motor-steady-1khz").resolve(file);
      if (Files.exists(path)) {
        return path;
      }
    }
    return null;
  }
}
