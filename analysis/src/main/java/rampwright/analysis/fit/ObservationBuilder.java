package rampwright.analysis.fit;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.RunFigures.PhaseFactors;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;

/**
 * Makes an observation from phase readings: means of phases, phase factors, and the instants that
 * nobody gave, found by plain thresholds.
 */
public final class ObservationBuilder {
  private static final double FLOWING = 0.08;
  private static final double FLAT = 0.03;

  private final StarterSettings settings;
  private final double ratedCurrentA;
  private double[] timeS = new double[0];
  private double[][] currents = new double[0][];
  private double[][] voltages = new double[0][];
  private double @Nullable [] speedRpm;
  private double inceptionS = Double.NaN;
  private double stopBeginS = Double.NaN;
  private double releaseS = Double.NaN;
  private double stopSigmaS;
  private TrialObservation.@Nullable End end;

  /** Starts an observation of a trial made with these settings. */
  public ObservationBuilder(StarterSettings settings, double ratedCurrentA) {
    this.settings = settings;
    this.ratedCurrentA = ratedCurrentA;
  }

  /** Readings: times, one array per current, one per line-to-line voltage (may be none), speed. */
  public ObservationBuilder readings(
      double[] instantsS,
      double[][] phaseCurrentA,
      double[][] lineVoltageV,
      double @Nullable [] rpm) {
    if (phaseCurrentA.length == 0) {
      throw new IllegalArgumentException("observation: at least one current is needed");
    }
    timeS = instantsS;
    currents = phaseCurrentA;
    voltages = lineVoltageV;
    speedRpm = rpm;
    return this;
  }

  /**
   * Instants found elsewhere, s, NaN for those to be found here; and how sure the stop order is.
   */
  public ObservationBuilder instants(
      double inception, double stopBegin, double stopBeginSigma, double release) {
    inceptionS = inception;
    stopBeginS = stopBegin;
    stopSigmaS = stopBeginSigma;
    releaseS = release;
    return this;
  }

  /** How the start ended, when that was found elsewhere. */
  public ObservationBuilder end(TrialObservation.End how) {
    end = how;
    return this;
  }

  /** The observation; throws when no current ever flows. */
  public TrialObservation build() {
    double[] current = mean(currents);
    double interval = medianInterval();
    double threshold = FLOWING * ratedCurrentA;
    int first = 0;
    while (first < current.length && !(current[first] > threshold)) {
      first++;
    }
    if (first == current.length) {
      throw new IllegalArgumentException("observation: no current flows in the record");
    }
    int last = current.length - 1;
    while (!(current[last] > threshold)) {
      last--;
    }
    if (Double.isNaN(inceptionS)) {
      inceptionS = first == 0 ? timeS[0] : inception(current, first);
    }
    boolean ceased = last < current.length - 1;
    if (Double.isNaN(releaseS) && ceased) {
      releaseS = 0.5 * (timeS[last] + timeS[last + 1]);
    }
    TrialObservation.End how = end != null ? end : judge(current, last);
    if (Double.isNaN(stopBeginS) && how == TrialObservation.End.COMPLETED && ceased) {
      boolean coast = settings.stop() == StopMode.COAST;
      stopBeginS = coast ? releaseS : departure(current, last);
      stopSigmaS = coast ? 0 : 0.25 + 0.04 * settings.rampDownS() + interval;
    }
    double[] volts = voltages.length == 0 ? null : mean(voltages);
    return new TrialObservation(
        settings,
        timeS,
        current,
        volts,
        speedRpm,
        inceptionS,
        how == TrialObservation.End.FAILED ? Double.NaN : stopBeginS,
        stopSigmaS,
        releaseS,
        how,
        phases(current, volts),
        volts == null ? Double.NaN : before(volts),
        interval);
  }

  private double inception(double[] current, int first) {
    int next = Math.min(first + 1, current.length - 1);
    // A first reading that caught only a sliver of current belongs to the rest before it.
    boolean sliver = current[first] < 0.4 * current[next];
    int after = sliver ? next : first;
    return 0.5 * (timeS[after - 1] + timeS[after]);
  }

  private double medianInterval() {
    double[] steps = new double[Math.max(1, timeS.length - 1)];
    for (int k = 0; k + 1 < timeS.length; k++) {
      steps[k] = timeS[k + 1] - timeS[k];
    }
    Arrays.sort(steps);
    return Math.max(1e-6, steps[steps.length / 2]);
  }

  private static double[] mean(double[][] channels) {
    double[] out = new double[channels[0].length];
    for (int k = 0; k < out.length; k++) {
      double sum = 0;
      int count = 0;
      for (double[] channel : channels) {
        if (!Double.isNaN(channel[k])) {
          sum += channel[k];
          count++;
        }
      }
      out[k] = count == 0 ? Double.NaN : sum / count;
    }
    return out;
  }

  private double before(double[] values) {
    double[] picked = new double[values.length];
    int count = 0;
    for (int k = 0; k < values.length && timeS[k] < inceptionS; k++) {
      if (timeS[k] >= inceptionS - 1.5
          && !Double.isNaN(values[k])
          && timeS[k] < inceptionS - 0.02) {
        picked[count++] = values[k];
      }
    }
    return count == 0 ? Double.NaN : Arrays.stream(picked, 0, count).average().orElse(Double.NaN);
  }

  /** Completed when the last second of current lies well below the largest and does not move. */
  private TrialObservation.End judge(double[] current, int last) {
    double peak = 0;
    for (double value : current) {
      peak = Double.isNaN(value) ? peak : Math.max(peak, value);
    }
    double lowest = Double.POSITIVE_INFINITY;
    // The last readings may straddle the cut.
    for (int k = 2; k <= last - 3; k++) {
      if (timeS[k] > inceptionS + 0.5 && !Double.isNaN(current[k])) {
        lowest = Math.min(lowest, Math.max(current[k - 1], current[k]));
      }
    }
    return lowest < 1.15 * ratedCurrentA && lowest < 0.7 * peak
        ? TrialObservation.End.COMPLETED
        : TrialObservation.End.FAILED;
  }

  /**
   * Where the current leaves its run value before it ceases: the end of the last flat second near
   * the lowest flat level, moved on to the first of three readings outside a band, and back along
   * their slope to where it meets the run.
   */
  private double departure(double[] current, int last) {
    int reach = Math.max(4, (int) Math.round(flatS() / medianInterval()));
    double lowest = Double.POSITIVE_INFINITY;
    for (int k = reach; k <= last; k++) {
      double[] flat = flatness(current, k - reach, k);
      if (timeS[k - reach] > inceptionS + 0.3 && flat[1] < FLAT * flat[0] + 0.012 * ratedCurrentA) {
        lowest = Math.min(lowest, flat[0]);
      }
    }
    if (Double.isInfinite(lowest)) {
      return Double.NaN;
    }
    // The reference falls from the load's torque, at least a quarter of rated, in the ramp-down
    // time.
    double led = settings.rampDownS() * Math.max(0, 1 - settings.releaseTorquePct() / 25);
    int latest = last;
    while (latest > reach && timeS[latest] > timeS[last] - led) {
      latest--;
    }
    int end = latest;
    double run = lowest;
    for (int k = latest; k >= reach; k--) {
      double[] flat = flatness(current, k - reach, k);
      if (flat[1] < FLAT * flat[0] + 0.012 * ratedCurrentA && flat[0] < 1.4 * lowest) {
        end = k;
        run = flat[0];
        break;
      }
    }
    double band = Math.max(0.03 * run, 0.02 * ratedCurrentA);
    for (int k = Math.max(1, end - reach); k + 2 <= last; k++) {
      double off = Math.abs(current[k] - run);
      double next = Math.abs(current[k + 2] - run);
      if (off > band && Math.abs(current[k + 1] - run) > band && next > band) {
        double slope = (next - off) / (timeS[k + 2] - timeS[k]);
        // Departure starts gently: the straight line back is a little late, half as much again
        // fits.
        double back = slope > 0 ? 1.5 * off / slope : 0;
        return timeS[k] - Math.min(back, 0.6 + 4 * medianInterval());
      }
    }
    return timeS[end];
  }

  /** A slow ramp-down looks flat over a short while. */
  private double flatS() {
    return Math.min(2.5, Math.max(1.0, settings.rampDownS() / 12));
  }

  /** Mean and range of the readings between two indices. */
  private static double[] flatness(double[] values, int from, int to) {
    double sum = 0;
    int count = 0;
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int k = from; k <= to; k++) {
      if (!Double.isNaN(values[k])) {
        sum += values[k];
        count++;
        low = Math.min(low, values[k]);
        high = Math.max(high, values[k]);
      }
    }
    return new double[] {
      count == 0 ? Double.NaN : sum / count, count == 0 ? Double.POSITIVE_INFINITY : high - low
    };
  }

  private PhaseFactors phases(double[] mean, double @Nullable [] meanVolts) {
    double highest = 1;
    double squares = 0;
    for (double[] channel : currents) {
      double[] shares = new double[mean.length];
      int count = 0;
      for (int k = 0; k < mean.length; k++) {
        if (timeS[k] > inceptionS && mean[k] > ratedCurrentA && !Double.isNaN(channel[k])) {
          shares[count++] = channel[k] / mean[k];
        }
      }
      Arrays.sort(shares, 0, count);
      double share = count == 0 ? 1 : shares[count / 2];
      highest = Math.max(highest, share);
      squares += share * share / currents.length;
    }
    return new PhaseFactors(highest, Math.max(1, squares), worstDip(mean, meanVolts));
  }

  private double worstDip(double[] mean, double @Nullable [] meanVolts) {
    if (meanVolts == null) {
      return 1;
    }
    double meanBefore = before(meanVolts);
    double worst = 1;
    for (double[] line : voltages) {
      double lineBefore = before(line);
      double dips = 0;
      double meanDips = 0;
      for (int k = 0; k < mean.length; k++) {
        if (timeS[k] > inceptionS && mean[k] > 1.5 * ratedCurrentA && !Double.isNaN(line[k])) {
          dips += 1 - line[k] / lineBefore;
          meanDips += 1 - meanVolts[k] / meanBefore;
        }
      }
      if (meanDips > 0.02 && dips > 0) {
        worst = Math.max(worst, Math.min(1.15, dips / meanDips));
      }
    }
    return worst;
  }
}
