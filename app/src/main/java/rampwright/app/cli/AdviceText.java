package rampwright.app.cli;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.StarterSettings;
import rampwright.app.advice.Advice;
import rampwright.app.advice.SettingWords;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Limit;
import rampwright.app.usecase.AdviseAsset;
import rampwright.app.wording.ValueText;

/** Advice for people. */
final class AdviceText {
  private static final List<String> CAUTIONS =
      List.of(
          "A trial start moves the machine and heats the motor: people clear, guards on, and only by",
          "those who may. Wait for the motor's and the starter's own rest time; local codes and the",
          "makers' data come before this advice. Settings are entered by a person, never from here.");

  /** Figures worth seeing though nothing is asked of them. */
  private static final List<String> GLANCE =
      List.of("start_time_s", "peak_current_ratio", "voltage_dip_pct", "i2t_ratio_s");

  private AdviceText() {}

  static void advice(Screen screen, AdviseAsset.Advised advised) {
    Advice advice = advised.advice();
    screen.line(advised.asset().asset().name() + ": " + advice.status().key());
    screen.prose("  ", advice.reason());
    screen.line("");
    settings(screen, advice);
    why(screen, advice);
    predicted(screen, advised);
    binding(screen, advice);
    cautions(screen, advice);
    basis(screen, advised);
    screen.line("");
    CAUTIONS.forEach(screen::line);
  }

  static void prediction(Screen screen, AdviseAsset.Advised advised) {
    screen.line(advised.asset().asset().name() + ": what these settings would do");
    predicted(screen, advised);
    cautions(screen, advised.advice());
    basis(screen, advised);
  }

  private static void basis(Screen screen, AdviseAsset.Advised advised) {
    Advice.Model model = advised.advice().model();
    int used = advised.used().size();
    screen.line("");
    screen.line("This rests on");
    screen.line(
        model.basis().equals("nameplate")
            ? "  the nameplate and usual values alone"
            : String.format(
                Locale.ROOT,
                "  a model fitted to %d %s, residual %.2f (about 1 or less: it explains them)",
                used,
                used == 1 ? "trial" : "trials",
                model.residual()));
    if (!model.assumed().isEmpty() && !model.basis().equals("nameplate")) {
      screen.prose("  ", "found: " + ModelWords.found(model));
      screen.prose(
          "  ",
          "taken from plate and usual values, the trials do not tell: "
              + ModelWords.assumed(model));
    }
    advised.leftOut().forEach(one -> screen.line("  left out: " + one));
  }

  private static void settings(Screen screen, Advice advice) {
    StarterSettings s = advice.settings();
    screen.line(
        switch (advice.status()) {
          case KEEP -> "Keep the settings as they are";
          case CANNOT_MEET -> "Nearest settings (they do NOT meet every limit)";
          case NEED_ANOTHER_TRIAL -> "Set, to find out more (it may miss limits)";
          case CHANGE -> "Set on the starter";
        });
    TextTable table = new TextTable("  ", "lll", "setting", "to", "");
    for (String key : SettingWords.order(s)) {
      Advice.Change change = change(advice, key);
      table.row(
          SettingWords.label(key),
          SettingWords.value(s, key),
          change == null ? "" : "<- was " + change.from());
    }
    screen.table(table);
  }

  private static void why(Screen screen, Advice advice) {
    if (advice.changes().isEmpty()) {
      return;
    }
    screen.line("");
    screen.line("Why");
    for (Advice.Change change : advice.changes()) {
      screen.prose("  ", SettingWords.label(change.setting()) + ": " + change.why());
    }
  }

  private static void cautions(Screen screen, Advice advice) {
    if (advice.cautions().isEmpty()) {
      return;
    }
    screen.line("");
    screen.line("Mind");
    for (String caution : advice.cautions()) {
      screen.prose("  ", caution);
    }
  }

  private static Advice.@Nullable Change change(Advice advice, String key) {
    for (Advice.Change change : advice.changes()) {
      if (change.setting().equals(key)) {
        return change;
      }
    }
    return null;
  }

  /** Limited figures, and the few that tell a start at a glance; all of them are in the JSON. */
  private static void predicted(Screen screen, AdviseAsset.Advised advised) {
    Advice advice = advised.advice();
    screen.line("");
    screen.line("Then expect");
    TextTable table =
        new TextTable("  ", "lrrrlll", "figure", "middle", "from", "to", "unit", "asked", "");
    for (Map.Entry<String, Advice.Range> one : advice.predicted().entrySet()) {
      Limit limit = advised.limit(one.getKey());
      Advice.Range range = one.getValue();
      double spread = range.spread();
      if (limit != null || GLANCE.contains(one.getKey())) {
        table.row(
            FigureKey.labelOf(one.getKey()),
            ValueText.value(range.median(), spread),
            ValueText.value(range.low(), spread),
            ValueText.value(range.high(), spread),
            FigureKey.ofKey(one.getKey()).map(FigureKey::unit).orElse(""),
            limit == null ? "" : limitText(limit),
            limit == null ? "" : mark(limit, range));
      }
    }
    screen.table(table);
    screen.line("  (nine trials in ten lie between from and to; all figures: --json)");
    advised
        .otherDip()
        .ifPresent(
            dip ->
                screen.prose(
                    "  ",
                    String.format(
                        Locale.ROOT,
                        !dip.atStarter()
                            ? "Of the dip at the starter the busbar before its cable sees %.0f %%: %s %%"
                                + " (%s to %s), if the sheet's supply and cable are right."
                            : "The dip is that of the busbar, where voltage is measured; it is %.0f %% of"
                                + " the one at the starter behind the cable: %s %% (%s to %s), if the"
                                + " sheet's cable is right.",
                        100 * dip.share(),
                        number(dip.pct().median()),
                        number(dip.pct().low()),
                        number(dip.pct().high()))));
    Double chance = advice.chanceAllMet();
    if (chance != null) {
      screen.line(
          String.format(
              Locale.ROOT,
              "  Chance that one trial meets everything asked: %.0f %%",
              100 * chance));
    }
    if (!advice.notAssessable().isEmpty()) {
      screen.prose("  ", "Not in that chance: " + String.join("; ", advice.notAssessable()));
    }
  }

  private static String mark(Limit limit, Advice.Range range) {
    if (!limit.allows(range.median())) {
      return "MISSED";
    }
    return limit.allows(range.low()) && limit.allows(range.high()) ? "met" : "may miss";
  }

  private static String limitText(Limit limit) {
    Double min = limit.min();
    Double max = limit.max();
    if (min != null && max != null) {
      return number(min) + " to " + number(max);
    }
    return max != null ? "at most " + number(max) : "at least " + number(min == null ? 0 : min);
  }

  private static String number(double value) {
    double size = Math.abs(value);
    return String.format(Locale.ROOT, size >= 100 ? "%.0f" : size >= 10 ? "%.1f" : "%.2f", value);
  }

  private static void binding(Screen screen, Advice advice) {
    if (advice.binding().isEmpty()) {
      return;
    }
    screen.line("");
    screen.line("What stands in the way");
    for (Advice.Binding one : advice.binding()) {
      screen.line("  " + one.limit());
      screen.prose("    ", one.evidence());
    }
  }
}
