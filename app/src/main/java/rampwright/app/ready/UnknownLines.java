package rampwright.app.ready;

import static rampwright.app.ready.ReadyLine.State.LOOK;
import static rampwright.app.ready.ReadyLine.State.OK;
import static rampwright.app.ready.ReadyNumber.text;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.RunFigure;
import rampwright.app.asset.Asset;
import rampwright.app.asset.Load;
import rampwright.app.asset.Motor;
import rampwright.app.asset.Supply;

/** What the sheet leaves open, and how much of what is predicted hangs on it. */
final class UnknownLines {
  /** A figure whose 5 to 95 % range is below this share of its median is known well enough. */
  private static final double NARROW = 0.3;

  /** Below this share of the spread a gap hardly matters. */
  private static final double MATTERS = 0.15;

  /** With fewer than this share of the draws on one side, what decides cannot be told. */
  private static final double SETTLED = 0.05;

  private static final String RULE =
      "squared correlation of logarithms over the model's draws" + " (app/docs/ready.md)";

  private UnknownLines() {}

  /**
   * A gap of the sheet.
   *
   * @param what it is called
   * @param key where it belongs
   * @param figure what hangs on it most
   * @param label of that figure
   * @param in unit of that figure
   * @param value what was taken for it, in the unit the key has
   * @param unit that unit
   */
  private record Gap(
      String what,
      String key,
      RunFigure figure,
      String label,
      String in,
      ToDoubleFunction<MachineModel> value,
      String unit) {}

  static void add(Asset asset, RunUp run, List<ReadyLine> lines) {
    for (Gap gap : gaps(asset)) {
      add(run, lines, gap);
    }
  }

  private static List<Gap> gaps(Asset asset) {
    Load load = asset.load();
    Supply supply = asset.supply();
    Motor motor = asset.motor();
    List<Gap> gaps = new ArrayList<>();
    String time = "start time";
    if (load == null || load.inertiaKgM2() == null) {
      gaps.add(
          new Gap(
              "load inertia",
              "[load] inertia_kgm2",
              RunFigure.START_TIME,
              time,
              "s",
              MachineModel::inertiaKgM2,
              "kg m2, the motor's included"));
    }
    if (load == null || load.powerKw() == null) {
      gaps.add(
          new Gap(
              "load power",
              "[load] power_kW",
              RunFigure.START_TIME,
              time,
              "s",
              m -> motor.ratedPowerKw() * m.load().fullTorque(),
              "kW"));
    }
    if (load == null || load.breakawayTorquePct() == null) {
      gaps.add(
          new Gap(
              "breakaway torque",
              "[load] breakaway_torque_pct",
              RunFigure.BREAKAWAY_DELAY,
              "breakaway",
              "s",
              m -> 100 * m.load().holding(),
              "% of rated torque"));
    }
    if (supply == null || (supply.faultLevelMva() == null && supply.transformerKva() == null)) {
      double volts = supply == null ? motor.ratedVoltageV() : supply.voltageV();
      gaps.add(
          new Gap(
              "supply strength",
              "[supply] fault_level_MVA",
              RunFigure.VOLTAGE_DIP,
              "dip",
              "%",
              m ->
                  volts
                      * volts
                      / 1e6
                      / Math.hypot(
                          m.supply().resistanceOhm() - m.cable().resistanceOhm(),
                          m.supply().reactanceOhm() - m.cable().reactanceOhm()),
              "MVA"));
    }
    if (motor.lockedRotorTorqueRatio() == null) {
      gaps.add(
          new Gap(
              "locked-rotor torque",
              "[motor] locked_rotor_torque_ratio",
              RunFigure.START_TIME,
              time,
              "s",
              m -> m.motor().torque(1),
              "x rated"));
    }
    if (motor.lockedRotorCurrentRatio() == null) {
      gaps.add(
          new Gap(
              "locked-rotor current",
              "[motor] locked_rotor_current_ratio",
              RunFigure.START_TIME,
              time,
              "s",
              m -> m.motor().admittance(1),
              "x rated"));
    }
    return gaps;
  }

  private static void add(RunUp run, List<ReadyLine> lines, Gap gap) {
    double share = run.shareOfSpread(gap.figure(), gap.value());
    double outcome = run.shareOfOutcome(gap.value());
    double[] range = run.range(gap.figure());
    boolean told = Double.isFinite(share) && Double.isFinite(range[1]);
    boolean open = run.completedShare() > SETTLED && run.completedShare() < 1 - SETTLED;
    if (!told && !open) {
      return;
    }
    double[] value = run.range(draw -> gap.value().applyAsDouble(draw.model()));
    boolean narrow = range[2] - range[0] <= NARROW * Math.abs(range[1]);
    boolean spreads = told && share >= MATTERS && !narrow;
    boolean decides = open && outcome >= MATTERS;
    StringBuilder says = new StringBuilder();
    says.append(
        text("%s not given, taken as %s to %s %s", gap.key(), value[0], value[2], gap.unit()));
    if (told) {
      says.append(
          text(
              "; %s %% of the spread of the %s (%s to %s %s) comes of it",
              Math.rint(100 * share), gap.label(), range[0], range[2], gap.in()));
    }
    if (open) {
      says.append(text("; %s %% of whether it starts at all", Math.rint(100 * outcome)));
    }
    says.append(spreads || decides ? ": worth finding out" : ": hardly matters");
    lines.add(
        ReadyLine.of(
            "unknown: " + gap.what(), spreads || decides ? LOOK : OK, RULE, says.toString()));
  }
}
