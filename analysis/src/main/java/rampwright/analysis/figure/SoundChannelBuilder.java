package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;

/** One channel on its way from what the file says to what can have been; copied when touched. */
final class SoundChannelBuilder {
  private static final int LONE = 2;
  private static final int CODES = 3;
  private static final double TURNED = 2;
  private static final double NEGATIVE_SHARE = 0.02;
  private static final double OFTEN_NEGATIVE = 0.2;
  private static final double ASSUMED_HZ = 50;
  private static final double CREST_TIMES = 2.5;
  private static final double CODE_TIMES = 3;
  private static final double FEW_SHARE = 0.01;
  private static final double STANDS_OUT = 0.5;
  private static final double LEAST_FOR_SHAPE = 32;
  private static final double OFFSET_SHARE_OF_RATED = 0.01;
  private static final double OFFSET_SHARE_OF_TOP = 0.005;

  private final Trace trace;
  private final ChannelName name;
  private Samples samples;
  private double @Nullable [] values;
  private int dropped;
  private int firstDropped = -1;
  private int lastDropped = -1;
  private double firstValue;
  private final List<Finding> turned = new ArrayList<>();

  SoundChannelBuilder(Trace trace, ChannelName name, Samples samples) {
    this.trace = trace;
    this.name = name;
    this.samples = samples;
  }

  ChannelName name() {
    return name;
  }

  double rateHz() {
    return 1 / trace.time().typicalStepS();
  }

  Samples samples() {
    return samples;
  }

  List<Finding> turned() {
    return turned;
  }

  /** What was taken as missing; null when nothing was. */
  @Nullable Finding finding() {
    if (dropped == 0) {
      return null;
    }
    return new Finding(
        "bad-values",
        trace.time().atS(firstDropped),
        trace.time().atS(lastDropped),
        (double) dropped,
        Findings.text(
            "%s: %d %s taken as missing, first %.6g %s at %.3f s: not a number, a code for \"no"
                + " reading\", or not possible here",
            name.key(),
            dropped,
            dropped == 1 ? "value" : "values",
            firstValue,
            name.quantity().unit(),
            trace.time().atS(firstDropped)));
  }

  private double[] writable() {
    double[] copy = values;
    if (copy == null) {
      copy = samples.toArray();
      values = copy;
      samples = Samples.owning(copy);
    }
    return copy;
  }

  private void drop(int i) {
    double[] copy = writable();
    if (firstDropped < 0 || i < firstDropped) {
      firstDropped = i;
      firstValue = copy[i];
    }
    lastDropped = Math.max(lastDropped, i);
    dropped++;
    copy[i] = Double.NaN;
  }

  void dropInfinite() {
    for (int i = 0; i < samples.size(); i++) {
      // Above this a square is no number any more.
      if (Math.abs(samples.at(i)) > 1e100) {
        drop(i);
      }
    }
  }

  /** A channel that is mostly negative is turned round, and said to be. */
  void turnIfNegative(String why) {
    double[] all = samples.toArray();
    double up = sustained(all, 1);
    double down = sustained(all, -1);
    if (!(down > 0) || down < TURNED * up) {
      return;
    }
    double[] copy = writable();
    for (int i = 0; i < copy.length; i++) {
      copy[i] = -copy[i];
    }
    turned.add(
        new Finding(
            "reversed-channel",
            trace.time().atS(0),
            trace.time().atS(trace.size() - 1),
            -down,
            Findings.text(
                "%s is negative (down to %.5g %s): %s; taken as its magnitude",
                name.key(), -down, name.quantity().unit(), why)));
  }

  /** Negative RMS values beyond a wandering zero. */
  void dropNegative(@Nullable Double nominal) {
    double top = nominal != null ? nominal : sustained(samples.toArray(), 1);
    int below = 0;
    for (int i = 0; i < samples.size(); i++) {
      below += samples.at(i) < -NEGATIVE_SHARE * top ? 1 : 0;
    }
    if (below > OFTEN_NEGATIVE * samples.size()) {
      takeMagnitudes(below);
      return;
    }
    for (int i = 0; i < samples.size(); i++) {
      if (samples.at(i) < -NEGATIVE_SHARE * top) {
        drop(i);
      }
    }
  }

  private void takeMagnitudes(int below) {
    double[] copy = writable();
    for (int i = 0; i < copy.length; i++) {
      copy[i] = Math.abs(copy[i]);
    }
    turned.add(
        new Finding(
            "bad-values",
            trace.time().atS(0),
            trace.time().atS(trace.size() - 1),
            (double) below,
            Findings.text(
                "%s: %d of %d values are negative, as no RMS can be: noise about zero, or an"
                    + " alternating current read too seldom to show its wave; taken as magnitudes",
                name.key(), below, copy.length)));
  }

  /** Codes for "no reading". */
  void dropCodes(Plausible most) {
    for (int round = 0; round < CODES; round++) {
      dropCode(most.limit(), most.overOthers());
    }
  }

  /** Lone values beyond what is plausible. */
  void dropLone(Plausible most) {
    double sustained = sustained(samples.toArray(), 1);
    double limit = Math.max(most.limit(), most.overSustained() * sustained);
    int i = 0;
    while (i < samples.size()) {
      int end = i;
      while (end < samples.size() && Math.abs(samples.at(end)) > limit) {
        end++;
      }
      if (end > i && end - i <= LONE && sustained > 0) {
        for (int k = i; k < end; k++) {
          drop(k);
        }
      }
      i = end + 1;
    }
  }

  /**
   * Speeds that stand alone, which no shaft does. Of dense samples a few lone ones are a pickup's
   * noise: left out of the mean that is taken of them anyway, and no finding.
   *
   * @param dense whether speeds are means of many samples
   */
  void dropJumps(boolean dense) {
    double[] all = samples.toArray();
    List<Integer> alone = SpeedJumps.in(all, sustained(all, 1), trace);
    if (dense && alone.size() < FEW_SHARE * all.length) {
      alone.forEach(i -> writable()[i] = Double.NaN);
    } else {
      alone.forEach(this::drop);
    }
  }

  /** Values that equal the largest magnitude, where the next smaller one is far below it. */
  private void dropCode(double limit, double overOthers) {
    double top = 0;
    double next = 0;
    for (int i = 0; i < samples.size(); i++) {
      double magnitude = Math.abs(samples.at(i));
      if (magnitude > top) {
        next = top;
        top = magnitude;
      } else if (magnitude < top && magnitude > next) {
        next = magnitude;
      }
    }
    if (!(top > limit) || !(next > 0) || top <= overOthers * next) {
      return;
    }
    for (int i = 0; i < samples.size(); i++) {
      if (Math.abs(samples.at(i)) == top) {
        drop(i);
      }
    }
  }

  /** Largest running median of five, of the values times a sign; 0 when there is none above. */
  private static double sustained(double[] values, double sign) {
    double most = 0;
    double[] five = new double[5];
    for (int i = 0; i + five.length <= values.length; i++) {
      double middle = values[i + 2] * sign;
      // Most windows cannot beat what was seen: no need to sort them.
      if (values[i] * sign > most || middle > most || values[i + 4] * sign > most) {
        System.arraycopy(values, i, five, 0, five.length);
        double median = sign * Noise.median(five, 0, five.length);
        most = median > most ? median : most;
      }
    }
    return most;
  }

  /** Samples of a waveform that stand alone. */
  void dropLoneSamples(@Nullable Double ratedHz) {
    for (int round = 0; round < CODES; round++) {
      dropCode(0, CODE_TIMES);
    }
    double crest = crest(samplesACycle(ratedHz));
    if (!(crest > 0)) {
      return;
    }
    boolean shape = samplesACycle(ratedHz) >= LEAST_FOR_SHAPE && isCurrent();
    for (int i = 0; i < samples.size(); i++) {
      double value = samples.at(i);
      if (Math.abs(value) > CREST_TIMES * crest || (shape && standsOut(i, crest))) {
        drop(i);
      }
    }
  }

  private boolean isCurrent() {
    return ChannelName.CURRENTS.contains(name);
  }

  private int samplesACycle(@Nullable Double ratedHz) {
    double hz = ratedHz != null ? ratedHz : ASSUMED_HZ;
    return (int) Math.max(4, Math.min(1e7, Math.rint(rateHz() / hz)));
  }

  /** A current through a winding cannot jump there and back within two intervals. */
  private boolean standsOut(int i, double crest) {
    if (i == 0 || i + 1 >= samples.size()) {
      return false;
    }
    double before = samples.at(i - 1);
    double after = samples.at(i + 1);
    double off = Math.abs(samples.at(i) - 0.5 * (before + after));
    return off > STANDS_OUT * crest && Math.abs(after - before) < 0.2 * off;
  }

  /** Third-largest magnitude of a cycle, the largest of them that two cycles in three reach. */
  private double crest(int perCycle) {
    double[] third = new double[(samples.size() + perCycle - 1) / perCycle];
    for (int b = 0; b < third.length; b++) {
      double one = 0;
      double two = 0;
      double three = 0;
      for (int i = b * perCycle; i < Math.min(samples.size(), (b + 1) * perCycle); i++) {
        double magnitude = Math.abs(samples.at(i));
        if (magnitude > one) {
          three = two;
          two = one;
          one = magnitude;
        } else if (magnitude > two) {
          three = two;
          two = magnitude;
        } else if (magnitude > three) {
          three = magnitude;
        }
      }
      third[b] = three;
    }
    return Noise.largest(Noise.medianOfThree(third), 0, third.length);
  }

  /** The mean that stands while no current flows, where it matters. */
  void takeOffOffset(@Nullable Double ratedHz, @Nullable Double ratedA) {
    RestOffset rest = RestOffset.of(samples, samplesACycle(ratedHz));
    double least =
        Math.max(
            OFFSET_SHARE_OF_TOP * rest.largestRms(),
            ratedA != null ? OFFSET_SHARE_OF_RATED * ratedA : 0);
    if (!(Math.abs(rest.offset()) > least)) {
      return;
    }
    double[] copy = writable();
    for (int i = 0; i < copy.length; i++) {
      copy[i] -= rest.offset();
    }
    turned.add(
        new Finding(
            "offset",
            trace.time().atS(rest.from()),
            trace.time().atS(rest.to()),
            rest.offset(),
            Findings.text(
                "%s stands at %.4g A while no current flows: the meter's offset, taken off the whole"
                    + " record",
                name.key(), rest.offset())));
  }
}
