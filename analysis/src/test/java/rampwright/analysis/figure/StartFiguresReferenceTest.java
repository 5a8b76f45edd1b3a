package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;

/**
 * Figures against closed forms: integrals of squares of ramps and exponentials are school calculus;
 * RMS of a linear ramp is A / sqrt(3) (reference tables, section 1.1).
 */
class StartFiguresReferenceTest {
  // Trapezoids of a quadratic at 100 readings a second over seconds: (dt)^2 / 12 x change of slope.
  private static final double READINGS_SHARE = 1e-3;

  private static double value(StartRecord start, String key) {
    Measured m = start.figures().get(key);
    assertThat(m).as(key).isNotNull();
    assertThat(m.value()).as(key + ": " + m.why()).isNotNull();
    return m.value();
  }

  /** Current ramps 100 A to 400 A over 6 s, then 80 A; speed linear to 1480 rpm over the 6 s. */
  private static Trace ramp(double rateHz) {
    return new MadeTrace(14, rateHz)
        .withThreeReadings(t -> t < 2 ? 0 : t < 8 ? 100 + 50 * (t - 2) : 80)
        .with(ChannelName.SPEED, t -> t < 2 ? 0 : t < 8 ? 1480 * (t - 2) / 6 : 1480)
        .build();
  }

  @Test
  void i2tOfALinearRampIsTheIntegralOfItsSquare() {
    StartRecord start = MadeTrace.analyze(ramp(100)).figures().starts().get(0);
    // 95 % of 1480 rpm on a straight line of 6 s: 5.7 s after the start of motion.
    assertThat(value(start, "start_time_s")).isCloseTo(5.7, within(0.011));
    double t = 5.7;
    double expected = 100 * 100 * t + 100 * 50 * t * t + 50 * 50 * t * t * t / 3;
    assertThat(value(start, "i2t_A2s")).isCloseTo(expected, within(expected * 3e-3));
    assertThat(value(start, "i2t_ratio_s"))
        .isCloseTo(expected / 1e4, within(expected / 1e4 * 3e-3));
    assertThat(value(start, "rms_current_A"))
        .isCloseTo(Math.sqrt(expected / t), within(Math.sqrt(expected / t) * 3e-3));
    assertThat(value(start, "run_current_A")).isCloseTo(80, within(1e-9));
    assertThat(value(start, "peak_current_A")).isCloseTo(385, within(1.0));
    assertThat(start.outcome()).isEqualTo(Outcome.COMPLETED);
  }

  @Test
  void i2tOfAnExponentialIsItsClosedForm() {
    double tau = 1.5;
    Trace trace =
        new MadeTrace(14, 200)
            .withThreeReadings(t -> t < 2 ? 0 : 60 + 340 * Math.exp(-(t - 2) / tau))
            .with(ChannelName.SPEED, t -> t < 2 ? 0 : 1480 * (1 - Math.exp(-(t - 2) / tau)))
            .build();
    StartRecord start = MadeTrace.analyze(trace).figures().starts().get(0);
    // The settled speed is the mean over the last second of the record, hardly below 1480.
    double settled = 1480 * (1 - tau * (Math.exp(-11 / tau) - Math.exp(-12 / tau)));
    double full = -tau * Math.log(1 - 0.95 * settled / 1480);
    assertThat(value(start, "start_time_s")).isCloseTo(full, within(0.01));
    double expected =
        60 * 60 * full
            + 2 * 60 * 340 * tau * (1 - Math.exp(-full / tau))
            + 340 * 340 * tau / 2 * (1 - Math.exp(-2 * full / tau));
    assertThat(value(start, "i2t_A2s")).isCloseTo(expected, within(expected * 4e-3));
  }

  @Test
  void waveformAndReadingsOfTheSameCourseAgree() {
    Trace wave =
        new MadeTrace(14, 5000)
            .withThreePhase(t -> t < 2 ? 0 : t < 8 ? 100 + 50 * (t - 2) : 80, 50)
            .with(ChannelName.SPEED, t -> t < 2 ? 0 : t < 8 ? 1480 * (t - 2) / 6 : 1480)
            .build();
    StartRecord a = MadeTrace.analyze(wave).figures().starts().get(0);
    StartRecord b = MadeTrace.analyze(ramp(100)).figures().starts().get(0);
    // The sine's square swings about its mean: over 285 half cycles it leaves below 1 / 285.
    for (String key : new String[] {"i2t_A2s", "rms_current_A", "peak_current_A", "start_time_s"}) {
      assertThat(value(a, key)).as(key).isCloseTo(value(b, key), within(value(b, key) * 5e-3));
    }
    assertThat(value(a, "crest_current_A")).isCloseTo(385 * Math.sqrt(2), within(3.0));
    assertThat(value(a, "negative_sequence_pct")).isLessThan(0.5);
    assertThat(value(a, "current_unbalance_pct")).isLessThan(1.0);
  }

  @Test
  void figuresScaleWithCurrentAndNotWithIt() {
    Trace twice =
        new MadeTrace(14, 100)
            .withThreeReadings(t -> t < 2 ? 0 : t < 8 ? 200 + 100 * (t - 2) : 160)
            .with(ChannelName.SPEED, t -> t < 2 ? 0 : t < 8 ? 1480 * (t - 2) / 6 : 1480)
            .build();
    StartRecord one = MadeTrace.analyze(ramp(100)).figures().starts().get(0);
    StartRecord two = MadeTrace.analyze(twice).figures().starts().get(0);
    assertThat(value(two, "peak_current_A"))
        .isCloseTo(2 * value(one, "peak_current_A"), within(1e-9));
    assertThat(value(two, "i2t_A2s")).isCloseTo(4 * value(one, "i2t_A2s"), within(1e-6));
    assertThat(value(two, "start_time_s")).isCloseTo(value(one, "start_time_s"), within(1e-12));
  }

  @Test
  void moreReadingsBringTheIntegralNearer() {
    double t = 5.7;
    double expected = 100 * 100 * t + 100 * 50 * t * t + 50 * 50 * t * t * t / 3;
    double coarse =
        Math.abs(
            value(MadeTrace.analyze(ramp(20)).figures().starts().get(0), "i2t_A2s") - expected);
    double fine =
        Math.abs(
            value(MadeTrace.analyze(ramp(320)).figures().starts().get(0), "i2t_A2s") - expected);
    assertThat(fine).isLessThan(coarse / 3);
    assertThat(fine).isLessThan(expected * READINGS_SHARE);
  }

  @Test
  void heatShareIsI2tOverTheLockedRotorAllowance() {
    StartRecord start = MadeTrace.analyze(ramp(100)).figures().starts().get(0);
    double i2t = value(start, "i2t_A2s");
    // 20 s and 10 s at 6 x 100 A.
    assertThat(value(start, "motor_heat_cold_pct"))
        .isCloseTo(100 * i2t / (20 * 600 * 600), within(1e-9));
    assertThat(value(start, "motor_heat_hot_pct"))
        .isCloseTo(100 * i2t / (10 * 600 * 600), within(1e-9));
  }

  @Test
  void dipIsTakenLineByLineAgainstTheLineBefore() {
    Trace trace =
        new MadeTrace(14, 100)
            .withThreeReadings(t -> t < 2 ? 0 : t < 8 ? 300 : 80)
            .with(ChannelName.V12, t -> t < 2 ? 400 : t < 8 ? 380 : 398)
            .with(ChannelName.V23, t -> t < 2 ? 404 : t < 8 ? 376 : 402)
            .with(ChannelName.V31, t -> t < 2 ? 396 : t < 8 ? 378 : 395)
            .with(ChannelName.SPEED, t -> t < 2 ? 0 : t < 8 ? 1480 * (t - 2) / 6 : 1480)
            .build();
    StartRecord start = MadeTrace.analyze(trace).figures().starts().get(0);
    Measured dip = start.figures().get("voltage_dip_pct");
    assertThat(dip.value()).isCloseTo(100 * (1 - 376.0 / 404), within(1e-9));
    assertThat(dip.phase()).isEqualTo("L2-L3");
    assertThat(dip.phases()).hasSize(3);
    assertThat(dip.phases().get("L1-L2")).isCloseTo(5.0, within(1e-9));
    assertThat(value(start, "voltage_before_V")).isCloseTo(400, within(1e-9));
    assertThat(value(start, "start_drop_pct")).isCloseTo(dip.value(), within(1e-12));
    // 376 V is above 90 % of 400 V.
    assertThat(value(start, "dip_duration_s")).isZero();
  }
}
