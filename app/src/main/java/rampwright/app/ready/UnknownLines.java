package rampwright.app.ready;

import static rampwright.app.ready.ReadyLine.State.LOOK;
import static rampwright.app.ready.ReadyLine.State.OK;
import static rampwright.app.ready.ReadyNumber.text;

import java.util.List;
import java.util.function.ToDoubleFunction;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.app.asset.Asset;
import rampwright.app.asset.Load;
import rampwright.app.asset.Supply;

/** What the sheet leaves open, and how much of what is predicted hangs on it. */
final class UnknownLines {
  /** A figure whose 5 to 95 % range is below this share of its median is known well enough. */
  private static final double NARROW = 0.3;

  /** Below this share of the spread a gap hardly matters. */
  private static final double MATTERS = 0.15;

  private static final String RULE =
      "squared correlation of logarithms over the model's draws" + " (app/docs/ready.md)";

  private UnknownLines() {}

  static void add(Asset asset, RunUp run, List<ReadyLine> lines) {
    Load load = asset.load();
    Supply supply = asset.supply();
    if (load == null || load.inertiaKgM2() == null) {
      add(
          run,
          lines,
          "load inertia",
          "[load] inertia_kgm2",
          RunFigure.START_TIME,
          "start time",
          MachineModel::inertiaKgM2);
    }
    if (load == null || load.powerKw() == null) {
      add(
          run,
          lines,
          "load power",
          "[load] power_kW",
          RunFigure.START_TIME,
          "start time",
          m -> m.load().fullTorque());
    }
    if (load == null || load.breakawayTorquePct() == null) {
      add(
          run,
          lines,
          "breakaway torque",
          "[load] breakaway_torque_pct",
          RunFigure.BREAKAWAY_DELAY,
          "breakaway",
          m -> m.load().holding());
    }
    if (supply == null || (supply.faultLevelMva() == null && supply.transformerKva() == null)) {
      add(
          run,
          lines,
          "supply strength",
          "[supply] fault_level_MVA",
          RunFigure.VOLTAGE_DIP,
          "dip",
          m -> Math.hypot(m.supply().resistanceOhm(), m.supply().reactanceOhm()));
    }
    if (asset.motor().lockedRotorTorqueRatio() == null) {
      add(
          run,
          lines,
          "locked-rotor torque",
          "[motor] locked_rotor_torque_ratio",
          RunFigure.START_TIME,
          "start time",
          m -> m.motor().torque(1));
    }
    if (asset.motor().lockedRotorCurrentRatio() == null) {
      add(
          run,
          lines,
          "locked-rotor current",
          "[motor] locked_rotor_current_ratio",
          RunFigure.START_TIME,
          "start time",
          m -> m.motor().admittance(1));
    }
  }

  private static void add(
      RunUp run,
      List<ReadyLine> lines,
      String what,
      String key,
      RunFigure figure,
      String label,
      ToDoubleFunction<MachineModel> parameter) {
    double share = run.shareOfSpread(figure, parameter);
    double[] range = run.range(figure);
    if (!Double.isFinite(share) || !Double.isFinite(range[1])) {
      return;
    }
    double[] value = run.range(draw -> parameter.applyAsDouble(draw.model()));
    boolean narrow = range[2] - range[0] <= NARROW * Math.abs(range[1]);
    boolean matters = share >= MATTERS && !narrow;
    lines.add(
        ReadyLine.of(
            "unknown: " + what,
            matters ? LOOK : OK,
            RULE,
            text(
                "%s not given; it makes %s %% of the spread of the %s (%s to %s), taken %s to %s%s",
                key,
                100 * share,
                label,
                range[0],
                range[2],
                value[0],
                value[2],
                matters ? "; worth finding out" : "; hardly matters")));
  }
}
