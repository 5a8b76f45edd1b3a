package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/**
 * Whatever the channels hold, an analysis answers: it does not throw, claims no certainty and gives
 * no window that is none.
 */
class AnyInputTest {
  private static final int TRACES_EACH = 40;
  private static final double[] ODD = {
    Double.POSITIVE_INFINITY,
    Double.NEGATIVE_INFINITY,
    1e308,
    -1e308,
    65535,
    -32768,
    Double.MIN_VALUE
  };

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void anAnalysisAnswers(long seed) {
    for (int k = 0; k < TRACES_EACH; k++) {
      long one = 1000 * seed + k;
      Random random = new Random(one);
      MotorContext motor = random.nextInt(3) == 0 ? MotorContext.UNKNOWN : MadeTrace.motor();
      Trace trace = trace(random);
      assertThatCode(() -> sound(TraceAnalyzer.analyze(trace, motor, AnalysisOptions.DEFAULT)))
          .as("seed " + one)
          .doesNotThrowAnyException();
    }
  }

  private static void sound(AnalyzedTrace analyzed) {
    for (StartRecord start : analyzed.figures().starts()) {
      sound(start.instants());
      sound(start.figures());
      StopRecord stop = start.stop();
      if (stop != null) {
        sound(stop.instants());
        sound(stop.figures());
      }
    }
    for (Finding finding : analyzed.figures().findings()) {
      assertThat(finding.fromS()).as(finding.text()).isFinite();
      assertThat(finding.toS()).as(finding.text()).isGreaterThanOrEqualTo(finding.fromS());
    }
  }

  private static void sound(Map<String, Measured> figures) {
    figures.forEach(
        (key, figure) -> {
          if (figure.value() == null) {
            assertThat(figure.why()).as(key).isNotBlank();
          } else {
            assertThat(figure.value()).as(key).isFinite();
            assertThat(figure.rule()).as(key).isNotBlank();
            assertThat(figure.toS()).as(key).isGreaterThanOrEqualTo(figure.fromS());
            assertThat(figure.uncertainty())
                .as(key)
                .satisfiesAnyOf(
                    u -> assertThat(u).isNull(), u -> assertThat(u).isPositive().isFinite());
          }
        });
  }

  private static Trace trace(Random random) {
    int n = new int[] {2, 3, 5, 9, 40, 200, 1500}[random.nextInt(7)];
    n += random.nextInt(n);
    double rateHz = new double[] {0.2, 1, 5, 20, 50, 200, 1000, 5000, 20000}[random.nextInt(9)];
    TimeBase time = random.nextInt(3) > 0 ? even(random, rateHz, n) : uneven(random, rateHz, n);
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    channels.put(ChannelName.CURRENTS.get(random.nextInt(3)), channel(random, time));
    for (ChannelName name : ChannelName.values()) {
      if (random.nextBoolean()) {
        channels.put(name, channel(random, time));
      }
    }
    TraceKind declared =
        switch (random.nextInt(12)) {
          case 0 -> TraceKind.RMS;
          case 1 -> TraceKind.WAVEFORM;
          default -> null;
        };
    return new Trace(time, channels, declared, Provenance.computed("made"));
  }

  private static TimeBase even(Random random, double rateHz, int n) {
    return TimeBase.even(random.nextInt(3) == 0 ? 1e5 * random.nextGaussian() : 0, 1 / rateHz, n);
  }

  private static TimeBase uneven(Random random, double rateHz, int n) {
    double[] t = new double[n];
    double atS = random.nextInt(2) * 10 * random.nextGaussian();
    for (int i = 0; i < n; i++) {
      t[i] = atS;
      double steps =
          switch (random.nextInt(40)) {
            case 0 -> 0.1 + 30 * random.nextDouble();
            case 1, 2, 3, 4, 5, 6, 7, 8, 9 -> 1e-6 + random.nextDouble();
            default -> 1;
          };
      atS += steps / rateHz;
    }
    return TimeBase.listed(Samples.owning(t));
  }

  private static Samples channel(Random random, TimeBase time) {
    int n = time.size();
    double[] v = new double[n];
    double scale = Math.pow(10, random.nextInt(7) - 2);
    double spanS = time.atS(n - 1) - time.atS(0);
    double onS = time.atS(0) + 0.6 * spanS * random.nextDouble();
    double offS = onS + spanS * random.nextDouble();
    double fullS = onS + (offS - onS) * random.nextDouble();
    double hz = new double[] {50, 60, 49.3, 20, 400}[random.nextInt(5)];
    double phase = 6 * random.nextDouble();
    int kind = random.nextInt(9);
    for (int i = 0; i < n; i++) {
      double t = time.atS(i);
      double current = t < onS || t > offS ? 0 : t < fullS ? 350 : 80;
      double sine = Math.sin(2 * Math.PI * hz * t + phase);
      v[i] =
          switch (kind) {
            case 0 -> current;
            case 1 -> current * sine;
            case 2 -> 1480 * Math.max(0, Math.min(1, (t - onS) / (fullS - onS + 1e-9)));
            case 3 -> 400 * sine;
            case 4 -> scale * random.nextGaussian();
            case 5 -> scale;
            case 6 -> random.nextInt(2);
            case 7 -> Double.NaN;
            default -> 400;
          };
    }
    spoil(random, v, scale);
    return Samples.owning(v);
  }

  private static void spoil(Random random, double[] v, double scale) {
    int n = v.length;
    if (random.nextInt(3) == 0) {
      Arrays.setAll(v, i -> v[i] + 0.01 * scale * random.nextGaussian());
    }
    if (random.nextInt(3) == 0) {
      for (int k = 0; k < 1 + n / 50; k++) {
        v[random.nextInt(n)] = Double.NaN;
      }
    }
    if (random.nextInt(4) == 0) {
      for (int k = 0; k < 1 + n / 200; k++) {
        v[random.nextInt(n)] = ODD[random.nextInt(ODD.length)];
      }
    }
    if (random.nextInt(5) == 0) {
      int from = random.nextInt(n);
      Arrays.fill(v, from, from + random.nextInt(n - from), Double.NaN);
    }
    if (random.nextInt(8) == 0) {
      Arrays.setAll(v, i -> -v[i]);
    }
  }
}
