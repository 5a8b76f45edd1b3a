package rampwright.analysis.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Heating and cooling against the standard's equation and worked exercises. */
class ThermalEquationReferenceTest {
  /** Six digits are given: half the last, relative. */
  private static final double SIX_DIGITS = 5e-6;

  /** Exercises print two decimals of a degree. */
  private static final double PRINTED_K = 0.01;

  /**
   * IEC 60255-149, thermal equation (from memory): times recomputed independently with NumPy.
   *
   * <p>Columns: current, current before, k, time constant s, trip time s.
   */
  @ParameterizedTest
  @CsvSource({
    "2, 0, 1.05, 600, 193.468",
    "6, 0, 1.05, 600, 18.6622",
    "6, 0.9, 1.05, 600, 5.00805",
    "7.2, 0, 1.05, 600, 12.8981",
    "1.2, 0, 1.05, 600, 870.500",
    "7.2, 0, 1.125, 283, 6.99492",
    "1.5, 0, 1.125, 283, 233.950",
    "1.2, 0, 1.125, 283, 597.467"
  })
  void tripTimes(double current, double before, double k, double tauS, double expectedS) {
    double tripS = ThermalEquation.tripTimeS(current, before, k, tauS);
    assertThat(tripS).isCloseTo(expectedS, within(SIX_DIGITS * expectedS));
    // The level moved along for that time from where it was is at the limit.
    double target = current * current / (k * k);
    double from = before * before / (k * k);
    assertThat(ThermalEquation.level(from, target, tripS, tauS)).isCloseTo(1, within(1e-12));
  }

  /** The same source: time constants of 10, 20 and 30 s at 7.2 times, k 1.05. */
  @ParameterizedTest
  @CsvSource({"10, 465.186", "20, 930.372", "30, 1395.56"})
  void timeConstants(double tripS, double expectedS) {
    assertThat(ThermalEquation.timeConstantS(7.2, 1.05, tripS))
        .isCloseTo(expectedS, within(SIX_DIGITS * expectedS));
  }

  @Test
  void aCurrentThatIsCarriedNeverTripsAndAFullBodyAtOnce() {
    assertThat(ThermalEquation.tripTimeS(1.05, 0, 1.05, 600)).isInfinite();
    assertThat(ThermalEquation.tripTimeS(6, 1.1, 1.05, 600)).isZero();
  }

  /** At high currents the time goes to tau (k^2 - Ip^2) / I^2, the i2t law. */
  @Test
  void highCurrentsFollowTheIntegralOfTheSquare() {
    double tripS = ThermalEquation.tripTimeS(100, 0.5, 1.05, 600);
    double lawS = 600 * (1.05 * 1.05 - 0.25) / 1e4;
    assertThat(tripS).isCloseTo(lawS, within(1e-4 * lawS));
  }

  /** Dubey, Fundamentals of Electrical Drives, Ex 4.1: 49.89 and 104.42 degrees. */
  @Test
  void dubey41() {
    double noLoad = 15;
    double least = 40;
    double most = noLoad + (least - noLoad) / Math.exp(-20.0 / 60);
    assertThat(ThermalEquation.level(most, noLoad, 20, 60)).isCloseTo(least, within(1e-9));
    assertThat(most).isCloseTo(49.89, within(PRINTED_K));
    double target = 104.42;
    assertThat(ThermalEquation.level(least, target, 10, 60)).isCloseTo(most, within(PRINTED_K));
  }

  /** Dubey Ex 4.4: 20 kW for ever is 51.0 kW for 10 min once, 25.14 kW for 10 of 20 min. */
  @Test
  void dubey44() {
    double once = 1 / ThermalEquation.level(0, 1, 10, 60);
    assertThat(20 * Math.sqrt(once)).isCloseTo(51.0, within(0.05));
    double level = settled(1, 10, 60, 10, 90);
    assertThat(20 * Math.sqrt(1 / level)).isCloseTo(25.14, within(0.005));
  }

  /** Gupta and Singhal, Fundamentals of Electric Drives and Control, Ex 4.1: 60 C, 57.708 min. */
  @Test
  void guptaSinghal41() {
    double tau = 40 / Math.log(2);
    assertThat(tau).isCloseTo(57.708, within(5e-4));
    assertThat(ThermalEquation.level(0, 60, 40, tau)).isCloseTo(30, within(1e-9));
    assertThat(ThermalEquation.level(0, 60, 80, tau)).isCloseTo(45, within(1e-9));
  }

  /** The same work, Ex 4.4: heating 110, cooling 150 min, 30 on, 45 off, 50 C: 27.37 C. */
  @Test
  void guptaSinghal44() {
    assertThat(settled(50, 30, 110, 45, 150)).isCloseTo(27.37, within(PRINTED_K));
  }

  /** Level at the end of the load time when load and rest were repeated for ever. */
  private static double settled(double target, double on, double tauOn, double off, double tauOff) {
    double level = 0;
    for (int k = 0; k < 500; k++) {
      level = ThermalEquation.level(level, target, on, tauOn);
      if (k < 499) {
        level = ThermalEquation.level(level, 0, off, tauOff);
      }
    }
    return level;
  }

  /** Repeated starts, closed form: d 0.30, 600 s rest, tau 1200 s. */
  @Test
  void repeatedStarts() {
    double before = ThermalEquation.repeatedLevel(0.30, 600, 1200);
    assertThat(before).isCloseTo(0.462448, within(5e-7));
    assertThat(before + 0.30).isCloseTo(0.762448, within(5e-7));
    double level = 0;
    for (int n = 0; n < 200; n++) {
      level = ThermalEquation.level(level + 0.30, 0, 600, 1200);
    }
    assertThat(level).isCloseTo(before, within(1e-12));
  }

  /** With the least rest the level after each start is just the limit. */
  @Test
  void leastRestKeepsTheLimit() {
    double restS = ThermalEquation.repeatedRestS(0.3, 1200);
    assertThat(ThermalEquation.repeatedLevel(0.3, restS, 1200) + 0.3).isCloseTo(1, within(1e-12));
    assertThat(ThermalEquation.repeatedRestS(1, 1200)).isInfinite();
  }

  @Test
  void coolingIsTheInverseOfTheLevel() {
    double timeS = ThermalEquation.coolingTimeS(0.8, 0.3, 900);
    assertThat(ThermalEquation.level(0.8, 0, timeS, 900)).isCloseTo(0.3, within(1e-12));
    assertThat(ThermalEquation.coolingTimeS(0.2, 0.3, 900)).isZero();
    assertThat(ThermalEquation.coolingTimeS(0.2, 0, 900)).isInfinite();
  }
}
