package rampwright.app.trend;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class FleetTest {
  private static AssetTrend asset(String id, List<LoggedStart> starts, double upper) {
    FigureTrend figure =
        Trends.of(
            new TrendQuestion(
                "start_time_s",
                starts,
                List.of(),
                Double.isNaN(upper) ? OptionalDouble.empty() : OptionalDouble.of(upper),
                OptionalDouble.empty()));
    return new AssetTrend(
        id, AssetFacts.NONE, starts.size(), List.of(figure), List.of(), List.of());
  }

  private static List<LoggedStart> drifting() {
    return new StartsOfYears(5).drift(0.1, 0).make(400);
  }

  @Test
  void beyondALimitComesBeforeComingAndComingBeforeChanged() {
    Fleet fleet =
        Fleet.of(
            List.of(
                asset("steady", new StartsOfYears(1).make(300), 30),
                asset("changed", new StartsOfYears(2).step(0.12, 150).make(200), Double.NaN),
                asset("later", drifting(), 16),
                asset("sooner", drifting(), 14),
                asset("beyond", new StartsOfYears(1).make(300), 9),
                asset("few", new StartsOfYears(1).make(5), Double.NaN)));
    assertThat(fleet.rows())
        .extracting(row -> row.asset().asset())
        .containsExactly("beyond", "sooner", "later", "changed");
    assertThat(fleet.cannotTell()).isEqualTo(1);
    assertThat(fleet.byAsset()).hasSize(4);
  }

  @Test
  void theDayALimitWasPassedIsFound() {
    List<LoggedStart> starts = drifting();
    FigureTrend.LimitWatch watch = asset("d", starts, 11).figures().get(0).limit().orElseThrow();
    assertThat(watch.reached()).isEmpty();
    assertThat(watch.now()).isGreaterThan(11);
    // ten percent at ten percent a year: about the first year's end
    assertThat(watch.beyondSince().orElseThrow())
        .isBetween(starts.get(0).at().plusSeconds(250 * 86_400L), starts.get(399).at());
  }

  @Test
  void theCourseHasGapsWhereThereWereNoStarts() {
    List<LoggedStart> made = new StartsOfYears(3).make(60);
    double[] course = Course.of(asset("c", made, Double.NaN).figures().get(0), 200);
    assertThat(course).hasSize(200);
    assertThat(java.util.Arrays.stream(course).filter(Double::isNaN).count()).isPositive();
    assertThat(course[0]).isNotNaN();
    assertThat(course[199]).isNotNaN();
  }

  @Test
  void bothControlChartsFindADriftAndAreQuietWithoutOne() {
    ControlCharts drift = ControlCharts.of(asset("d", drifting(), 30).figures().get(0));
    assertThat(drift.firstCusumAlarm()).isPositive();
    assertThat(drift.firstEwmaAlarm()).isPositive();
    ControlCharts few =
        ControlCharts.of(asset("f", new StartsOfYears(1).make(5), 30).figures().get(0));
    assertThat(few.firstEwmaAlarm()).isEqualTo(-1);
    assertThat(few.up()).isEmpty();
  }

  /** The run lengths that are printed beside the charts are those of their settings. */
  @Test
  void statedRunLengthsAreTheirs() {
    double ewma = RunLength.ofEwma(ControlCharts.LAMBDA, ControlCharts.REACH, 0);
    double cusum = RunLength.ofTwoSidedCusum(ControlCharts.ALLOWANCE, ControlCharts.DECISION, 0);
    assertThat(ewma / ControlCharts.EWMA_RUN_LENGTH).isBetween(0.98, 1.02);
    assertThat(cusum / ControlCharts.CUSUM_RUN_LENGTH).isBetween(0.98, 1.02);
  }
}
