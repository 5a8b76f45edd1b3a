package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import rampwright.analysis.trace.ChannelName;

/**
 * The longer gaps of several channels of one kind, and the channels with those gaps filled from the
 * ones that were read.
 */
final class PhaseGaps {
  // Phases of one machine seldom differ by more: what a phase may have done while another was read.
  private static final double ASIDE = 0.1;
  private static final double LEAST_RATIO = 0.5;
  private static final double MOST_RATIO = 2;

  private final List<ChannelName> names;
  private final double[] timeS;
  private final double[][] values;
  private final List<List<Gap>> gaps = new ArrayList<>();

  /** Per channel and gap: the largest RMS of the other channels within it; 0 when none was read. */
  private final List<double[]> othersIn = new ArrayList<>();

  PhaseGaps(List<ChannelName> names, double[] timeS, double[][] values, double stepS) {
    this.names = names;
    this.timeS = timeS;
    this.values = values;
    for (double[] one : values) {
      gaps.add(timeS.length == 0 ? List.of() : Gap.of(timeS, one, stepS));
    }
    for (int c = 0; c < values.length; c++) {
      double[] others = new double[gaps.get(c).size()];
      for (int g = 0; g < others.length; g++) {
        others[g] = largestOfOthers(c, gaps.get(c).get(g));
      }
      othersIn.add(others);
    }
  }

  /** Gaps of one channel, in the order of the names. */
  List<Gap> of(int channel) {
    return gaps.get(channel);
  }

  /** Share of [fromS, toS] in which a channel was read. */
  double readShare(int channel, double fromS, double toS) {
    double missingS = 0;
    for (Gap gap : gaps.get(channel)) {
      missingS += gap.withinS(fromS, toS);
    }
    return toS > fromS ? 1 - missingS / (toS - fromS) : 1;
  }

  /** "; ..." where a window holds a gap, for a figure's rule; empty where it holds none. */
  String said(double fromS, double toS) {
    StringBuilder text = new StringBuilder();
    int more = 0;
    for (int c = 0; c < names.size(); c++) {
      for (Gap gap : gaps.get(c)) {
        if (gap.withinS(fromS, toS) <= 0) {
          continue;
        }
        if (text.length() == 0) {
          text.append(
              Findings.text(
                  "; the window holds a gap: %s not read from %.2f s to %.2f s",
                  names.get(c).key(), gap.fromS(), gap.toS()));
        } else {
          more++;
        }
      }
    }
    return more > 0 ? text + " and " + more + " more" : text.toString();
  }

  /** A channel with its gaps filled by the others' RMS, in its own proportion to them. */
  double[] filled(int channel) {
    double[] own = values[channel];
    if (gaps.get(channel).isEmpty()) {
      return own;
    }
    double[] out = own.clone();
    for (Gap gap : gaps.get(channel)) {
      double ratio = ratio(channel, gap);
      for (int k = at(gap.fromS()); k < out.length && timeS[k] <= gap.toS(); k++) {
        if (Double.isNaN(own[k])) {
          out[k] = ratio * others(channel, k);
        }
      }
    }
    return out;
  }

  /** This channel over the others on either side of a gap. */
  private double ratio(int channel, Gap gap) {
    double own = 0;
    double rest = 0;
    for (double besideS : new double[] {gap.fromS(), gap.toS()}) {
      int k = at(besideS);
      double others = others(channel, k);
      if (!Double.isNaN(others) && !Double.isNaN(values[channel][k])) {
        own += values[channel][k];
        rest += others;
      }
    }
    return rest > 0 && own > 0 ? Math.max(LEAST_RATIO, Math.min(MOST_RATIO, own / rest)) : 1;
  }

  /** RMS of the other channels at a stamp; NaN when none was read. */
  private double others(int channel, int k) {
    double sum = 0;
    int n = 0;
    for (int c = 0; c < values.length; c++) {
      if (c != channel && !Double.isNaN(values[c][k])) {
        sum += values[c][k] * values[c][k];
        n++;
      }
    }
    return n == 0 ? Double.NaN : Math.sqrt(sum / n);
  }

  /** What the gaps leave open in the integral of a channel's square over [fromS, toS]. */
  double squareUncertainty(int channel, double fromS, double toS) {
    double sum = 0;
    for (int g = 0; g < gaps.get(channel).size(); g++) {
      Gap gap = gaps.get(channel).get(g);
      double s = gap.withinS(fromS, toS);
      if (s > 0) {
        double others = othersIn.get(channel)[g];
        double top = square(Math.max(gap.largerBeside(), others));
        double step = Math.abs(square(gap.before()) - square(gap.after()));
        double width = others > 0 ? 2 * 2 * ASIDE * top : Math.max(step, ASIDE * top);
        sum += square(Accuracy.ofWidth(width) * s);
      }
    }
    return Math.sqrt(sum);
  }

  /** Index of a stamp of the track. */
  private int at(double stampS) {
    int k = Arrays.binarySearch(timeS, stampS);
    return k >= 0 ? k : Math.min(timeS.length - 1, -k - 1);
  }

  private static double square(double value) {
    return Double.isNaN(value) ? 0 : value * value;
  }

  /** How far an extreme may have been beyond {@code peak} in the gaps of [fromS, toS]. */
  double peakUncertainty(double fromS, double toS, double peak) {
    double most = 0;
    for (int c = 0; c < names.size(); c++) {
      for (int g = 0; g < gaps.get(c).size(); g++) {
        Gap gap = gaps.get(c).get(g);
        if (gap.withinS(fromS, toS) > 0) {
          double others = othersIn.get(c)[g];
          double may =
              others > 0
                  ? (1 + ASIDE) * others
                  : (1 + ASIDE) * gap.largerBeside() + gap.differenceBeside() / 2;
          most = Math.max(most, may - peak);
        }
      }
    }
    return most / Math.sqrt(3);
  }

  private double largestOfOthers(int channel, Gap gap) {
    double most = 0;
    for (int k = at(gap.fromS()) + 1; k < timeS.length && timeS[k] < gap.toS(); k++) {
      double others = others(channel, k);
      if (others > most) {
        most = others;
      }
    }
    return most;
  }
}
