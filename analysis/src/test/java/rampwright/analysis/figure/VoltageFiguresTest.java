package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;

/** Voltages around a start. */
class VoltageFiguresTest {
  private static final DoubleUnaryOperator COURSE = t -> t < 1 || t > 9 ? 0 : t < 5 ? 350 : 80;

  private static Map<String, Measured> figures(MadeTrace made) {
    return MadeTrace.analyze(made.build()).figures().starts().get(0).figures();
  }

  @Test
  void aLineThatWasDeadBeforeHasAMinimumButNoDip() {
    // Behind the starter: nothing before, a direct 380 V from inception on, 395 V in the run.
    DoubleUnaryOperator volts = t -> t < 1 || t > 9 ? 0 : t < 5 ? 380 : 395;
    MadeTrace wave = new MadeTrace(10, 4000).withThreePhase(COURSE, 50);
    MadeTrace readings = new MadeTrace(10, 20).withThreeReadings(COURSE);
    for (int l = 0; l < 3; l++) {
      double turn = l * 2 * Math.PI / 3 - Math.PI / 6;
      wave.with(
          ChannelName.LINE_VOLTAGES.get(l),
          t -> Math.sqrt(2) * volts.applyAsDouble(t) * Math.sin(2 * Math.PI * 50 * t - turn));
      // A meter that averages back: the first reading holds part of the dead line.
      readings.with(
          ChannelName.LINE_VOLTAGES.get(l),
          t -> t > 1.01 && t < 1.06 ? 120 : volts.applyAsDouble(t));
    }
    for (MadeTrace made : new MadeTrace[] {wave, readings}) {
      Map<String, Measured> figures = figures(made);
      assertThat(figures.get("voltage_min_V").value()).isCloseTo(380, within(1.0));
      assertThat(figures.get("voltage_min_V").uncertainty()).isGreaterThan(0);
      assertThat(figures.get("voltage_dip_pct").why()).contains("motor's terminals");
      assertThat(figures.get("voltage_before_V").why()).contains("motor's terminals");
    }
  }

  @Test
  void noDipIsNotCertainlyNone() {
    MadeTrace made = new MadeTrace(10, 20).withThreeReadings(COURSE);
    for (ChannelName line : ChannelName.LINE_VOLTAGES) {
      made.with(line, t -> COURSE.applyAsDouble(t) > 100 ? 390 : 400);
    }
    Measured duration = figures(made).get("dip_duration_s");
    assertThat(duration.value()).isZero();
    assertThat(duration.uncertainty()).isGreaterThan(0);
  }
}
