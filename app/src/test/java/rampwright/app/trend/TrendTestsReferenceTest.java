package rampwright.app.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import rampwright.app.fixture.SharedData;

/** Mann-Kendall and Sen against published results. */
class TrendTestsReferenceTest {

  /** A worked college note: S 54, variance 332.6667, z 2.9058; one-sided p 0.0018. */
  private static final double[] COLLEGE_NOTE = {
    12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7
  };

  @Test
  void mannKendallByHand() {
    MannKendall test = MannKendall.of(COLLEGE_NOTE);
    assertThat(test.s()).isEqualTo(54);
    assertThat(test.variance()).isCloseTo(332.6667, within(5e-5));
    assertThat(test.z()).isCloseTo(2.9058, within(5e-5));
    assertThat(test.p() / 2).isCloseTo(0.0018, within(5e-5));
  }

  /** US EPA Unified Guidance 2009, example 17-6, as documented by a public statistics package. */
  @Test
  void sulfate() throws IOException {
    List<double[]> rows = rows("epa2009_ex17-6_sulfate.csv", 3, 5);
    double[] time = rows.stream().mapToDouble(row -> row[0]).toArray();
    double[] values = rows.stream().mapToDouble(row -> row[1]).toArray();
    MannKendall test = MannKendall.of(values);
    assertThat(test.s()).isEqualTo(194);
    assertThat(test.variance()).isCloseTo(1428, within(1e-9));
    assertThat(test.z()).isCloseTo(5.107322, within(5e-7));
    assertThat(test.p()).isCloseTo(3.267574e-07, within(5e-13));
    SenSlope sen = SenSlope.of(time, values, 1.959964);
    assertThat(sen.slope()).isCloseTo(26.6666667, within(5e-7));
    // 20.00000 and 35.71182: ranks between two slopes are read straight there as here
    assertThat(sen.low()).isCloseTo(20.0, within(5e-6));
    assertThat(sen.high()).isCloseTo(35.71182, within(5e-6));
  }

  /** Unit tests of an independent trend library: 353 values. */
  @Test
  void noTrendInArbitraryData() throws IOException {
    double[] values =
        rows("mk_arbitrary_1d.csv", 0, 1).stream().mapToDouble(row -> row[1]).toArray();
    MannKendall test = MannKendall.of(values);
    assertThat(test.s()).isEqualTo(-1959);
    assertThat(test.variance()).isCloseTo(4889800.3333, within(5e-5));
    assertThat(test.z()).isCloseTo(-0.8854562842589916, within(1e-12));
    assertThat(test.p()).isCloseTo(0.37591058740506833, within(1e-9));
  }

  /** R documentation: mad(1:9) is 2.9652 with the factor 1.4826. */
  @Test
  void medianAbsoluteDeviation() {
    assertThat(1.4826 * RobustScale.mad(1, 2, 3, 4, 5, 6, 7, 8, 9)).isCloseTo(2.9652, within(1e-9));
    assertThat(RobustScale.mad(1, 2, 3, 4, 5, 6, 7, 8, 100)).isEqualTo(2);
  }

  private static List<double[]> rows(String file, int timeAt, int valueAt) throws IOException {
    Path folder = SharedData.folder("open-data").resolve("spc-and-trend");
    List<double[]> rows = new ArrayList<>();
    for (String line : Files.readAllLines(folder.resolve(file)).stream().skip(1).toList()) {
      String[] cells = line.replace("\"", "").split(",", -1);
      if (!cells[valueAt].isBlank()) {
        rows.add(
            new double[] {Double.parseDouble(cells[timeAt]), Double.parseDouble(cells[valueAt])});
      }
    }
    return rows;
  }
}
