package rampwright.analysis.signal;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;

/**
 * Finds the fundamental's zero crossings in a waveform record, following its frequency.
 *
 * <p>Formula: a one-cycle Fourier coefficient at a fixed frequency f0, refreshed every half cycle,
 * turns at 2 pi (f - f0); the turn from one to the next is taken over all synchronising channels
 * together, weighted by their energy, and summed up to the phase. Notches, gaps and harmonics of a
 * phase-controlled current do not move it as they move zero crossings of the raw signal. Where
 * there is no signal the frequency is held.
 *
 * <p>Valid: fundamental between 30 and 80 Hz, changing by less than 10 % in a second, at least 8
 * samples a cycle. Source: the demand of IEC 61000-4-30 (synchronise RMS(1/2) to the fundamental's
 * zero crossings); the method is our own.
 */
public final class CycleTracker {
  /** Lowest fundamental that is followed, Hz. */
  public static final double LOWEST_HZ = 30;

  /** Fewest cycles a record must hold. */
  public static final double LEAST_CYCLES = 2.5;

  private static final double HIGHEST_HZ = 80;
  private static final double SEARCH_STEP_HZ = 0.5;
  private static final int SEARCH_CYCLES = 12;
  private static final int REFINEMENTS = 4;
  // Below this share of the record's largest fundamental there is nothing to follow.
  private static final double SIGNAL_SHARE = 0.05;
  private static final int SMOOTH = 2;
  private static final double LEAST_TURN = 0.25;
  private static final double LEAST_SAMPLES = 5;

  private CycleTracker() {}

  /**
   * Half-cycle boundaries of a waveform record. Where the voltages show no fundamental the currents
   * are tried, and where none is found about the rated frequency the whole range is.
   *
   * @param ratedFrequencyHz where the search starts; null to search from 30 to 80 Hz
   * @return null when the record is shorter than two and a half cycles or has no alternating signal
   */
  public static @Nullable Cycles track(Trace trace, @Nullable Double ratedFrequencyHz) {
    List<ChannelName> first = KindFinder.synchronising(trace);
    List<ChannelName> currents = trace.present(ChannelName.CURRENTS);
    Cycles found = track(trace, first, ratedFrequencyHz);
    if (found == null && ratedFrequencyHz != null) {
      found = track(trace, first, null);
    }
    if (found == null && !first.equals(currents)) {
      found = track(trace, currents, ratedFrequencyHz);
      if (found == null && ratedFrequencyHz != null) {
        found = track(trace, currents, null);
      }
    }
    return found;
  }

  private static @Nullable Cycles track(
      Trace trace, List<ChannelName> names, @Nullable Double ratedFrequencyHz) {
    List<Samples> channels = new ArrayList<>();
    for (ChannelName name : names) {
      Samples samples = trace.channel(name);
      if (samples != null) {
        channels.add(samples);
      }
    }
    if (channels.isEmpty() || trace.size() < 2) {
      return null;
    }
    TimeBase time = trace.time();
    double spanS = time.atS(time.size() - 1) - time.atS(0);
    double startHz = ratedFrequencyHz != null ? ratedFrequencyHz : search(time, channels, spanS);
    if (!(startHz > 0)
        || spanS < LEAST_CYCLES / startHz
        || time.typicalStepS() * startHz * LEAST_SAMPLES > 1) {
      return null;
    }
    double frequencyHz = startHz;
    Phases phases = Phases.of(time, channels, frequencyHz);
    for (int pass = 0; pass < REFINEMENTS; pass++) {
      double offHz = phases.meanOffsetHz();
      if (!Double.isFinite(offHz)) {
        return null;
      }
      if (Math.abs(offHz) < 1e-9 * frequencyHz) {
        break;
      }
      frequencyHz += offHz;
      if (frequencyHz < LOWEST_HZ || frequencyHz > HIGHEST_HZ) {
        return null;
      }
      phases = Phases.of(time, channels, frequencyHz);
    }
    if (time.typicalStepS() * frequencyHz * LEAST_SAMPLES > 1) {
      return null;
    }
    return new Cycles(
        phases.zeroCrossingsS(time.atS(0), time.atS(time.size() - 1)),
        frequencyHz,
        names.get(phases.anchorChannel).key());
  }

  /**
   * The frequency with the largest Fourier coefficient over the record's most energetic stretch.
   */
  private static double search(TimeBase time, List<Samples> channels, double spanS) {
    double lengthS = Math.min(spanS, SEARCH_CYCLES / 50.0);
    double bestStartS = time.atS(0);
    double bestEnergy = -1;
    for (double fromS = time.atS(0);
        fromS + lengthS <= time.atS(time.size() - 1) + 1e-12;
        fromS += lengthS) {
      double energy = 0;
      for (Samples samples : channels) {
        double one = WindowIntegral.square(time, samples, fromS, fromS + lengthS);
        energy += Double.isNaN(one) ? 0 : one;
      }
      if (energy > bestEnergy) {
        bestEnergy = energy;
        bestStartS = fromS;
      }
    }
    double best = Double.NaN;
    double bestPower = 0;
    for (double hz = LOWEST_HZ; hz <= HIGHEST_HZ; hz += SEARCH_STEP_HZ) {
      double power = 0;
      double cycles = Math.floor(lengthS * hz) / hz;
      for (Samples samples : channels) {
        double[] c = WindowIntegral.fourier(time, samples, bestStartS, bestStartS + cycles, hz);
        power += c[0] * c[0] + c[1] * c[1];
      }
      if (power > bestPower) {
        bestPower = power;
        best = hz;
      }
    }
    return best;
  }

  /** Phase of the fundamental against a fixed frequency, at window centres half a cycle apart. */
  private static final class Phases {
    private final double[] centreS;
    private final double[] offsetRad;
    private final boolean[] live;
    private final double frequencyHz;
    private final double anchorRad;
    private final int anchorChannel;

    private Phases(
        double[] centreS,
        double[] offsetRad,
        boolean[] live,
        double frequencyHz,
        double anchorRad,
        int anchorChannel) {
      this.centreS = centreS;
      this.offsetRad = offsetRad;
      this.live = live;
      this.frequencyHz = frequencyHz;
      this.anchorRad = anchorRad;
      this.anchorChannel = anchorChannel;
    }

    static Phases of(TimeBase time, List<Samples> channels, double frequencyHz) {
      double halfS = 0.5 / frequencyHz;
      double startS = time.atS(0);
      int halves = (int) Math.floor((time.atS(time.size() - 1) - startS) / halfS + 1e-9);
      int windows = Math.max(0, halves - 1);
      int n = channels.size();
      double[][] re = new double[n][windows];
      double[][] im = new double[n][windows];
      double[] energy = new double[windows];
      double largest = 0;
      int anchorChannel = 0;
      int anchorWindow = 0;
      for (int c = 0; c < n; c++) {
        double[] halfRe = new double[halves];
        double[] halfIm = new double[halves];
        for (int h = 0; h < halves; h++) {
          double[] f =
              WindowIntegral.fourier(
                  time, channels.get(c), startS + h * halfS, startS + (h + 1) * halfS, frequencyHz);
          boolean good = Double.isFinite(f[0]);
          halfRe[h] = good ? f[0] : 0;
          halfIm[h] = good ? f[1] : 0;
        }
        for (int w = 0; w < windows; w++) {
          re[c][w] = halfRe[w] + halfRe[w + 1];
          im[c][w] = halfIm[w] + halfIm[w + 1];
          double magnitude = Math.hypot(re[c][w], im[c][w]);
          energy[w] += magnitude * magnitude;
          if (magnitude > largest * 1.02) {
            largest = magnitude;
            anchorChannel = c;
            anchorWindow = w;
          }
        }
      }
      double floor = SIGNAL_SHARE * SIGNAL_SHARE * largest * largest;
      double[] turn = new double[windows];
      boolean[] live = new boolean[windows];
      double[] centreS = new double[windows];
      for (int w = 0; w < windows; w++) {
        centreS[w] = startS + (w + 1) * halfS;
        live[w] = energy[w] > floor;
        if (w == 0 || !live[w] || !live[w - 1]) {
          continue;
        }
        double a = 0;
        double b = 0;
        for (int c = 0; c < n; c++) {
          a += re[c][w] * re[c][w - 1] + im[c][w] * im[c][w - 1];
          b += im[c][w] * re[c][w - 1] - re[c][w] * im[c][w - 1];
        }
        turn[w] = Math.atan2(b, a);
      }
      double[] offset = new double[windows];
      for (int w = 1; w < windows; w++) {
        offset[w] = offset[w - 1] + turn[w];
      }
      double[] smooth = smooth(offset);
      double anchorRad =
          windows == 0
              ? 0
              : Math.atan2(im[anchorChannel][anchorWindow], re[anchorChannel][anchorWindow])
                  - smooth[anchorWindow];
      return new Phases(centreS, smooth, live, frequencyHz, anchorRad, anchorChannel);
    }

    private static double[] smooth(double[] values) {
      double[] out = new double[values.length];
      for (int i = 0; i < values.length; i++) {
        // Symmetric, and narrower at the ends, so that a straight line stays as it is.
        int reach = Math.min(SMOOTH, Math.min(i, values.length - 1 - i));
        double sum = 0;
        for (int k = i - reach; k <= i + reach; k++) {
          sum += values[k];
        }
        out[i] = sum / (2 * reach + 1);
      }
      return out;
    }

    /** Mean frequency less f0 over the live part; NaN when nothing is live. */
    double meanOffsetHz() {
      double turned = 0;
      double tookS = 0;
      for (int w = 1; w < centreS.length; w++) {
        if (live[w] && live[w - 1]) {
          turned += offsetRad[w] - offsetRad[w - 1];
          tookS += centreS[w] - centreS[w - 1];
        }
      }
      return tookS > 0 ? turned / (2 * Math.PI * tookS) : Double.NaN;
    }

    /** Instants where sin(2 pi f0 t + offset(t) + anchor') crosses zero. */
    double[] zeroCrossingsS(double fromS, double toS) {
      // fourier() gives the phase of a cosine; a sine is zero a quarter turn before the cosine's
      // top.
      double originRad = anchorRad + Math.PI / 2;
      double omega = 2 * Math.PI * frequencyHz;
      List<Double> crossings = new ArrayList<>();
      int windows = centreS.length;
      int pieces = Math.max(1, windows - 1);
      for (int p = 0; p < pieces; p++) {
        double aS = p == 0 ? fromS : centreS[p];
        double bS = p == pieces - 1 ? toS : centreS[p + 1];
        double slope =
            windows < 2 ? 0 : (offsetRad[p + 1] - offsetRad[p]) / (centreS[p + 1] - centreS[p]);
        double base = windows < 1 ? 0 : offsetRad[p] - slope * centreS[p];
        // angle(t) = (omega + slope) t + base + origin
        // A record of noise alone may seem to turn backwards; a boundary must come.
        double rate = Math.max(omega + slope, LEAST_TURN * omega);
        double atA = rate * aS + base + originRad;
        for (long k = (long) Math.ceil(atA / Math.PI - 1e-9); ; k++) {
          double t = (k * Math.PI - base - originRad) / rate;
          if (t > bS + 1e-12 || (p < pieces - 1 && t >= bS)) {
            break;
          }
          if (t >= fromS
              && t <= toS
              && (crossings.isEmpty()
                  || t > crossings.get(crossings.size() - 1) + 0.25 / frequencyHz)) {
            crossings.add(t);
          }
        }
      }
      return crossings.stream().mapToDouble(Double::doubleValue).toArray();
    }
  }
}
