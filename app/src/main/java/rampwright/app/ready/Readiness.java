package rampwright.app.ready;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.FitResult;
import rampwright.analysis.heat.HeatStanding;
import rampwright.analysis.machine.StarterSettings;
import rampwright.app.asset.AssetFile;

/**
 * Whether an asset is ready for a start with given settings.
 *
 * @param asset the asset
 * @param settings the settings looked at; null when none were known
 * @param settingsFrom where they come from
 * @param basis what the model rests on
 * @param lines the checks
 * @param startsPerHour what the strictest rule allows for ever; null when it cannot be told
 * @param restS rest between two starts; null when it cannot be told
 * @param course torque along the run-up; null without settings
 */
public record Readiness(
    AssetFile asset,
    @Nullable StarterSettings settings,
    String settingsFrom,
    String basis,
    List<ReadyLine> lines,
    @Nullable Double startsPerHour,
    @Nullable Double restS,
    @Nullable TorqueCourse course) {
  public Readiness {
    lines = List.copyOf(lines);
  }

  /** Whether any check says hold. */
  public boolean isHeld() {
    return lines.stream().anyMatch(line -> line.state() == ReadyLine.State.HOLD);
  }

  /** How many checks stand so. */
  public long count(ReadyLine.State state) {
    return lines.stream().filter(line -> line.state() == state).count();
  }

  /**
   * What is looked at.
   *
   * @param fit the model: fitted to the trials, or the sheet's priors
   * @param trials how many trials it was fitted to
   * @param settings null when none are known
   * @param lineVoltages line voltages before the last trial's start, V; empty without
   */
  public record Question(
      AssetFile asset,
      FitResult fit,
      int trials,
      @Nullable StarterSettings settings,
      String settingsFrom,
      List<Double> lineVoltages) {
    // Before the first trial the draws are the sheet and usual values: only what nineteen in twenty
    // of them agree on is evidence. Trials are evidence, and the likelier side of them counts.
    private static final double GUESSED = 0.05;
    private static final double MEASURED = 0.5;

    /** A hold needs that fewer than this share of the machines left open speak against it. */
    double doubt() {
      return trials == 0 ? GUESSED : MEASURED;
    }
  }

  /** Looks at everything. */
  public static Readiness of(Question question) {
    List<ReadyLine> lines = new ArrayList<>();
    Parts parts = new Parts();
    PlateLines.add(question.asset().asset(), lines);
    SupplyLines.add(question.asset().asset(), question.lineVoltages(), lines);
    parts.take(ReadyLine.Part.SHEET, lines);
    StarterLines.add(question.asset().asset(), lines);
    parts.take(ReadyLine.Part.STARTER, lines);
    StarterSettings settings = question.settings();
    RunUp run = null;
    HeatStanding heat;
    if (settings == null) {
      heat = HeatLines.withoutSettings(question.asset().asset(), lines);
      parts.take(ReadyLine.Part.HEAT, lines);
    } else {
      run = RunUp.of(question.fit(), sourceVoltageV(question.asset()), settings);
      RunUpLines.add(question, settings, run, lines);
      parts.take(ReadyLine.Part.START, lines);
      heat = HeatLines.of(question, run, lines);
      parts.take(ReadyLine.Part.HEAT, lines);
      UnknownLines.add(question.asset().asset(), run, lines);
      parts.take(ReadyLine.Part.UNKNOWN, lines);
    }
    StopLines.add(question.asset().asset(), settings, lines);
    parts.take(ReadyLine.Part.STOP, lines);
    return new Readiness(
        question.asset(),
        settings,
        question.settingsFrom(),
        question.trials() == 0
            ? "the sheet and usual values alone"
            : "a model fitted to "
                + question.trials()
                + (question.trials() == 1 ? " trial" : " trials"),
        parts.all,
        heat.startsPerHour(),
        Double.isFinite(heat.restS()) ? Double.valueOf(heat.restS()) : null,
        run == null ? null : run.course());
  }

  /** The lines of all parts. */
  private static final class Parts {
    private final List<ReadyLine> all = new ArrayList<>();

    /** Takes what was found over, as lines of a part. */
    void take(ReadyLine.Part part, List<ReadyLine> found) {
      found.forEach(line -> all.add(line.about(part)));
      found.clear();
    }
  }

  private static double sourceVoltageV(AssetFile asset) {
    var supply = asset.asset().supply();
    return supply == null ? asset.asset().motor().ratedVoltageV() : supply.voltageV();
  }
}
