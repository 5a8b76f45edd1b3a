package rampwright.app.ready;

import static rampwright.app.ready.ReadyLine.State.HOLD;
import static rampwright.app.ready.ReadyLine.State.LOOK;
import static rampwright.app.ready.ReadyLine.State.OK;
import static rampwright.app.ready.ReadyNumber.text;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.StarterSettings;
import rampwright.app.advice.Advice;
import rampwright.app.advice.OtherDip;
import rampwright.app.asset.Asset;
import rampwright.app.asset.MachineSheet;
import rampwright.app.asset.Supply;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Limit;

/** Whether the settings can start the load, and what the start will be like. */
final class RunUpLines {
  private static final String MODEL =
      "motor model along the run-up (analysis/docs/machine.md), 96 draws";

  // Nineteen in twenty of the machines left open must start for an ok. Common practice, no source.
  private static final double SURE = 0.95;
  private static final double EVEN = 0.5;

  // A tenth of rated torque in hand for a cold, stiff, low-voltage day. Common practice, no source.
  private static final double MARGIN = 0.10;

  // Lights, relays and contactors nearby. Common practice, no source.
  private static final double DIP_PCT = 10;

  private RunUpLines() {}

  static void add(
      Readiness.Question question, StarterSettings settings, RunUp run, List<ReadyLine> lines) {
    double share = run.completedShare();
    boolean held = share < question.doubt();
    lines.add(
        ReadyLine.of(
            "settings start the load",
            share >= SURE ? OK : held ? HOLD : LOOK,
            MODEL + "; " + holdRule(question),
            text(
                "%s of 100 machines that fit the sheet%s come to full speed with limit %s x and ramp"
                    + " %s s%s",
                Math.rint(100 * share),
                question.trials() == 0 ? "" : " and the trials",
                settings.currentLimitRatio(),
                settings.rampUpS(),
                share >= SURE
                    ? ""
                    : held
                        ? ": it is all but sure to hang; raise the current limit, or find out what holds the load"
                        : (share < EVEN ? ": it is likelier to hang than not" : ": it may hang")
                            + "; a higher current limit makes it surer, what is unknown below tells"
                            + " more; be ready to stop it")));
    double[] margin = run.range(RunUp::leastMargin);
    lines.add(
        ReadyLine.of(
            "torque margin",
            margin[0] >= MARGIN ? OK : held ? HOLD : LOOK,
            MODEL + "; 10 % of rated torque in hand (common practice, no source)",
            text(
                "least torque over the load along the run-up: %s %% of rated torque, %s %% at the"
                    + " unlucky end (5 %%)%s",
                100 * margin[1],
                100 * margin[0],
                held || margin[0] >= 0
                    ? ""
                    : share >= SURE
                        ? "; below zero it slows for a moment and comes through by its swing"
                        : "; below zero it hangs, or slows and comes through by its swing")));
    if (share == 0) {
      return;
    }
    double[] breakaway = run.range(RunFigure.BREAKAWAY_DELAY);
    double[] time = run.range(RunFigure.START_TIME);
    boolean late = breakaway[1] > 0.5 && breakaway[1] > 0.15 * time[1];
    lines.add(
        ReadyLine.of(
            "breakaway",
            late ? LOOK : OK,
            MODEL + "; late above 0.5 s and 15 % of the start",
            text(
                "the shaft turns after %s s (%s to %s)%s",
                breakaway[1],
                breakaway[0],
                breakaway[2],
                late ? "; until then it only heats: raise the initial torque or voltage" : "")));
    lines.add(figure(question, "start time", FigureKey.START_TIME, time, "s", MODEL));
    lines.add(
        figure(
            question,
            "peak current",
            FigureKey.PEAK_CURRENT_RATIO,
            run.range(RunFigure.PEAK_CURRENT),
            "x rated",
            MODEL + ", one-cycle RMS"));
    dip(question, run, lines);
  }

  private static String holdRule(Readiness.Question question) {
    return question.trials() == 0
        ? "before the first trial a hold needs 95 % of the draws to fail"
        : "after a trial a hold needs half of the draws to fail";
  }

  private static void dip(Readiness.Question question, RunUp run, List<ReadyLine> lines) {
    Supply supply = question.asset().asset().supply();
    double[] dip = run.range(RunFigure.VOLTAGE_DIP);
    boolean known =
        supply != null && (supply.faultLevelMva() != null || supply.transformerKva() != null);
    ReadyLine line =
        figure(
            question,
            "voltage dip",
            FigureKey.VOLTAGE_DIP,
            dip,
            "%",
            "V = |Zm / (Zm + Zs)| along the run-up; 10 % where the envelope is silent (common practice,"
                + " no source)");
    boolean asked = limit(question, FigureKey.VOLTAGE_DIP) != null;
    ReadyLine.State state = known && (asked || dip[2] <= DIP_PCT) ? line.state() : LOOK;
    lines.add(
        ReadyLine.of(
            line.check(),
            state,
            line.source(),
            line.text()
                + (known
                    ? ""
                    : "; the supply's strength is a guess: give fault_level_MVA or transformer")
                + otherDip(question.asset().asset(), run, dip)));
  }

  private static String otherDip(Asset asset, RunUp run, double[] dip) {
    Advice.Range measured = range(dip);
    boolean atBusbar = MachineSheet.measuresAtBusbar(asset);
    Optional<OtherDip> other =
        atBusbar
            ? OtherDip.atStarter(measured, range(run.range(d -> d.figures().starterDipPct())))
            : OtherDip.atBusbar(measured, MachineSheet.path(asset));
    return other
        .map(
            seen ->
                text(
                    atBusbar
                        ? "; that is at the busbar, where voltage is measured: the starter behind the cable sees"
                            + " %s %% (%s to %s)"
                        : "; the busbar before the cable sees %s %% (%s to %s)",
                    seen.pct().median(),
                    seen.pct().low(),
                    seen.pct().high()))
        .orElse("");
  }

  private static Advice.Range range(double[] lowMiddleHigh) {
    return new Advice.Range(lowMiddleHigh[1], lowMiddleHigh[0], lowMiddleHigh[2]);
  }

  /** A predicted figure against the envelope: outside is a look, for a dip that is sure a hold. */
  private static ReadyLine figure(
      Readiness.Question question,
      String check,
      FigureKey key,
      double[] range,
      String unit,
      String source) {
    Limit limit = limit(question, key);
    String asked = "";
    ReadyLine.State state = OK;
    if (limit != null) {
      Double min = limit.min();
      Double max = limit.max();
      boolean sure = max != null && range[question.trials() == 0 ? 0 : 1] > max;
      boolean edge = (max != null && range[2] > max) || (min != null && range[0] < min);
      state = key == FigureKey.VOLTAGE_DIP && sure ? HOLD : edge ? LOOK : OK;
      asked =
          text(
              "; the envelope asks for %s%s%s",
              min == null ? "" : "at least " + ReadyNumber.plain(min),
              min != null && max != null ? ", " : "",
              max == null ? "" : "at most " + ReadyNumber.plain(max));
    }
    return ReadyLine.of(
        check,
        state,
        source,
        text("%s %s (%s to %s)%s", range[1], unit, range[0], range[2], asked));
  }

  private static @Nullable Limit limit(Readiness.Question question, FigureKey key) {
    for (Limit limit : question.asset().asset().envelope().limits()) {
      if (limit.figure() == key) {
        return limit;
      }
    }
    return null;
  }
}
