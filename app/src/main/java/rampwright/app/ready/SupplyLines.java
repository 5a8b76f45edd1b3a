package rampwright.app.ready;

import static rampwright.app.ready.ReadyLine.State.HOLD;
import static rampwright.app.ready.ReadyLine.State.LOOK;
import static rampwright.app.ready.ReadyLine.State.OK;
import static rampwright.app.ready.ReadyNumber.text;

import java.util.List;
import rampwright.analysis.machine.UnbalanceDerating;
import rampwright.analysis.signal.Unbalance;
import rampwright.app.asset.Asset;
import rampwright.app.asset.Supply;

/** Whether the supply suits the motor. */
final class SupplyLines {
  private SupplyLines() {}

  static void add(Asset asset, List<Double> lineVoltages, List<ReadyLine> lines) {
    Supply supply = asset.supply();
    String zone = "IEC 60034-1, zones A (5 %) and B (10 %) of voltage, from memory";
    if (supply == null) {
      lines.add(
          ReadyLine.of(
              "supply voltage",
              LOOK,
              zone,
              "no [supply] on the sheet: rated voltage and a usual strength are taken; give voltage_V"
                  + " and fault_level_MVA"));
    } else {
      double off = supply.voltageV() / asset.motor().ratedVoltageV() - 1;
      double size = Math.abs(off);
      lines.add(
          ReadyLine.of(
              "supply voltage",
              size <= 0.05 ? OK : size <= 0.10 ? LOOK : HOLD,
              zone,
              text(
                  "%s V on a motor of %s V: %s %% off; torque goes with the square, %s %% of its own",
                  supply.voltageV(),
                  asset.motor().ratedVoltageV(),
                  100 * off,
                  100 * (1 + off) * (1 + off))));
    }
    if (lineVoltages.size() == 3) {
      double pct =
          100
              * Unbalance.maxDeviationShare(
                  lineVoltages.get(0), lineVoltages.get(1), lineVoltages.get(2));
      double left = UnbalanceDerating.factor(pct);
      lines.add(
          ReadyLine.of(
              "voltage unbalance",
              pct <= 1 ? OK : pct <= UnbalanceDerating.LARGEST_PCT ? LOOK : HOLD,
              "NEMA MG 1, 14.36: full rating to 1 %, none above 5 % (from memory)",
              text(
                  "%s %% before the last trial's start: %s %% of the rating is left, the hottest phase"
                      + " warms by %s %%",
                  pct, 100 * left, UnbalanceDerating.furtherRisePct(pct))));
    }
  }
}
