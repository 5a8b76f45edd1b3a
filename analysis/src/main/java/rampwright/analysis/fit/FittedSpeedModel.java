package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.SpeedModel;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigures.PhaseFactors;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Trajectory;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;

/**
 * Dates full speed on a trace without a speed channel: the machine model is fitted to the trace's
 * currents and voltages with the settings the trial was made with, and run.
 *
 * <p>Valid: completed starts whose settings are known. A fit that does not explain the trace gives
 * no date. Uncertainty: the spread of the date over the posterior, and {@link #RULE} of the start
 * time besides (analysis/docs/figures.md has how far the rule lay off on traces that have speed).
 */
public final class FittedSpeedModel implements SpeedModel {
  /** Share of the start time the rule itself is uncertain by. */
  static final double RULE = 0.02;

  private static final int DRAWS = 24;
  private static final int MOST_POINTS = 3000;
  private static final double PRE_S = 1.0;

  private final AssetData asset;
  private final StarterSettings settings;

  /** A model of an asset run with given settings. */
  public FittedSpeedModel(AssetData asset, StarterSettings settings) {
    this.asset = asset;
    this.settings = settings;
  }

  @Override
  public @Nullable Estimate fullSpeed(RmsTrack track, Span span) {
    TrialObservation observation = observation(track, span);
    if (observation == null) {
      return null;
    }
    FitResult fit = AssetFit.fit(asset, List.of(observation));
    if (fit.status() != FitResult.Status.FITTED) {
      return null;
    }
    double sourceV =
        Double.isNaN(observation.sourceVoltageV())
            ? asset.supplyVoltageV()
            : observation.sourceVoltageV();
    double longestS = 1.5 * (span.runEndS() - span.inceptionS()) + 5;
    List<Double> tookS = new ArrayList<>();
    double bestS = Double.NaN;
    for (MachineModel model : fit.trialModels(0, DRAWS, sourceV)) {
      Trajectory run = RunSimulator.run(model, settings, RunPlan.startOnly(longestS));
      double s = run.instants().fullSpeedS();
      if (tookS.isEmpty() && Double.isNaN(bestS)) {
        bestS = s;
      } else if (!Double.isNaN(s)) {
        tookS.add(s);
      }
    }
    if (Double.isNaN(bestS) || tookS.size() < DRAWS / 2) {
      return null;
    }
    double[] sorted = tookS.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    double spread = (quantile(sorted, 0.84) - quantile(sorted, 0.16)) / 2;
    double u = Math.hypot(spread, RULE * bestS);
    return new Estimate(
        span.inceptionS() + bestS, u, "machine model fitted to this trace with its settings");
  }

  private static double quantile(double[] sorted, double share) {
    return sorted[(int) Math.round(share * (sorted.length - 1))];
  }

  private @Nullable TrialObservation observation(RmsTrack track, Span span) {
    double[] t = track.timeS();
    double[] amps = mean(track, ChannelName.CURRENTS);
    if (amps == null || t.length < 10) {
      return null;
    }
    double[] volts = mean(track, ChannelName.LINE_VOLTAGES);
    double sourceV = volts == null ? Double.NaN : before(t, volts, span.inceptionS());
    if (volts != null && !(sourceV > 0.5 * asset.supplyVoltageV())) {
      // Measured at the motor's terminals: not the supply's voltage.
      volts = null;
      sourceV = Double.NaN;
    }
    int from = Math.max(0, first(t, span.inceptionS() - PRE_S));
    int to = Math.min(t.length, first(t, span.flowEndS() + PRE_S));
    int stride = Math.max(1, (to - from) / MOST_POINTS);
    int n = (to - from + stride - 1) / stride;
    if (n < 10) {
      return null;
    }
    double[] times = new double[n];
    double[] current = new double[n];
    double[] voltage = volts == null ? null : new double[n];
    for (int k = 0; k < n; k++) {
      int i = from + k * stride;
      times[k] = t[i];
      current[k] = amps[i];
      if (voltage != null && volts != null) {
        voltage[k] = volts[i];
      }
    }
    boolean stopSeen = span.runEndS() < t[t.length - 1] - 1e-6;
    return new TrialObservation(
        settings,
        times,
        current,
        voltage,
        null,
        span.inceptionS(),
        stopSeen ? span.runEndS() : Double.NaN,
        stopSeen ? 0.05 * Math.max(0.1, span.flowEndS() - span.runEndS()) : Double.NaN,
        span.flowEndS(),
        TrialObservation.End.COMPLETED,
        PhaseFactors.BALANCED,
        sourceV,
        (times[n - 1] - times[0]) / (n - 1));
  }

  private static double before(double[] t, double[] volts, double inceptionS) {
    int from = first(t, inceptionS - PRE_S);
    int to = first(t, inceptionS);
    double[] level = Arrays.copyOfRange(volts, from, Math.max(from, to));
    double sum = 0;
    int n = 0;
    for (double v : level) {
      if (!Double.isNaN(v)) {
        sum += v;
        n++;
      }
    }
    return n < 3 ? Double.NaN : sum / n;
  }

  private static int first(double[] t, double atS) {
    int i = Arrays.binarySearch(t, atS);
    return i >= 0 ? i : -i - 1;
  }

  private static double @Nullable [] mean(RmsTrack track, List<ChannelName> names) {
    double[] sum = new double[track.size()];
    int n = 0;
    for (ChannelName name : names) {
      double[] one = track.of(name);
      if (one != null) {
        for (int i = 0; i < sum.length; i++) {
          sum[i] += one[i];
        }
        n++;
      }
    }
    if (n == 0) {
      return null;
    }
    for (int i = 0; i < sum.length; i++) {
      sum[i] /= n;
    }
    return sum;
  }
}
