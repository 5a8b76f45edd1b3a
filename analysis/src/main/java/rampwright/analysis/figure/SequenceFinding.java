package rampwright.analysis.figure;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.ThreeWirePower;

/** Voltages and currents of a waveform whose phase orders do not belong together. */
final class SequenceFinding {
  private static final double MOSTLY = 2;

  private SequenceFinding() {}

  static @Nullable Finding of(Readings r, Segment segment) {
    Flow flow = segment.flow();
    double middleS = (flow.fromS() + flow.toS()) / 2;
    CycleSeries cycles = CycleSeries.over(r, middleS - 6 * r.stepS, middleS + 6 * r.stepS);
    if (cycles == null || cycles.power().isEmpty()) {
      return null;
    }
    ThreeWirePower p = cycles.power().get(cycles.power().size() / 2);
    double vPlus = p.voltage().positive().norm();
    double vMinus = p.voltage().negative().norm();
    double iPlus = p.current().positive().norm();
    double iMinus = p.current().negative().norm();
    boolean opposite =
        (vPlus > MOSTLY * vMinus && iMinus > MOSTLY * iPlus)
            || (vMinus > MOSTLY * vPlus && iPlus > MOSTLY * iMinus);
    double activeW = p.activePowerW();
    boolean backwards = activeW < -0.1 * p.apparentPowerVA();
    if (!opposite && !backwards) {
      return null;
    }
    return new Finding(
        "swapped-channels",
        flow.fromS(),
        flow.toS(),
        activeW,
        opposite
            ? "voltages and currents turn in opposite phase order: two channels of one kind are swapped"
            : Findings.text(
                "the motor seems to feed %.3g kW back while it starts: a current transducer is the wrong"
                    + " way round, or channels are shifted by a phase",
                -activeW / 1000));
  }
}
