package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;

/** Two starts in a trace: current from 2 to 15 s and from 30 to 45 s, full speed 4.75 s later. */
class CorrectionsTest {
  private static double current(double t, double atS, double endS) {
    return t < atS || t >= endS ? 0 : t < atS + 5 ? 350 : 80;
  }

  private static double speed(double t, double atS, double endS) {
    return t < atS
        ? 0
        : t < endS ? Math.min(1480, 296 * (t - atS)) : Math.max(0, 1480 - 300 * (t - endS));
  }

  private static Trace trace() {
    return new MadeTrace(60, 50)
        .withThreeReadings(t -> current(t, 2, 15) + current(t, 30, 45))
        .with(ChannelName.SPEED, t -> t < 29 ? speed(t, 2, 15) : speed(t, 30, 45))
        .build();
  }

  private static List<StartRecord> with(Map<String, Double> corrected) {
    AnalysisOptions options =
        new AnalysisOptions(corrected, "seen on the spot", Thresholds.DEFAULT, null);
    return TraceAnalyzer.analyze(trace(), MadeTrace.motor(), options).figures().starts();
  }

  private static boolean byHand(Measured instant) {
    return instant.value() != null && instant.rule().startsWith("corrected");
  }

  @Test
  void eachGoesToTheStartItLiesIn() {
    List<StartRecord> starts = with(Map.of("full_speed_s", 36.0, "rest_s", 21.0));
    assertThat(byHand(starts.get(0).instants().get("full_speed_s"))).isFalse();
    assertThat(starts.get(0).figures().get("start_time_s").value()).isCloseTo(4.75, within(0.02));
    assertThat(byHand(starts.get(0).stop().instants().get("rest_s"))).isTrue();
    assertThat(starts.get(0).stop().figures().get("stop_time_s").value())
        .isCloseTo(6, within(0.02));
    assertThat(byHand(starts.get(1).instants().get("full_speed_s"))).isTrue();
    assertThat(starts.get(1).figures().get("start_time_s").value()).isCloseTo(6, within(0.02));
    assertThat(byHand(starts.get(1).stop().instants().get("rest_s"))).isFalse();
  }

  @Test
  void anInceptionBetweenTwoStartsIsTheSecondsAndARestTheFirsts() {
    List<StartRecord> starts = with(Map.of("inception_s", 29.5, "rest_s", 29.5));
    assertThat(byHand(starts.get(0).instants().get("inception_s"))).isFalse();
    assertThat(byHand(starts.get(0).stop().instants().get("rest_s"))).isTrue();
    assertThat(byHand(starts.get(1).instants().get("inception_s"))).isTrue();
  }

  @ParameterizedTest
  @CsvSource({
    "full_speed_s, 1.0, found inception_s = 1.995 s comes after corrected full_speed_s = 1.000 s",
    "breakaway_s, 8.0, corrected breakaway_s = 8.000 s comes after found full_speed_s",
    "stop_begin_s, 3.0, found full_speed_s = 6.750 s comes after corrected stop_begin_s = 3.000 s",
    "rest_s, 14.0, found stop_begin_s",
    "release_s, 14.0, found stop_begin_s",
    "full_speed_s, 61.0, outside the record",
    "full_speed_s, 50.0, lies in no start",
    "rest_s, 1.0, lies in no start"
  })
  void whatCannotBeIsRefusedWithWhatWasFound(String key, double atS, String text) {
    assertThatThrownBy(() -> with(Map.of(key, atS)))
        .isInstanceOf(ImpossibleCorrectionException.class)
        .hasMessageContaining(text.trim());
  }

  @Test
  void twoCorrectedTogetherAreHeldAgainstEachOther() {
    Map<String, Double> both = new LinkedHashMap<>();
    both.put("stop_begin_s", 13.0);
    both.put("release_s", 12.5);
    assertThatThrownBy(() -> with(both))
        .hasMessageContaining("corrected stop_begin_s")
        .hasMessageContaining("corrected release_s");
    both.put("release_s", 14.0);
    assertThat(with(both).get(0).stop().figures().get("controlled_time_s").value()).isEqualTo(1.0);
  }

  @Test
  void aStopThatIsNotThereCannotBeCorrected() {
    Trace running = new MadeTrace(20, 50).withThreeReadings(t -> current(t, 2, 99)).build();
    AnalysisOptions options =
        new AnalysisOptions(Map.of("release_s", 18.0), "why", Thresholds.DEFAULT, null);
    assertThatThrownBy(() -> TraceAnalyzer.analyze(running, MadeTrace.motor(), options))
        .hasMessageContaining("no stop was found");
  }
}
