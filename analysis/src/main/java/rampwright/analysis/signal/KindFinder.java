package rampwright.analysis.signal;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/**
 * Tells samples of a waveform from RMS readings: at least 8 samples a cycle, and currents that
 * change sign.
 */
public final class KindFinder {
  /** Fewest samples a cycle that still show a waveform. */
  public static final double LEAST_SAMPLES_A_CYCLE = 8;

  private static final double ASSUMED_FREQUENCY_HZ = 50;
  // A meter's zero may wander below 0; an alternating current is as large below as above.
  private static final double LEAST_OPPOSITE_SHARE = 0.25;
  private static final int LEAST_SIGN_CHANGES = 4;
  private static final int MOST_ABSURD = 15;

  private KindFinder() {}

  /** What a trace holds, and why it is believed. */
  public record Kind(TraceKind kind, String reason) {}

  /**
   * Finds out what a trace holds.
   *
   * @param ratedFrequencyHz supply frequency, or null when it is not known (50 Hz is then assumed)
   */
  public static Kind find(Trace trace, @Nullable Double ratedFrequencyHz) {
    TraceKind declared = trace.declaredKind();
    if (declared != null) {
      return new Kind(declared, "as declared");
    }
    double frequencyHz = ratedFrequencyHz != null ? ratedFrequencyHz : ASSUMED_FREQUENCY_HZ;
    double rateHz = 1 / trace.time().typicalStepS();
    double perCycle = rateHz / frequencyHz;
    if (!(perCycle >= LEAST_SAMPLES_A_CYCLE)) {
      return new Kind(
          TraceKind.RMS,
          String.format(
              Locale.ROOT,
              "%.3g readings a cycle, fewer than %.0f: too few to show a waveform",
              perCycle,
              LEAST_SAMPLES_A_CYCLE));
    }
    for (ChannelName name : trace.present(ChannelName.CURRENTS)) {
      Samples samples = trace.channel(name);
      if (samples != null && alternates(samples, trace.size() / perCycle)) {
        return new Kind(
            TraceKind.WAVEFORM,
            String.format(
                Locale.ROOT, "%.3g samples a cycle and %s changes sign", perCycle, name.key()));
      }
    }
    return new Kind(
        TraceKind.RMS,
        String.format(
            Locale.ROOT,
            "%.3g samples a cycle, but no current changes sign: not an alternating current's waveform",
            perCycle));
  }

  private static boolean alternates(Samples samples, double cycles) {
    // A record of a cycle or two has fewer.
    int least = (int) Math.max(1, Math.min(LEAST_SIGN_CHANGES, 2 * cycles - 1));
    // Not the very largest: a few absurd values must not hide an alternating current.
    int beside = Math.min(MOST_ABSURD, samples.size() / 64);
    double highest = extreme(samples, 1, beside);
    double lowest = -extreme(samples, -1, beside);
    if (Math.min(highest, -lowest) < LEAST_OPPOSITE_SHARE * Math.max(highest, -lowest)
        || highest == lowest) {
      return false;
    }
    int changes = 0;
    int side = 0;
    for (int i = 0; i < samples.size() && changes < least; i++) {
      double value = samples.at(i);
      int now =
          value > LEAST_OPPOSITE_SHARE * highest / 2
              ? 1
              : value < LEAST_OPPOSITE_SHARE * lowest / 2 ? -1 : 0;
      if (now != 0 && now != side) {
        changes += side == 0 ? 0 : 1;
        side = now;
      }
    }
    return changes >= least;
  }

  /** Largest value times a sign, but for some that lie beyond; at least 0. */
  private static double extreme(Samples samples, double sign, int beside) {
    double[] top = new double[beside + 1];
    for (int i = 0; i < samples.size(); i++) {
      double value = sign * samples.at(i);
      if (value > top[0] && value < Double.POSITIVE_INFINITY) {
        int k = 0;
        while (k < beside && value > top[k + 1]) {
          top[k] = top[k + 1];
          k++;
        }
        top[k] = value;
      }
    }
    return top[0];
  }

  /** The channels cycles are synchronised on: voltages where there are some, else currents. */
  static List<ChannelName> synchronising(Trace trace) {
    List<ChannelName> lines = trace.present(ChannelName.LINE_VOLTAGES);
    if (!lines.isEmpty()) {
      return lines;
    }
    List<ChannelName> phases = trace.present(ChannelName.PHASE_VOLTAGES);
    return phases.isEmpty() ? trace.present(ChannelName.CURRENTS) : phases;
  }
}
