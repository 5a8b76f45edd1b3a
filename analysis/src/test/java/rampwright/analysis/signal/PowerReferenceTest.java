package rampwright.analysis.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;

/** Power quantities against the illustration of IEEE Std 1459 and against identities. */
class PowerReferenceTest {
  /** Relative; sums of a few hundred products, each good to 1.1e-16. */
  private static final double ROUNDING = 1e-12;

  private static final int PER_CYCLE = 200;

  @Test
  void singlePhaseIllustration() {
    // IEEE Std 1459-2010, single-phase nonsinusoidal illustration: inputs and results from memory,
    // results recomputed from the inputs. Columns: order, V, angle, I, angle (degrees).
    double[][] parts = {
      {1, 100, 0, 100, -30}, {3, 8, -70, 20, -165}, {5, 15, 140, 15, 233}, {7, 5, 20, 10, 288}
    };
    Samples v = harmonics(parts, 1, 2);
    Samples i = harmonics(parts, 3, 4);
    SinglePhasePower power =
        SinglePhasePower.over(v, i, new OneCycleDft(new SampleWindow(200, 400), v.size(), 1));
    near(power.voltageRmsV(), "101.5579");
    near(power.currentRmsA(), "103.5616");
    near(power.apparentPowerVA(), "10517.49");
    near(power.activePowerW(), "8632.789");
    near(power.fundamentalApparentPowerVA(), "10000");
    near(power.fundamentalActivePowerW(), "8660.254");
    near(power.fundamentalReactivePowerVar(), "5000");
    near(power.distortionVoltageRmsV(), "17.72005");
    near(power.distortionCurrentRmsA(), "26.92582");
    near(power.voltageDistortion(), "0.177200");
    near(power.currentDistortion(), "0.269258");
    near(power.currentDistortionPowerVar(), "2692.582");
    near(power.voltageDistortionPowerVar(), "1772.005");
    near(power.harmonicApparentPowerVA(), "477.127");
    near(power.harmonicActivePowerW(), "-27.4655");
    near(power.harmonicDistortionPowerVar(), "476.336");
    near(power.nonfundamentalApparentPowerVA(), "3258.474");
    near(power.nonactivePowerVar(), "6007.713");
    near(power.powerFactor(), "0.820803");
    near(power.fundamentalPowerFactor(), "0.866025");
  }

  @ParameterizedTest
  @ValueSource(doubles = {200, 166.6666, 84.1667, 20.3})
  void singlePhaseIdentities(double length) {
    Random random = new Random(20260314);
    Samples v = Samples.of(random.doubles(500, -1, 1).toArray());
    Samples i = Samples.of(random.doubles(500, -1, 1).toArray());
    SinglePhasePower p =
        SinglePhasePower.over(
            v, i, new OneCycleDft(new SampleWindow(10.37, 10.37 + length), 500, 1));
    double s2 = square(p.apparentPowerVA());
    relative(
        square(p.fundamentalApparentPowerVA()) + square(p.nonfundamentalApparentPowerVA()), s2);
    relative(square(p.activePowerW()) + square(p.nonactivePowerVar()), s2);
    relative(
        square(p.fundamentalActivePowerW()) + square(p.fundamentalReactivePowerVar()),
        square(p.fundamentalApparentPowerVA()));
  }

  @Test
  void loadBetweenTwoLines() {
    // Derived: 400 V, 4 ohm between L1 and L2 only. I = 100 A, P = 40 kW, V_e = 400/sqrt(3),
    // I_e = sqrt(2/3) 100 A, PF_e = 1/sqrt(2), I+ = I- = 100/sqrt(3).
    Map<ChannelName, Samples> channels = lines(400, 0);
    Samples v12 = channels.get(ChannelName.V12);
    double[] i1 = new double[v12.size()];
    double[] i2 = new double[v12.size()];
    for (int k = 0; k < i1.length; k++) {
      i1[k] = v12.at(k) / 4;
      i2[k] = -i1[k];
    }
    channels.put(ChannelName.I1, Samples.of(i1));
    channels.put(ChannelName.I2, Samples.of(i2));
    channels.put(ChannelName.I3, Samples.of(new double[i1.length]));
    ThreeWirePower p = over(channels, new SampleWindow(200, 400));
    relative(p.effectiveVoltageV(), 400 / Math.sqrt(3));
    relative(p.effectiveCurrentA(), 100 * Math.sqrt(2.0 / 3));
    relative(p.activePowerW(), 40000);
    relative(p.apparentPowerVA(), 40000 * Math.sqrt(2));
    relative(p.powerFactor(), Math.sqrt(0.5));
    relative(p.current().positive().norm(), 100 / Math.sqrt(3));
    relative(p.current().negative().norm(), 100 / Math.sqrt(3));
    // S1+ = 3 (400/sqrt 3)(100/sqrt 3) = 40 kVA, so that S_U1 = 40 kVA too.
    relative(p.positiveApparentPowerVA(), 40000);
    relative(p.unbalancePowerVA(), 40000);
    // With V12 at 0 degrees both V+ and I+ = 100 (1 - a)/3 stand at -30: all of S1+ is active.
    relative(p.positiveActivePowerW(), 40000);
    assertThat(p.positiveReactivePowerVar()).isCloseTo(0, within(1e-7));
  }

  @Test
  void balancedLaggingLoad() {
    // Closed form: P = sqrt(3) V I cos phi, Q = sqrt(3) V I sin phi; 400 V, 100 A, 30 degrees.
    Map<ChannelName, Samples> channels = lines(400, 0);
    currents(channels, 100, -30 - 30);
    ThreeWirePower p = over(channels, new SampleWindow(200, 400));
    relative(p.activePowerW(), Math.sqrt(3) * 400 * 100 * Math.cos(Math.PI / 6));
    relative(p.positiveReactivePowerVar(), Math.sqrt(3) * 400 * 100 * 0.5);
    relative(p.apparentPowerVA(), Math.sqrt(3) * 400 * 100);
    relative(p.positiveApparentPowerVA(), p.fundamentalApparentPowerVA());
  }

  @Test
  void threeWireIdentitiesAndTwoWattmeters() {
    Map<ChannelName, Samples> channels = noise();
    OneCycleDft window = new OneCycleDft(new SampleWindow(10.37, 177.03), 500, 1);
    ThreeWirePower p = ThreeWirePower.over(ThreeWire.of(channels).orElseThrow(), window);
    double s2 = square(p.apparentPowerVA());
    relative(square(p.activePowerW()) + square(p.nonactivePowerVar()), s2);
    relative(
        square(p.fundamentalApparentPowerVA()) + square(p.nonfundamentalApparentPowerVA()), s2);
    relative(
        square(p.positiveApparentPowerVA()) + square(p.unbalancePowerVA()),
        square(p.fundamentalApparentPowerVA()));
    double two =
        -window.meanOfProduct(channels.get(ChannelName.V31), channels.get(ChannelName.I1))
            + window.meanOfProduct(channels.get(ChannelName.V23), channels.get(ChannelName.I2));
    assertThat(p.activePowerW()).isCloseTo(two, within(ROUNDING));
  }

  @Test
  void twoChannelsOfThreeSayTheSame() {
    Map<ChannelName, Samples> all = noise();
    ThreeWirePower expected = over(all, new SampleWindow(10.37, 177.03));
    for (ChannelName voltage : ChannelName.LINE_VOLTAGES) {
      for (ChannelName current : ChannelName.CURRENTS) {
        Map<ChannelName, Samples> some = new EnumMap<>(all);
        some.remove(voltage);
        some.remove(current);
        ThreeWirePower p = over(some, new SampleWindow(10.37, 177.03));
        relative(p.activePowerW(), expected.activePowerW());
        relative(p.apparentPowerVA(), expected.apparentPowerVA());
        relative(p.positiveReactivePowerVar(), expected.positiveReactivePowerVar());
      }
    }
  }

  @Test
  void phaseVoltagesSayTheSameAsLineVoltages() {
    Map<ChannelName, Samples> phases = new EnumMap<>(ChannelName.class);
    double[][] v =
        new Random(5)
            .doubles(3 * 500, -1, 1)
            .collect(
                () -> new double[4][500],
                (a, x) -> {
                  int n = (int) a[3][0]++;
                  a[n % 3][n / 3] = x;
                },
                (a, b) -> {});
    Map<ChannelName, Samples> lines = new EnumMap<>(ChannelName.class);
    for (int p = 0; p < 3; p++) {
      double[] line = new double[500];
      for (int k = 0; k < 500; k++) {
        line[k] = v[p][k] - v[(p + 1) % 3][k];
      }
      phases.put(ChannelName.PHASE_VOLTAGES.get(p), Samples.of(v[p]));
      lines.put(ChannelName.LINE_VOLTAGES.get(p), Samples.of(line));
    }
    for (ChannelName name : ChannelName.CURRENTS) {
      Samples i = noise().get(name);
      phases.put(name, i);
      lines.put(name, i);
    }
    assertThat(over(phases, new SampleWindow(3, 203)))
        .isEqualTo(over(lines, new SampleWindow(3, 203)));
  }

  @Test
  void swappedPhasesSwapSequences() {
    Map<ChannelName, Samples> channels = noise();
    Map<ChannelName, Samples> swapped = new EnumMap<>(ChannelName.class);
    swapped.put(ChannelName.I1, channels.get(ChannelName.I2));
    swapped.put(ChannelName.I2, channels.get(ChannelName.I1));
    swapped.put(ChannelName.I3, channels.get(ChannelName.I3));
    swapped.put(ChannelName.V12, negative(channels.get(ChannelName.V12)));
    swapped.put(ChannelName.V23, negative(channels.get(ChannelName.V31)));
    swapped.put(ChannelName.V31, negative(channels.get(ChannelName.V23)));
    ThreeWirePower one = over(channels, new SampleWindow(3, 203));
    ThreeWirePower two = over(swapped, new SampleWindow(3, 203));
    relative(two.current().negative().norm(), one.current().positive().norm());
    relative(two.voltage().negative().norm(), one.voltage().positive().norm());
    relative(two.activePowerW(), one.activePowerW());
    relative(two.apparentPowerVA(), one.apparentPowerVA());
  }

  @Test
  void missingChannelsAreNamed() {
    Map<ChannelName, Samples> channels = lines(400, 0);
    assertThat(ThreeWire.of(channels)).isEmpty();
    assertThat(ThreeWire.missing(channels)).contains("two phase currents");
    currents(channels, 1, 0);
    channels.remove(ChannelName.V12);
    assertThat(ThreeWire.missing(channels)).isEmpty();
    channels.remove(ChannelName.V23);
    assertThat(ThreeWire.missing(channels)).contains("two line-to-line voltages");
  }

  private static Map<ChannelName, Samples> noise() {
    Random random = new Random(20260314);
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    double[][] x = new double[6][500];
    for (int k = 0; k < 500; k++) {
      for (int g = 0; g < 6; g += 3) {
        x[g][k] = random.nextDouble() - 0.4;
        x[g + 1][k] = random.nextDouble() - 0.5;
        x[g + 2][k] = -x[g][k] - x[g + 1][k];
      }
    }
    for (int p = 0; p < 3; p++) {
      channels.put(ChannelName.CURRENTS.get(p), Samples.of(x[p]));
      channels.put(ChannelName.LINE_VOLTAGES.get(p), Samples.of(x[3 + p]));
    }
    return channels;
  }

  private static Map<ChannelName, Samples> lines(double rms, double deg) {
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    for (int p = 0; p < 3; p++) {
      channels.put(ChannelName.LINE_VOLTAGES.get(p), sine(rms, deg - 120 * p));
    }
    return channels;
  }

  private static void currents(Map<ChannelName, Samples> channels, double rms, double deg) {
    for (int p = 0; p < 3; p++) {
      channels.put(ChannelName.CURRENTS.get(p), sine(rms, deg - 120 * p));
    }
  }

  private static Samples sine(double rms, double deg) {
    return harmonics(new double[][] {{1, rms, deg}}, 1, 2);
  }

  private static Samples harmonics(double[][] parts, int rms, int deg) {
    double[] x = new double[3 * PER_CYCLE];
    for (double[] part : parts) {
      for (int k = 0; k < x.length; k++) {
        double angle = 2 * Math.PI * part[0] * k / PER_CYCLE + Math.toRadians(part[deg]);
        x[k] += Math.sqrt(2) * part[rms] * Math.sin(angle);
      }
    }
    return Samples.of(x);
  }

  private static Samples negative(Samples samples) {
    double[] x = samples.toArray();
    for (int k = 0; k < x.length; k++) {
      x[k] = -x[k];
    }
    return Samples.of(x);
  }

  private static ThreeWirePower over(Map<ChannelName, Samples> channels, SampleWindow window) {
    ThreeWire circuit = ThreeWire.of(channels).orElseThrow();
    return ThreeWirePower.over(circuit, new OneCycleDft(window, circuit.size(), 1));
  }

  private static double square(double x) {
    return x * x;
  }

  private static void near(double value, String printed) {
    BigDecimal expected = new BigDecimal(printed);
    double halfLastDigit = 0.5 * Math.pow(10, -expected.scale());
    // A number printed without decimals is exact; so are sums of the inputs.
    double tolerance = expected.scale() == 0 ? ROUNDING * expected.doubleValue() : halfLastDigit;
    assertThat(value).isCloseTo(expected.doubleValue(), within(tolerance));
  }

  private static void relative(double value, double expected) {
    assertThat(value).isCloseTo(expected, within(ROUNDING * Math.abs(expected)));
  }
}
