package rampwright.app.ready;

import static rampwright.app.ready.ReadyLine.State.HOLD;
import static rampwright.app.ready.ReadyLine.State.LOOK;
import static rampwright.app.ready.ReadyLine.State.OK;
import static rampwright.app.ready.ReadyNumber.text;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.StarterSettings;
import rampwright.app.asset.Supply;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Limit;

/** Whether the settings can start the load, and what the start will be like. */
final class RunUpLines {
  private static final String MODEL =
      "motor model along the run-up (analysis/docs/machine.md), 96 draws";

  // Nine in ten machines the sheet leaves open must start; fewer than half is a no. Common
  // practice,
  // no source.
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
    lines.add(
        ReadyLine.of(
            "settings start the load",
            share >= SURE ? OK : share >= EVEN ? LOOK : HOLD,
            MODEL,
            text(
                "%s %% of the machines the sheet%s open reach full speed with limit %s x,"
                    + " ramp %s s%s",
                100 * share,
                question.trials() == 0 ? " leaves" : " and the trials leave",
                settings.currentLimitRatio(),
                settings.rampUpS(),
                share >= SURE ? "" : "; raise the current limit or find out what holds it")));
    double[] margin = run.range(RunUp::leastMargin);
    lines.add(
        ReadyLine.of(
            "torque margin",
            margin[0] >= MARGIN ? OK : margin[1] > 1e-6 ? LOOK : HOLD,
            MODEL + "; 10 % of rated torque in hand (common practice, no source)",
            text(
                "least margin over the load along the run-up %s %% of rated torque (5 %%: %s %%)",
                100 * margin[1], 100 * margin[0])));
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
                    : "; the supply's strength is a guess: give fault_level_MVA or transformer")));
  }

  /** A predicted figure against the envelope: outside at the median is a look, for a dip a hold. */
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
      boolean median = (max != null && range[1] > max) || (min != null && range[1] < min);
      boolean edge = (max != null && range[2] > max) || (min != null && range[0] < min);
      state = median ? (key == FigureKey.VOLTAGE_DIP ? HOLD : LOOK) : edge ? LOOK : OK;
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
