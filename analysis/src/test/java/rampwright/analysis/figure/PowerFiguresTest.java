package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;

/** Power of sines, whose P, Q and S are known in closed form. */
class PowerFiguresTest {
  private static final double LAG = Math.toRadians(30);
  private static final DoubleUnaryOperator COURSE = t -> t < 1 || t > 9 ? 0 : t < 4 ? 350 : 80;

  /** 400 V, 80 A in the run, 30 degrees lagging; phases one way round or the other. */
  private static Map<String, Measured> figures(double hz, int direction) {
    return figures(hz, direction, MadeTrace.motor());
  }

  private static Map<String, Measured> figures(double hz, int direction, MotorContext motor) {
    MadeTrace made = new MadeTrace(10, 4000);
    double w = 2 * Math.PI * hz;
    for (int p = 0; p < 3; p++) {
      double turn = direction * p * 2 * Math.PI / 3;
      made.with(
          ChannelName.CURRENTS.get(p),
          t -> Math.sqrt(2) * COURSE.applyAsDouble(t) * Math.sin(w * t - turn - LAG));
      // A line voltage leads its first phase's by 30 degrees, or lags it in the other order.
      made.with(
          ChannelName.LINE_VOLTAGES.get(p),
          t -> Math.sqrt(2) * 400 * Math.sin(w * t - turn + direction * Math.PI / 6));
    }
    return TraceAnalyzer.analyze(made.build(), motor, AnalysisOptions.DEFAULT)
        .figures()
        .starts()
        .get(0)
        .figures();
  }

  @Test
  void reactivePowerIsTheSameInEitherPhaseOrder() {
    double expected = Math.sqrt(3) * 400 * 80 * Math.sin(LAG);
    for (int direction : new int[] {1, -1}) {
      Map<String, Measured> figures = figures(50, direction);
      assertThat(figures.get("reactive_power_var").value())
          .isCloseTo(expected, within(1e-3 * expected));
      assertThat(figures.get("reactive_power_var").parts().get("largest_in_start"))
          .isCloseTo(expected * 350 / 80, within(1e-2 * expected * 350 / 80));
      assertThat(figures.get("power_factor").value()).isCloseTo(Math.cos(LAG), within(1e-3));
    }
  }

  /** Voltages before a cable of 0.04 ohm: its loss is taken off, 768 W of 46.2 kW. */
  @Test
  void whatACableLosesMakesNoTorque() {
    MotorContext m = MadeTrace.motor();
    MotorContext far =
        new MotorContext(
            m.ratedCurrentA(),
            m.ratedSpeedRpm(),
            m.ratedFrequencyHz(),
            m.ratedVoltageV(),
            m.supplyVoltageV(),
            m.lockedRotorCurrentRatio(),
            m.lockedRotorTimeColdS(),
            m.lockedRotorTimeHotS(),
            m.windingResistanceOhm(),
            m.totalInertiaKgM2(),
            m.pipeLengthM(),
            m.waveSpeedMPerS(),
            m.flowVelocityMPerS(),
            m.startsPerHour(),
            false,
            0.04);
    double runW = Math.sqrt(3) * 400 * 80 * Math.cos(LAG) - 3 * (0.05 + 0.04) * 80 * 80;
    double expected = runW / (2 * Math.PI * 50 / 2);
    Measured torque = figures(50, 1, far).get("air_gap_torque_Nm");
    assertThat(torque.value()).isCloseTo(expected, within(0.002 * expected));
    assertThat(torque.rule()).contains("of the cable from the busbar");
  }

  @Test
  void torqueIsTakenAtTheFrequencyOfItsOwnCycle() {
    // A generating set that sags from 50 to 45 Hz as it takes the start, and recovers in the run.
    DoubleUnaryOperator turns =
        t -> t < 1 ? 50 * t : t < 4 ? 50 + 45 * (t - 1) : 185 + 50 * (t - 4);
    MadeTrace made = new MadeTrace(10, 4000);
    for (int p = 0; p < 3; p++) {
      double turn = p * 2 * Math.PI / 3;
      made.with(
          ChannelName.CURRENTS.get(p),
          t ->
              Math.sqrt(2)
                  * COURSE.applyAsDouble(t)
                  * Math.sin(2 * Math.PI * turns.applyAsDouble(t) - turn - LAG));
      made.with(
          ChannelName.LINE_VOLTAGES.get(p),
          t ->
              Math.sqrt(2)
                  * 400
                  * Math.sin(2 * Math.PI * turns.applyAsDouble(t) - turn + Math.PI / 6));
    }
    Measured torque =
        MadeTrace.analyze(made.build())
            .figures()
            .starts()
            .get(0)
            .figures()
            .get("air_gap_torque_Nm");
    // 0.1 ohm between lines, 50 Hz and 1480 rpm: two pole pairs.
    double startW = Math.sqrt(3) * 400 * 350 * Math.cos(LAG) - 3 * 0.05 * 350 * 350;
    double expected = startW / (2 * Math.PI * 45 / 2);
    assertThat(torque.parts().get("largest_in_start")).isCloseTo(expected, within(0.02 * expected));
    double runW = Math.sqrt(3) * 400 * 80 * Math.cos(LAG) - 3 * 0.05 * 80 * 80;
    double inRun = runW / (2 * Math.PI * 50 / 2);
    assertThat(torque.value()).isCloseTo(inRun, within(0.002 * inRun));
  }
}
