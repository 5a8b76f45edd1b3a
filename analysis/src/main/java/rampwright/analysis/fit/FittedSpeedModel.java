package rampwright.analysis.fit;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.SpeedModel;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunPlan;
import rampwright.analysis.machine.RunSimulator;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Trajectory;
import rampwright.analysis.signal.RmsTrack;

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

  private final AssetData asset;
  private final StarterSettings settings;
  private final Batch batch;

  /** A model of an asset run with given settings. */
  public FittedSpeedModel(AssetData asset, StarterSettings settings) {
    this(asset, settings, Batch.IN_TURN);
  }

  /** The same, with independent pieces of the fit handed to a batch; the date is the same. */
  public FittedSpeedModel(AssetData asset, StarterSettings settings, Batch batch) {
    this.asset = asset;
    this.settings = settings;
    this.batch = batch;
  }

  @Override
  public @Nullable Estimate fullSpeed(RmsTrack track, Span span) {
    boolean stopSeen = span.runEndS() < track.timeS()[track.size() - 1] - 1e-6;
    TrialObservation observation;
    try {
      observation =
          TrackObservation.of(
              track,
              new TrackObservation.Instants(
                  span.inceptionS(),
                  stopSeen ? span.runEndS() : Double.NaN,
                  stopSeen ? 0.05 * Math.max(0.1, span.flowEndS() - span.runEndS()) : Double.NaN,
                  span.flowEndS(),
                  span.flowEndS()),
              settings,
              asset,
              false,
              TrialObservation.End.COMPLETED);
    } catch (IllegalArgumentException noCurrent) {
      return null;
    }
    FitResult fit = AssetFit.fit(asset, List.of(observation), batch);
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
}
