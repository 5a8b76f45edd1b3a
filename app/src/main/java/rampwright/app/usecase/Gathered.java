package rampwright.app.usecase;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.Finding;
import rampwright.analysis.figure.Outcome;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.StopKind;
import rampwright.analysis.figure.StopRecord;
import rampwright.analysis.fit.AssetData;
import rampwright.analysis.fit.TrackObservation;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.analysis.quantity.Measured;
import rampwright.app.advice.Advice;
import rampwright.app.advice.AdviceRequest;
import rampwright.app.advice.FigureLimit;
import rampwright.app.advice.Setting;
import rampwright.app.advice.SettingRanges;
import rampwright.app.asset.Asset;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.MachineSheet;
import rampwright.app.asset.SettingRange;
import rampwright.app.asset.Starter;
import rampwright.app.asset.TrialNotes;
import rampwright.app.envelope.CorridorCheck;
import rampwright.app.envelope.Limit;

/** What was found in an asset folder. */
final class Gathered {
  // What such a trace shows is not what the machine does when it is whole.
  private static final Set<String> FAULTS =
      Set.of("phase-missing", "one-way-conduction", "swapped-channels");

  // Any machine takes this much of rated torque at full speed; starters give up from here on.
  private static final double TAKEN_PCT = 15;
  private static final double OWN_LIMIT_S = 25;

  private final AssetFile asset;
  private final AssetData data;
  private final List<AdviceRequest.Trial> trials = new ArrayList<>();
  private final List<String> used = new ArrayList<>();
  private final List<String> leftOut = new ArrayList<>();
  private TrialReader.@Nullable Read last;

  Gathered(AssetFile asset, AssetData data) {
    this.asset = asset;
    this.data = data;
  }

  void leaveOut(String why) {
    leftOut.add(why);
  }

  AssetFile asset() {
    return asset;
  }

  /** What the folder tells a model. */
  AdviseAsset.Evidence evidence() {
    List<Double> volts = List.of();
    TrialReader.Read seen = last;
    if (seen != null && !seen.analyzed().figures().starts().isEmpty()) {
      Measured before = seen.analyzed().figures().starts().get(0).figures().get("voltage_before_V");
      volts = before == null ? List.of() : List.copyOf(before.phases().values());
    }
    return new AdviseAsset.Evidence(
        asset,
        data,
        trials.stream().map(AdviceRequest.Trial::observation).toList(),
        present(),
        volts,
        List.copyOf(leftOut));
  }

  private @Nullable StarterSettings present() {
    return trials.isEmpty() ? null : trials.get(trials.size() - 1).observation().settings();
  }

  void add(String shown, TrialReader.Read read) {
    TrialNotes notes = read.result().trial().notes();
    if (!notes.representative()) {
      leftOut.add(
          shown
              + ": marked not representative"
              + (notes.reason().isEmpty() ? "" : " (" + notes.reason() + ")"));
      return;
    }
    StarterSettings settings =
        MachineSheet.settings(read.result().trial().settings(), asset.asset());
    if (settings == null) {
      leftOut.add(
          shown
              + ": its settings were not noted; give control, current_limit_ratio, ramp_up_s, and"
              + " initial_torque_pct or initial_voltage_pct in settings.toml");
      return;
    }
    List<StartRecord> starts = read.analyzed().figures().starts();
    StartRecord start = starts.isEmpty() ? null : starts.get(0);
    Double inceptionS = start == null ? null : at(start.instants(), "inception_s");
    if (start == null || inceptionS == null) {
      leftOut.add(shown + ": the trace does not show where a start begins");
      return;
    }
    for (Finding finding : read.analyzed().figures().findings()) {
      if (FAULTS.contains(finding.code())) {
        leftOut.add(shown + ": shows a fault, not the machine: " + finding.text());
        return;
      }
    }
    try {
      trials.add(
          new AdviceRequest.Trial(
              observation(read, starts, start, inceptionS, settings),
              figures(start, Measured::value),
              figures(start, Measured::uncertainty),
              isCutBeforeFullVoltage(start, inceptionS, settings),
              corridorMargin(read)));
      used.add(shown);
      last = read;
    } catch (IllegalArgumentException e) {
      leftOut.add(shown + ": " + e.getMessage());
    }
  }

  private TrialObservation observation(
      TrialReader.Read read,
      List<StartRecord> starts,
      StartRecord start,
      double inceptionS,
      StarterSettings settings) {
    StopRecord stop = start.stop();
    Double releaseS = stop == null ? null : at(stop.instants(), "release_s");
    double[] t = read.analyzed().track().timeS();
    double endS = t[t.length - 1];
    if (starts.size() > 1) {
      Double next = at(starts.get(1).instants(), "inception_s");
      endS = next == null ? endS : next - 2;
    }
    return TrackObservation.of(
        read.analyzed().track(),
        new TrackObservation.Instants(
            inceptionS,
            // Cut at once, whatever was set: there is no order to look for before.
            wasCut(stop) && releaseS != null ? releaseS : Double.NaN,
            0,
            releaseS == null ? Double.NaN : releaseS,
            endS),
        settings,
        data,
        true,
        start.outcome() == Outcome.COMPLETED
            ? TrialObservation.End.COMPLETED
            : TrialObservation.End.FAILED);
  }

  private static boolean wasCut(@Nullable StopRecord stop) {
    return stop != null && stop.kind() == StopKind.COAST;
  }

  /**
   * Current that ceased at once before full voltage: before a voltage ramp was over, or, after so
   * long that the starter's own limit is likely, after a torque ramp though a soft stop was set
   * whose release torque a running machine takes. A torque ramp whose end the load passes is never
   * by-passed.
   */
  private static boolean isCutBeforeFullVoltage(
      StartRecord start, double inceptionS, StarterSettings settings) {
    StopRecord stop = start.stop();
    Double releaseS = stop == null ? null : at(stop.instants(), "release_s");
    if (!wasCut(stop) || releaseS == null) {
      return false;
    }
    double fedS = releaseS - inceptionS;
    return settings.control() == ControlMode.VOLTAGE_RAMP
        ? fedS < settings.pulseS() + settings.rampUpS()
        : settings.stop() == StopMode.SOFT
            && settings.releaseTorquePct() <= TAKEN_PCT
            && fedS >= OWN_LIMIT_S;
  }

  private static Map<String, Double> figures(
      StartRecord start, Function<Measured, @Nullable Double> number) {
    Map<String, Double> figures = new HashMap<>();
    put(figures, start.figures(), number);
    if (start.stop() != null) {
      put(figures, start.stop().figures(), number);
    }
    return figures;
  }

  /** The smallest margin over the corridors of the first start, as a share of the bound. */
  private static double corridorMargin(TrialReader.Read read) {
    double least = Double.POSITIVE_INFINITY;
    if (read.result().verdicts().isEmpty()) {
      return least;
    }
    for (CorridorCheck check : read.result().verdicts().get(0).corridors()) {
      Double pct = check.marginPct();
      boolean told = check.met() != null && pct != null;
      least = Math.min(least, told && pct != null ? pct / 100 : Double.NaN);
    }
    return least;
  }

  private static void put(
      Map<String, Double> into,
      Map<String, Measured> from,
      Function<Measured, @Nullable Double> number) {
    from.forEach(
        (key, figure) -> {
          Double value = number.apply(figure);
          if (value != null) {
            into.put(key, value);
          }
        });
  }

  private static @Nullable Double at(Map<String, Measured> instants, String key) {
    Measured instant = instants.get(key);
    return instant == null ? null : instant.value();
  }

  AdviceRequest request() throws UsageProblem {
    Asset sheet = asset.asset();
    List<FigureLimit> limits = new ArrayList<>();
    for (Limit limit : sheet.envelope().limits()) {
      limits.add(AdviceSheet.limit(limit, sheet));
    }
    if (sheet.envelope().isEmpty()) {
      throw new UsageProblem(
          asset.path()
              + ": has no [envelope] to advise on; add one, for example [envelope]"
              + " peak_current_ratio = { max = 3.5 }");
    }
    return new AdviceRequest(
        data,
        ranges(sheet.starter()),
        limits,
        sheet.envelope().corridors(),
        AdviceSheet.ratings(sheet),
        trials,
        null);
  }

  private static SettingRanges ranges(@Nullable Starter starter) {
    Map<Setting, rampwright.app.advice.SettingRange> given = new EnumMap<>(Setting.class);
    if (starter != null) {
      for (Setting setting : Setting.values()) {
        SettingRange range = starter.ranges().get(setting.key());
        if (range != null) {
          given.put(
              setting,
              new rampwright.app.advice.SettingRange(range.min(), range.max(), range.step()));
        }
      }
    }
    return new SettingRanges(given);
  }

  AdviseAsset.Advised answer(Advice advice) {
    StarterSettings present = present();
    return new AdviseAsset.Advised(
        asset,
        AdviceRules.applied(advice, present),
        present,
        List.copyOf(used),
        List.copyOf(leftOut),
        last);
  }
}
