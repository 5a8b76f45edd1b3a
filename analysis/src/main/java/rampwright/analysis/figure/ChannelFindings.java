package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Quantity;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;

/** What is wrong with channels: clipped, with gaps, swapped. */
final class ChannelFindings {
  private static final int LEAST_AT_ENDS = 10;
  // No supply swings further above its usual voltage; every start's current does.
  private static final double STEADY_SUPPLY = 1.3;

  private static final int LEAST_EQUAL = 3;
  private static final int LEAST_PLACES = 3;
  // With noise of 1.5 steps six equal readings in a row come by chance once in a thousand.
  private static final double NOISY_STEPS = 1.5;
  private static final double ABRUPT_STEPS = 3;
  private static final double LIVE_AT_REST = 0.5;
  private static final double DEAD_AT_REST = 0.2;

  private ChannelFindings() {}

  /**
   * Three or more equal extremes at the range's end, reached abruptly, in three places: a crest
   * that is only flat by the channel's resolution is reached in small steps.
   */
  static List<Finding> clipped(Readings r) {
    List<Finding> found = new ArrayList<>();
    for (ChannelName name : r.trace.names()) {
      Samples samples = r.trace.channel(name);
      if (samples == null
          || name == ChannelName.RUN
          || name == ChannelName.SPEED
          || (!r.isWaveform() && name.quantity() != Quantity.CURRENT)) {
        continue;
      }
      Extremes extremes = Extremes.of(samples);
      Finding one = clippedAt(r, name, samples, extremes, true);
      if (one == null) {
        one = clippedAt(r, name, samples, extremes, false);
      }
      if (one != null) {
        found.add(one);
      }
    }
    return found;
  }

  private static @Nullable Finding clippedAt(
      Readings r, ChannelName name, Samples samples, Extremes extremes, boolean top) {
    double sign = top ? 1 : -1;
    int n = samples.size();
    double extreme = sign * (top ? extremes.most : extremes.least);
    int least = r.isWaveform() ? LEAST_EQUAL : 2 * LEAST_EQUAL;
    if (!(extreme > 0) || (top ? extremes.atMost : extremes.atLeast) < least) {
      return null;
    }
    int places = 0;
    int longest = 0;
    int firstAt = -1;
    int lastAt = -1;
    double step = smallestStep(samples);
    for (int i = 0; i < n; i++) {
      if (sign * samples.at(i) != extreme) {
        continue;
      }
      int end = i;
      while (end + 1 < n && sign * samples.at(end + 1) == extreme) {
        end++;
      }
      boolean abrupt =
          i > 0
              && extreme - sign * samples.at(i - 1) > ABRUPT_STEPS * step
              && (!r.isWaveform() || extreme - sign * samples.at(i - 1) > 0.002 * extreme);
      int length = end - i + 1;
      if (length >= least && abrupt) {
        places++;
        longest = Math.max(longest, length);
        firstAt = firstAt < 0 ? i : firstAt;
        lastAt = end;
      }
      i = end;
    }
    if (places < (r.isWaveform() ? LEAST_PLACES : 1)) {
      return null;
    }
    // A limited start reads level too; only a channel that is noisy elsewhere is cut by its range.
    if (!r.isWaveform() && !(noiseBelow(r, samples, 0.8 * extreme) > NOISY_STEPS * step)) {
      return null;
    }
    return new Finding(
        "clipped-channel",
        r.trace.time().atS(firstAt),
        r.trace.time().atS(lastAt),
        sign * extreme,
        Findings.text(
            "%s stands at %.5g %s, the end of its range, in %d places for up to %d samples: what lies"
                + " beyond was not recorded; RMS and peak are too small",
            name.key(), sign * extreme, name.quantity().unit(), places, longest));
  }

  private static double noiseBelow(Readings r, Samples samples, double most) {
    double[] values = samples.toArray();
    for (int i = 0; i < values.length; i++) {
      if (!(values[i] > r.thresholdA && values[i] < most)) {
        values[i] = Double.NaN;
      }
    }
    return Noise.sigma(values, 0, values.length);
  }

  private static double smallestStep(Samples samples) {
    int n = Math.min(samples.size(), 20_000);
    double[] head = new double[n];
    samples.copy(Math.max(0, (samples.size() - n) / 2), head, 0, n);
    return Noise.resolution(head, 0, n);
  }

  /** A voltage that comes and goes with the current, or a current that flows at rest. */
  static List<Finding> swapped(Readings r, List<Segment> segments) {
    List<Finding> found = new ArrayList<>();
    if (!segments.isEmpty() && segments.get(0).flow().openStart()) {
      return swappedThroughout(r, segments.get(0).flow());
    }
    if (segments.isEmpty()) {
      return found;
    }
    Flow flow = segments.get(0).flow();
    int before = r.firstAtOrAfter(flow.fromS() - 1);
    int begin = Math.max(0, r.firstAtOrAfter(flow.fromS()) - 1);
    if (begin - before < 3) {
      return found;
    }
    int live = 0;
    List<Integer> dead = new ArrayList<>();
    for (int l = 0; l < r.lines.size(); l++) {
      double[] v = r.valuesOf(r.lines.get(l));
      double rest = Noise.median(v, before, begin);
      double flowing = Noise.median(v, flow.first(), flow.last() + 1);
      if (rest > LIVE_AT_REST * flowing) {
        live++;
      } else if (rest < DEAD_AT_REST * flowing) {
        dead.add(l);
      }
    }
    if (live > 0 && !dead.isEmpty()) {
      ChannelName name = r.lines.get(dead.get(0));
      found.add(
          new Finding(
              "swapped-channels",
              flow.fromS(),
              flow.toS(),
              null,
              Findings.text(
                  "%s is dead at rest and live with the current while another voltage is live: is it a"
                      + " current, or measured behind the starter?",
                  name.key())));
    }
    for (int p = 0; p < r.phases.size(); p++) {
      double rest = Noise.median(r.current[p], before, begin);
      double flowing = Noise.median(r.current[p], flow.first(), flow.last() + 1);
      if (r.phases.size() > 1 && rest > r.thresholdA && rest > LIVE_AT_REST * flowing) {
        found.add(
            new Finding(
                "swapped-channels",
                r.t[before],
                flow.fromS(),
                rest,
                Findings.text(
                    "%s reads %.4g A at rest, as much as with the others flowing: is it a voltage?",
                    r.phases.get(p).key(), rest)));
      }
    }
    Finding sequence = SequenceFinding.of(r, segments.get(0));
    if (sequence != null) {
      found.add(sequence);
    }
    return found;
  }

  /** Currents that flow alike from the beginning to the end while the voltages come and go. */
  private static List<Finding> swappedThroughout(Readings r, Flow flow) {
    boolean comesAndGoes = !r.lines.isEmpty() && flow.openEnd();
    for (int l = 0; l < r.lines.size() && comesAndGoes; l++) {
      double[] v = r.valuesOf(r.lines.get(l));
      double largest = Noise.largest(v, 0, v.length);
      double least = Noise.median(v, 0, Math.min(v.length, LEAST_AT_ENDS));
      comesAndGoes = least < DEAD_AT_REST * largest;
    }
    for (int p = 0; p < r.phases.size() && comesAndGoes; p++) {
      double[] i = r.current[p];
      double usual = Noise.median(i, 0, i.length);
      comesAndGoes = Noise.largest(i, 0, i.length) < STEADY_SUPPLY * usual;
    }
    return comesAndGoes
        ? List.of(
            new Finding(
                "swapped-channels",
                flow.fromS(),
                flow.toS(),
                null,
                "the currents flow alike from the beginning of the record to its end while the"
                    + " voltages come and go: are they named the wrong way round?"))
        : List.of();
  }

  /** A channel's largest and smallest value, and how many samples equal each. */
  private record Extremes(double most, int atMost, double least, int atLeast) {
    private static final int BLOCK = 4096;

    static Extremes of(Samples samples) {
      double most = Double.NEGATIVE_INFINITY;
      double least = Double.POSITIVE_INFINITY;
      int atMost = 0;
      int atLeast = 0;
      double[] block = new double[Math.min(BLOCK, samples.size())];
      for (int from = 0; from < samples.size(); from += BLOCK) {
        int count = Math.min(BLOCK, samples.size() - from);
        samples.copy(from, block, 0, count);
        for (int i = 0; i < count; i++) {
          double value = block[i];
          if (value >= most) {
            atMost = value > most ? 1 : atMost + 1;
            most = value;
          }
          if (value <= least) {
            atLeast = value < least ? 1 : atLeast + 1;
            least = value;
          }
        }
      }
      return new Extremes(most, atMost, least, atLeast);
    }
  }
}
