package rampwright.app.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
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

  /** The selected values against those of a sorted copy: the definition. */
  @Test
  void selectingAgreesWithSorting() {
    Random chance = new Random(71);
    for (int n : new int[] {1, 2, 3, 7, 151, 152, 600, 5000}) {
      for (int kind = 0; kind < 4; kind++) {
        double[] values = new double[n];
        for (int i = 0; i < n; i++) {
          // scattered, many alike, rising, all alike
          values[i] =
              switch (kind) {
                case 0 -> chance.nextGaussian();
                case 1 -> chance.nextInt(5);
                case 2 -> i;
                default -> 3;
              };
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        for (int k : new int[] {0, n / 3, n / 2, n - 1}) {
          assertThat(RobustScale.select(values.clone(), k)).isEqualTo(sorted[k]);
        }
        assertThat(RobustScale.median(values))
            .isEqualTo(n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2);
      }
    }
  }

  /** R package trend, vignette, river Maxau: yearly flow and sediment, 1965 to 2009. */
  @Test
  void maxau() throws IOException {
    List<String> lines =
        Files.readAllLines(SharedData.folder("reference").resolve("maxau_1965_2009.csv"));
    List<String> header = List.of(lines.get(0).split(","));
    double[] flow = column(lines, header.indexOf("flow_Q"));
    double[] sediment = column(lines, header.indexOf("sediment_s"));
    MannKendall ofFlow = MannKendall.of(flow);
    assertThat(ofFlow.s()).isEqualTo(-144);
    assertThat(ofFlow.variance()).isCloseTo(10450, within(1e-9));
    assertThat(ofFlow.z()).isCloseTo(-1.3989, within(5e-5));
    assertThat(MannKendall.of(sediment).z()).isCloseTo(-3.8445, within(5e-5));
    double[] years = new double[sediment.length];
    java.util.Arrays.setAll(years, i -> i);
    SenSlope sen = SenSlope.of(years, sediment, 1.959964);
    assertThat(sen.slope()).isCloseTo(-0.2876139, within(5e-8));
    assertThat(sen.low()).isCloseTo(-0.4196477, within(5e-4));
    assertThat(sen.high()).isCloseTo(-0.1519026, within(5e-4));
  }

  /** Pettitt 1979, table 1 (Page's data): K 232 after 17 of 40, printed p 0.014. */
  @Test
  void pettittOnPagesData() throws IOException {
    List<String> lines =
        Files.readAllLines(SharedData.folder("reference").resolve("page1955_pettitt.csv"));
    Pettitt test = Pettitt.of(column(lines, lines.get(0).split(",").length - 1));
    assertThat(test.k()).isEqualTo(232);
    assertThat(test.last()).isEqualTo(17);
    assertThat(test.p()).isCloseTo(0.01456, within(5e-6));
  }

  /**
   * Yearly flow of the Nile, 1871 to 1970; data typed from memory, total and means agree. Several
   * packages find the change after the 28th value (1898): Buishand, PELT with a cost of the mean,
   * Pettitt. The trend finds the same place, and its size by the means 1097.75 and 849.97; for it
   * the values are laid a week apart, since it expects changes by the time that passes.
   */
  @Test
  void nileFellAfter1898() throws IOException {
    List<double[]> rows = new ArrayList<>();
    for (String line :
        Files.readAllLines(SharedData.folder("reference").resolve("nile_1871_1970.csv")).stream()
            .skip(1)
            .toList()) {
      String[] cells = line.split(",");
      rows.add(new double[] {Double.parseDouble(cells[0]), Double.parseDouble(cells[1])});
    }
    Pettitt test = Pettitt.of(rows.stream().mapToDouble(row -> row[1]).toArray());
    assertThat(test.k()).isEqualTo(1617);
    assertThat(test.last()).isEqualTo(28);
    assertThat(test.p()).isCloseTo(3.59e-7, within(5e-10));
    List<LoggedStart> years =
        rows.stream()
            .map(
                row ->
                    new LoggedStart(
                        java.time.Instant.EPOCH.plus(java.time.Duration.ofDays(7 * (long) row[0])),
                        "river",
                        row[1],
                        Double.NaN,
                        true))
            .toList();
    FigureTrend trend =
        Trends.of(
            new TrendQuestion(
                "flow",
                years,
                List.of(),
                java.util.OptionalDouble.empty(),
                java.util.OptionalDouble.empty()));
    FigureTrend.Step step = trend.step().orElseThrow();
    assertThat(step.at()).isEqualTo(years.get(28).at());
    assertThat(step.sizePct()).isCloseTo(100 * (849.9722 / 1097.75 - 1), within(NILE_SIZE_PCT));
    assertThat(trend.state()).isEqualTo(TrendState.STEP);
  }

  /** Outlying years weigh less here than in plain means: about a tenth of the size. */
  private static final double NILE_SIZE_PCT = 2;

  /**
   * NIST StRD, Norris (linear, lower difficulty): certified to 15 digits. Loose priors pull a
   * coefficient by (sd / 1e6)^2 of itself, far below the 8 digits asked for.
   */
  @Test
  void regressionOnNorris() throws IOException {
    List<String> lines =
        Files.readAllLines(SharedData.folder("reference").resolve("strd_norris.csv"));
    List<String> header = List.of(lines.get(0).split(","));
    double[] y = column(lines, header.indexOf("y"));
    double[] x = column(lines, header.indexOf("x"));
    double[] ones = new double[y.length];
    java.util.Arrays.fill(ones, 1);
    WeightedFit fit =
        new WeightedFit(y, ones, new double[][] {ones, x}, new double[] {1e9, 1e9}, 1);
    assertThat(fit.coefficient(0) / -0.262323073774029).isCloseTo(1, within(1e-8));
    assertThat(fit.coefficient(1) / 1.00211681802045).isCloseTo(1, within(1e-10));
    double sd = Math.sqrt(fit.rss() / (y.length - 2));
    assertThat(sd / 0.884796396144373).isCloseTo(1, within(1e-8));
    assertThat(sd * Math.sqrt(fit.unitCovariance(0, 0)) / 0.232818234301152)
        .isCloseTo(1, within(1e-8));
    assertThat(sd * Math.sqrt(fit.unitCovariance(1, 1)) / 0.000429796848199937)
        .isCloseTo(1, within(1e-8));
  }

  /**
   * NIST/SEMATECH handbook, 6.3.2.2, individuals: mean moving range 1.8778 over d2 = 1.128 is the
   * standard deviation. Ours takes medians of the same differences; for ten values the two agree
   * within the standard error of the median one, 0.78 of itself over the square root of 9, doubled.
   */
  @Test
  void scatterOfNeighboursOnTheIndividualsChart() {
    double[] values = {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
    double sum = 0;
    for (int i = 1; i < values.length; i++) {
      sum += Math.abs(values[i] - values[i - 1]);
    }
    assertThat(sum / 9).isCloseTo(1.8778, within(5e-5));
    double byRange = sum / 9 / 1.128;
    assertThat(RobustScale.ofNeighbours(values) / byRange).isCloseTo(1, within(2 * 0.78 / 3));
  }

  private static double[] column(List<String> lines, int at) {
    return lines.stream()
        .skip(1)
        .filter(line -> !line.isBlank())
        .mapToDouble(line -> Double.parseDouble(line.split(",")[at]))
        .toArray();
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
