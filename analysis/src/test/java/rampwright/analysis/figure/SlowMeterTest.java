package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;

/** A meter of a reading or two a second gives what it can, with what it leaves open. */
class SlowMeterTest {
  @ParameterizedTest
  @ValueSource(doubles = {1, 2})
  void figuresCarryTheInterval(double rateHz) {
    MadeTrace made =
        new MadeTrace(70, rateHz)
            .withThreeReadings(t -> t < 5.3 || t > 50.6 ? 0 : t < 15 ? 350 : 80)
            .with(
                ChannelName.SPEED,
                t ->
                    t < 5.3
                        ? 0
                        : t < 50.6
                            ? Math.min(1480, 1480 * (t - 5.3) / 9.7)
                            : Math.max(0, 1480 - 100 * (t - 50.6)));
    for (ChannelName line : ChannelName.LINE_VOLTAGES) {
      made.with(line, t -> t > 5.3 && t < 15 ? 380 : 400);
    }
    StartRecord start = MadeTrace.analyze(made.build()).figures().starts().get(0);
    assertThat(start.outcome()).isEqualTo(Outcome.COMPLETED);
    Map<String, Double> truth =
        Map.of(
            "start_time_s", 0.95 * 9.7,
            "peak_current_A", 350.0,
            "run_current_A", 80.0,
            "voltage_before_V", 400.0,
            "voltage_min_V", 380.0,
            "voltage_dip_pct", 5.0,
            "i2t_A2s", 350.0 * 350.0 * 0.95 * 9.7);
    truth.forEach(
        (key, value) -> {
          Measured figure = start.figures().get(key);
          assertThat(figure.value()).as(key + " " + figure.why()).isNotNull();
          assertThat(figure.value()).as(key).isCloseTo(value, within(2 * figure.uncertainty()));
        });
    assertThat(start.figures().get("start_time_s").rule()).contains("speed");
    assertThat(start.figures().get("start_time_s").uncertainty()).isGreaterThan(0.3 / rateHz);
    assertThat(start.instants().get("settled_s").value()).isCloseTo(15, within(1 / rateHz + 1e-9));
    assertThat(start.stop().figures().get("stop_time_s").value()).isCloseTo(14.65, within(1.5));
  }
}
