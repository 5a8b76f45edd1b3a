package rampwright.analysis.figure;

import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.DipTiming;

/** How long the supply was below 90 % of its declared voltage during a start. */
final class DipDuration {
  private DipDuration() {}

  static Measured of(Readings r, double fromS, double toS) {
    Double declared = r.motor.supplyVoltageV();
    if (r.lines.isEmpty()) {
      return Measured.missing("s", "no voltage channel");
    }
    if (declared == null || !(declared > 0)) {
      return Measured.missing("s", "needs the declared supply voltage");
    }
    DipTiming.Dip longest = null;
    for (DipTiming.Dip dip : DipTiming.usual(declared).find(r.track, r.lines)) {
      boolean within = dip.startS() <= toS && dip.endS() >= fromS;
      if (within && (longest == null || dip.durationS() > longest.durationS())) {
        longest = dip;
      }
    }
    if (longest == null) {
      return Measured.of(
          0,
          "s",
          Accuracy.ofWidth(2 * r.stepS),
          fromS,
          toS,
          "no voltage falls below 90 % of declared");
    }
    if (longest.startS() <= r.t[0]) {
      return Measured.missing(
          "s", "no live voltage before the start: measured at the motor's terminals");
    }
    if (!longest.ended()) {
      return Measured.missing(
          "s", "the voltage is still below 92 % of declared where the record ends");
    }
    return Measured.of(
        longest.durationS(),
        "s",
        Accuracy.ofWidth(2 * r.stepS) * Math.sqrt(2),
        longest.startS(),
        longest.endS(),
        "longest stretch from any voltage below 90 % of declared until all are at 92 %");
  }
}
