package rampwright.analysis.signal;

import java.util.ArrayList;
import java.util.List;
import rampwright.analysis.trace.ChannelName;

/**
 * Finds polyphase voltage dips on an RMS track.
 *
 * <p>Formula: a dip starts at the first time at which any voltage is below threshold x declared,
 * and ends at the first later time at which all are at or above (threshold + hysteresis) x
 * declared. Retained voltage is the smallest value of any channel in between.
 *
 * <p>Valid: the track carries one-cycle RMS refreshed every half cycle and stamped at the end of
 * the cycle, so that start and end are each known to a half cycle and the duration to one cycle: a
 * dip of five cycles measures 5.5 or 4.5 by its depth alone. A missing value (NaN) says nothing; a
 * dip goes on over it. A track that begins below threshold begins a dip.
 *
 * <p>Source: IEC 61000-4-30:2015, 5.4 (clause from memory); threshold 0.90 and hysteresis 0.02 are
 * the usual values.
 *
 * <p>Checked: DipTimingReferenceTest.
 *
 * @param declaredV declared voltage, RMS, of the kind the channels are (line to line), V
 * @param thresholdShare share of declared below which a dip starts, above 0 to 1
 * @param hysteresisShare further share of declared that ends it, 0 or more
 */
public record DipTiming(double declaredV, double thresholdShare, double hysteresisShare) {
  /** The usual threshold. */
  public static final double USUAL_THRESHOLD_SHARE = 0.90;

  /** The usual hysteresis. */
  public static final double USUAL_HYSTERESIS_SHARE = 0.02;

  public DipTiming {
    if (!(declaredV > 0)
        || !(thresholdShare > 0 && thresholdShare <= 1)
        || !(hysteresisShare >= 0 && hysteresisShare <= 1)) {
      throw new IllegalArgumentException(
          "dip timing: declared "
              + declaredV
              + " V, threshold "
              + thresholdShare
              + ", hysteresis "
              + hysteresisShare
              + "; need declared above 0, threshold in (0, 1], hysteresis in [0, 1]");
    }
  }

  /** Dip timing with threshold 0.90 and hysteresis 0.02. */
  public static DipTiming usual(double declaredV) {
    return new DipTiming(declaredV, USUAL_THRESHOLD_SHARE, USUAL_HYSTERESIS_SHARE);
  }

  /**
   * One dip.
   *
   * @param startS time of the first value below the threshold, s
   * @param endS time of the first value at which all channels are back, s; the track's last time
   *     when it ends first
   * @param ended whether the voltages came back before the track ended
   * @param retainedV smallest RMS value of any channel, V
   * @param channel the channel that had it
   */
  public record Dip(
      double startS, double endS, boolean ended, double retainedV, ChannelName channel) {
    /** How long it lasted, s; a lower bound when it did not end. */
    public double durationS() {
      return endS - startS;
    }
  }

  /** Dips of those channels that the track has, in order of time. */
  public List<Dip> find(RmsTrack track, List<ChannelName> channels) {
    List<ChannelName> present = channels.stream().filter(track.values()::containsKey).toList();
    List<Dip> dips = new ArrayList<>();
    double below = thresholdShare * declaredV;
    double back = (thresholdShare + hysteresisShare) * declaredV;
    double[] timeS = track.timeS();
    for (int k = 0; k < timeS.length; k++) {
      if (lowest(track, present, k).valueV < below) {
        int start = k;
        Lowest retained = lowest(track, present, k);
        Lowest now = retained;
        // A time without any value has the lowest at infinity and must not end the dip.
        while (now.valueV < back || now.valueV == Double.POSITIVE_INFINITY) {
          if (now.valueV < retained.valueV) {
            retained = now;
          }
          k++;
          if (k == timeS.length) {
            break;
          }
          now = lowest(track, present, k);
        }
        boolean ended = k < timeS.length;
        double endS = timeS[ended ? k : timeS.length - 1];
        dips.add(new Dip(timeS[start], endS, ended, retained.valueV, retained.channel));
      }
    }
    return dips;
  }

  private record Lowest(double valueV, ChannelName channel) {}

  private static Lowest lowest(RmsTrack track, List<ChannelName> channels, int k) {
    Lowest lowest = new Lowest(Double.POSITIVE_INFINITY, ChannelName.V12);
    for (ChannelName name : channels) {
      double value = track.values().getOrDefault(name, new double[0])[k];
      if (value < lowest.valueV) {
        lowest = new Lowest(value, name);
      }
    }
    return lowest;
  }
}
