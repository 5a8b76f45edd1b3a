package rampwright.app.cli;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.app.advice.Advice;
import rampwright.app.advice.Setting;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Limit;
import rampwright.app.usecase.AdviseAsset;

/** Advice for people. */
final class AdviceText {
  private static final List<String> CAUTIONS =
      List.of(
          "A trial start moves the machine and heats the motor: people clear, guards on, and only by",
          "those who may. Wait for the motor's and the starter's own rest time; local codes and the",
          "makers' data come before this advice. Settings are entered by a person, never from here.");

  private static final int LINE = 88;

  private AdviceText() {}

  static void advice(Screen screen, AdviseAsset.Advised advised) {
    Advice advice = advised.advice();
    screen.line(advised.asset().asset().name() + ": " + advice.status().key());
    screen.prose("  ", advice.reason());
    basis(screen, advised);
    screen.line("");
    settings(screen, advice);
    predicted(screen, advised);
    binding(screen, advice);
    screen.line("");
    CAUTIONS.forEach(screen::line);
  }

  static void prediction(Screen screen, AdviseAsset.Advised advised) {
    screen.line(advised.asset().asset().name() + ": what these settings would do");
    basis(screen, advised);
    screen.line("");
    predicted(screen, advised);
  }

  private static void basis(Screen screen, AdviseAsset.Advised advised) {
    Advice.Model model = advised.advice().model();
    int used = advised.used().size();
    screen.line(
        model.basis().equals("nameplate")
            ? "  rests on the nameplate and usual values alone"
            : String.format(
                Locale.ROOT,
                "  rests on a model fitted to %d %s, residual %.2f (about 1 or less: it explains them)",
                used,
                used == 1 ? "trial" : "trials",
                model.residual()));
    if (!model.assumed().isEmpty() && !model.basis().equals("nameplate")) {
      screen.prose("  ", "the trials tell nothing about: " + String.join(", ", model.assumed()));
    }
    advised.leftOut().forEach(one -> screen.prose("  ", "left out: " + one));
  }

  private static void settings(Screen screen, Advice advice) {
    StarterSettings s = advice.settings();
    if (advice.status() == Advice.Status.KEEP) {
      screen.line("Keep the settings as they are.");
    } else {
      screen.line(
          advice.status() == Advice.Status.CANNOT_MEET
              ? "Nearest settings (they do NOT meet every limit)"
              : "Set");
    }
    TextTable table = new TextTable("  ", "lllw", "setting", "to", "from", "why");
    for (String key : order(s)) {
      Advice.Change change = change(advice, key);
      table.row(
          label(key),
          value(s, key),
          change == null ? "" : change.from(),
          change == null ? "" : change.why());
    }
    screen.table(table);
  }

  /** What counts for the chosen control and stop, in the order of the file. */
  private static List<String> order(StarterSettings s) {
    boolean torque = s.control() == ControlMode.TORQUE_RAMP;
    java.util.ArrayList<String> keys =
        new java.util.ArrayList<>(
            List.of(
                "control",
                Setting.CURRENT_LIMIT.key(),
                Setting.RAMP_UP.key(),
                torque ? Setting.INITIAL_TORQUE.key() : Setting.INITIAL_VOLTAGE.key()));
    if (s.hasPulse()) {
      keys.add(Setting.PULSE_VOLTAGE.key());
      keys.add(Setting.PULSE.key());
    }
    keys.add("stop");
    if (s.stop() == StopMode.SOFT) {
      keys.add(Setting.RAMP_DOWN.key());
      keys.add(Setting.RELEASE_TORQUE.key());
    }
    return keys;
  }

  private static Advice.@Nullable Change change(Advice advice, String key) {
    for (Advice.Change change : advice.changes()) {
      if (change.setting().equals(key)) {
        return change;
      }
    }
    return null;
  }

  private static String value(StarterSettings s, String key) {
    if (key.equals("control")) {
      return s.control() == ControlMode.TORQUE_RAMP ? "torque ramp" : "voltage ramp";
    }
    if (key.equals("stop")) {
      return s.stop() == StopMode.SOFT ? "soft" : "coast";
    }
    for (Setting setting : Setting.values()) {
      if (setting.key().equals(key)) {
        return setting.show(setting.of(s));
      }
    }
    return "";
  }

  private static String label(String key) {
    return switch (key) {
      case "current_limit_ratio" -> "current limit";
      case "ramp_up_s" -> "ramp-up time";
      case "initial_torque_pct" -> "initial torque";
      case "initial_voltage_pct" -> "initial voltage";
      case "pulse_voltage_pct" -> "pulse voltage";
      case "pulse_s" -> "pulse time";
      case "release_torque_pct" -> "release torque";
      case "ramp_down_s" -> "ramp-down time";
      default -> key;
    };
  }

  private static void predicted(Screen screen, AdviseAsset.Advised advised) {
    Advice advice = advised.advice();
    screen.line("");
    screen.line("Then expect (median, and where 9 of 10 trials will lie)");
    TextTable table =
        new TextTable("  ", "lrrrll", "figure", "median", "5 %", "95 %", "unit", "limit");
    for (Map.Entry<String, Advice.Range> one : advice.predicted().entrySet()) {
      Limit limit = limit(advised, one.getKey());
      Advice.Range range = one.getValue();
      // The 5 % and 95 % points of a normal spread lie 1.645 standard deviations out.
      double spread = (range.high() - range.low()) / (2 * 1.645);
      boolean nothing = range.median() == 0 && Math.abs(range.high()) < 0.05;
      if (limit != null || (FigureKey.ofKey(one.getKey()).isPresent() && !nothing)) {
        table.row(
            FigureKey.labelOf(one.getKey()),
            ValueText.value(range.median(), spread),
            ValueText.value(range.low(), spread),
            ValueText.value(range.high(), spread),
            FigureKey.ofKey(one.getKey()).map(FigureKey::unit).orElse(""),
            limit == null ? "" : limitText(limit));
      }
    }
    screen.table(table);
    Double chance = advice.chanceAllMet();
    if (chance != null) {
      screen.line(
          String.format(
              Locale.ROOT, "  chance that one trial meets every limit: %.0f %%", 100 * chance));
    }
    if (!advice.notAssessable().isEmpty()) {
      screen.line("  the model cannot tell: " + String.join(", ", advice.notAssessable()));
    }
  }

  private static @Nullable Limit limit(AdviseAsset.Advised advised, String key) {
    for (Limit limit : advised.asset().asset().envelope().limits()) {
      if (limit.figure().key().equals(key)) {
        return limit;
      }
    }
    return null;
  }

  private static String limitText(Limit limit) {
    Double min = limit.min();
    Double max = limit.max();
    if (min != null && max != null) {
      return ValueText.value(min, null) + " to " + ValueText.value(max, null);
    }
    return max != null
        ? "at most " + ValueText.value(max, null)
        : "at least " + ValueText.value(min == null ? 0 : min, null);
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
      wrapped(one.evidence()).forEach(line -> screen.line("    " + line));
    }
  }

  /** Lines short enough to be read on a terminal. */
  private static List<String> wrapped(String text) {
    List<String> lines = new java.util.ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ", -1)) {
      if (line.length() > 0 && line.length() + 1 + word.length() > LINE) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.length() > 0 ? " " : "").append(word);
    }
    lines.add(line.toString());
    return lines;
  }
}
