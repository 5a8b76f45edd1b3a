package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.analysis.machine.RunFigures;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;

/**
 * Why each setting is changed, in plain words: what would happen with the rest changed and this one
 * left, by the most likely model.
 */
final class Reasons {
  private final AdviceRequest request;
  private final Chances chances;
  private final MachineModel model;
  private final StarterSettings from;
  private final StarterSettings to;

  Reasons(
      AdviceRequest request,
      Chances chances,
      MachineModel model,
      StarterSettings from,
      StarterSettings to) {
    this.request = request;
    this.chances = chances;
    this.model = model;
    this.from = from;
    this.to = to;
  }

  List<Advice.Change> list() {
    List<Advice.Change> out = new ArrayList<>();
    RunFigures all = figures(to);
    if (from.control() != to.control()) {
      out.add(
          new Advice.Change(
              "control",
              from.control().key(),
              to.control().key(),
              "the " + to.control().key() + " keeps the limits with more room"));
    }
    if (from.stop() != to.stop()) {
      out.add(
          new Advice.Change(
              "stop",
              from.stop().key(),
              to.stop().key(),
              to.stop() == StopMode.SOFT
                  ? "the limits on the stop need a led stop"
                  : "the limits on the stop are kept without leading it"));
    }
    for (Setting setting : Setting.values()) {
      double before = setting.of(from);
      double after = setting.of(to);
      if (before != after && matters(setting)) {
        out.add(
            new Advice.Change(
                setting.key(), setting.show(before), setting.show(after), why(setting, all)));
      }
    }
    return out;
  }

  /** Settings the chosen control ignores are not told as changes. */
  private boolean matters(Setting setting) {
    boolean torque = to.control() == ControlMode.TORQUE_RAMP;
    return switch (setting) {
      case INITIAL_TORQUE -> torque;
      case INITIAL_VOLTAGE -> !torque;
      case RELEASE_TORQUE, RAMP_DOWN -> to.stop() == StopMode.SOFT;
      default -> true;
    };
  }

  private RunFigures figures(StarterSettings settings) {
    return chances.figures(chances.whole(model, settings), model);
  }

  private String why(Setting setting, RunFigures all) {
    RunFigures left = figures(setting.in(to, setting.of(from)));
    @Nullable FigureLimit worst = null;
    double loss = 0.004;
    for (FigureLimit limit : request.limits()) {
      RunFigure figure = limit.figure();
      if (figure == null) {
        continue;
      }
      double now = limit.margin(all.of(figure));
      double without = limit.margin(left.of(figure));
      if (Double.isNaN(now)) {
        continue;
      }
      // A failed start has no start time: that weighs more than any margin.
      double lost = Double.isNaN(without) ? 10 : Math.min(now, 0.3) - without;
      if (lost > loss) {
        loss = lost;
        worst = limit;
      }
    }
    RunFigure figure = worst == null ? null : worst.figure();
    if (worst == null || figure == null) {
      return "follows the other changes; alone it moves no limit by much";
    }
    double without = left.of(figure);
    if (Double.isNaN(without)) {
      return String.format(
          Locale.ROOT,
          "left at %s the start would not reach full speed",
          setting.show(setting.of(from)));
    }
    return String.format(
        Locale.ROOT,
        "left at %s, %s would be %.3g; with it %.3g (%s)",
        setting.show(setting.of(from)),
        figure.key(),
        without,
        all.of(figure),
        worst.show());
  }
}
