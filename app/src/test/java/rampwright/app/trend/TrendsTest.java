package rampwright.app.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class TrendsTest {

  private static FigureTrend trend(List<LoggedStart> starts) {
    return Trends.of(
        new TrendQuestion(
            "start_time_s", starts, List.of(), OptionalDouble.of(13), OptionalDouble.empty()));
  }

  @Test
  void scatterIsSteady() {
    FigureTrend trend = trend(new StartsOfYears(1).make(300));
    assertThat(trend.state()).isEqualTo(TrendState.STEADY);
    assertThat(trend.limit().orElseThrow().reached()).isEmpty();
    assertThat(trend.baseline().orElseThrow().median()).isCloseTo(10, within(0.2));
    assertThat(trend.baseline().orElseThrow().n()).isEqualTo(300);
  }

  @Test
  void aStepIsDatedAndSized() {
    List<LoggedStart> starts = new StartsOfYears(2).step(0.12, 150).make(200);
    FigureTrend trend = trend(starts);
    assertThat(trend.state()).isEqualTo(TrendState.STEP);
    FigureTrend.Step step = trend.step().orElseThrow();
    assertThat(step.sizePct()).isCloseTo(12, within(3.0)); // 3 standard errors of 50 starts
    assertThat(starts.get(150).at()).isBetween(step.low(), step.high());
    assertThat(trend.since()).contains(step.at());
  }

  @Test
  void aLargeStepIsNoRowOfOutliers() {
    FigureTrend trend = trend(new StartsOfYears(3).step(0.6, 60).make(68));
    assertThat(trend.state()).isEqualTo(TrendState.STEP);
  }

  @Test
  void oneBadStartIsNoStep() {
    List<LoggedStart> starts = new ArrayList<>(new StartsOfYears(4).make(60));
    LoggedStart bad = starts.get(57);
    starts.set(57, new LoggedStart(bad.at(), bad.settings(), 31, bad.voltageBeforeV(), true));
    assertThat(trend(starts).state()).isEqualTo(TrendState.STEADY);
  }

  @Test
  void aDriftHasItsSlopeAndTheDayOfItsLimit() {
    StartsOfYears plant = new StartsOfYears(5).drift(0.1, 0);
    FigureTrend trend = trend(plant.make(400));
    assertThat(trend.state()).isEqualTo(TrendState.DRIFT);
    FigureTrend.Drift drift = trend.drift().orElseThrow();
    // the interval holds the truth nine times in ten; three standard deviations always but 0.3 %
    double threeSd = 3 * (drift.high() - drift.low()) / (2 * 1.645);
    assertThat(drift.pctPerYear()).isCloseTo(10.0, within(threeSd));
    assertThat(drift.high() - drift.low()).isBetween(0.5, 5.0);
    assertThat(drift.mannKendallP()).isLessThan(0.001);
    FigureTrend.Reached reached = trend.limit().orElseThrow().reached().orElseThrow();
    assertThat(Math.abs(Duration.between(plant.grownBy(0.3), reached.date()).toDays()))
        .isLessThan(Duration.between(reached.low(), reached.high().orElseThrow()).toDays());
  }

  @Test
  void changedSettingsBeginANewBaseline() {
    List<LoggedStart> starts = new ArrayList<>();
    List<LoggedStart> made = new StartsOfYears(6).step(0.3, 100).make(160);
    for (int i = 0; i < made.size(); i++) {
      LoggedStart s = made.get(i);
      String settings = i < 100 ? "ramp 8 s" : "ramp 12 s";
      starts.add(new LoggedStart(s.at(), settings, s.value(), s.voltageBeforeV(), true));
    }
    FigureTrend trend = trend(starts);
    assertThat(trend.state()).isEqualTo(TrendState.STEADY);
    assertThat(trend.baseline().orElseThrow().from()).isEqualTo(starts.get(100).at());
    assertThat(trend(starts.subList(0, 105)).state()).isEqualTo(TrendState.CANNOT_TELL);
    assertThat(trend(starts.subList(0, 105)).why()).contains("5 starts", "settings", "12");
  }

  @Test
  void workOnTheMachineBeginsANewBaseline() {
    List<LoggedStart> starts = new StartsOfYears(7).step(-0.2, 80).make(120);
    Instant work = starts.get(80).at().minus(Duration.ofMinutes(1));
    TrendQuestion question =
        new TrendQuestion(
            "start_time_s", starts, List.of(work), OptionalDouble.empty(), OptionalDouble.empty());
    assertThat(Trends.of(question).state()).isEqualTo(TrendState.STEADY);
    assertThat(Trends.of(question).limit()).isEmpty();
    assertThat(trend(starts).state()).isEqualTo(TrendState.STEP);
  }

  @Test
  void theSupplyIsNoChangeOfTheMotor() {
    List<LoggedStart> starts = new ArrayList<>();
    List<LoggedStart> made = new StartsOfYears(8).scatter(0.02).season(0).make(200);
    for (int i = 0; i < made.size(); i++) {
      LoggedStart s = made.get(i);
      double low = i >= 120 ? 0.95 : 1; // the transformer's tap was moved
      double voltage = s.voltageBeforeV() * low;
      starts.add(new LoggedStart(s.at(), "a", s.value() * Math.pow(low, -2), voltage, true));
    }
    assertThat(trend(starts).state()).isEqualTo(TrendState.STEADY);
    List<LoggedStart> blind =
        starts.stream()
            .map(s -> new LoggedStart(s.at(), s.settings(), s.value(), Double.NaN, true))
            .toList();
    assertThat(trend(blind).state()).isEqualTo(TrendState.STEP);
  }

  @Test
  void startsThatDoNotCountAreLeftOut() {
    List<LoggedStart> starts = new ArrayList<>();
    List<LoggedStart> made = new StartsOfYears(9).step(0.5, 40).make(60);
    for (int i = 0; i < made.size(); i++) {
      LoggedStart s = made.get(i);
      starts.add(new LoggedStart(s.at(), "a", s.value(), s.voltageBeforeV(), i < 40));
    }
    assertThat(trend(starts).n()).isEqualTo(40);
    assertThat(trend(starts).state()).isEqualTo(TrendState.STEADY);
  }

  @Test
  void brokenRecordsAreAnswered() {
    Instant at = Instant.parse("2021-01-01T00:00:00Z");
    List<LoggedStart> same = new ArrayList<>();
    List<LoggedStart> zeros = new ArrayList<>();
    List<LoggedStart> none = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      same.add(new LoggedStart(at, "a", 5, Double.NaN, true));
      zeros.add(new LoggedStart(at.plusSeconds(i), "a", 0, 0, true));
      none.add(new LoggedStart(at.plusSeconds(i), "a", Double.NaN, -1, true));
    }
    assertThat(trend(same).state()).isEqualTo(TrendState.STEADY);
    assertThat(trend(zeros).state()).isEqualTo(TrendState.CANNOT_TELL);
    assertThat(trend(none).state()).isEqualTo(TrendState.CANNOT_TELL);
    assertThat(trend(List.of()).state()).isEqualTo(TrendState.CANNOT_TELL);
  }

  @Test
  void sizesDoNotDependOnTheUnit() {
    List<LoggedStart> seconds = new StartsOfYears(10).step(0.15, 100).make(160);
    List<LoggedStart> millis =
        seconds.stream()
            .map(
                s ->
                    new LoggedStart(
                        s.at(), s.settings(), 1000 * s.value(), s.voltageBeforeV(), true))
            .toList();
    assertThat(trend(millis).step().orElseThrow().sizePct())
        .isCloseTo(trend(seconds).step().orElseThrow().sizePct(), within(1e-6));
  }
}
