package rampwright.analysis.figure;

import rampwright.analysis.quantity.Measured;

/**
 * How long the supply was below 90 % of its declared voltage during a start: polyphase, from any
 * voltage below 90 % until all are at 92 % (threshold and hysteresis of IEC 61000-4-30, from memory
 * of edition 3, 5.4).
 */
final class DipDuration {
  private static final double THRESHOLD = 0.90;
  private static final double RELEASE = 0.92;
  private static final double BEFORE_S = 0.2;

  private DipDuration() {}

  static Measured of(Readings r, double fromS, double toS) {
    Double declared = r.motor.supplyVoltageV();
    if (r.lines.isEmpty()) {
      return Measured.missing("s", "no voltage channel");
    }
    if (declared == null) {
      return Measured.missing("s", "needs the declared supply voltage");
    }
    int from = r.firstAtOrAfter(fromS - BEFORE_S);
    double beganS = Double.NaN;
    double longest = 0;
    double atFromS = fromS;
    double atToS = toS;
    for (int k = from; k < r.t.length && (r.t[k] <= toS || !Double.isNaN(beganS)); k++) {
      double lowest = Double.NaN;
      for (double[] line : r.voltageForExtremes) {
        if (!Double.isNaN(line[k]) && !(lowest <= line[k])) {
          lowest = line[k];
        }
      }
      if (Double.isNaN(lowest)) {
        continue;
      }
      if (Double.isNaN(beganS)) {
        if (lowest < THRESHOLD * declared) {
          beganS = r.t[k];
        }
      } else if (lowest >= RELEASE * declared) {
        if (r.t[k] - beganS > longest) {
          longest = r.t[k] - beganS;
          atFromS = beganS;
          atToS = r.t[k];
        }
        beganS = Double.NaN;
      }
    }
    if (!Double.isNaN(beganS)) {
      return Measured.missing(
          "s", "the voltage is still below 92 % of declared where the record ends");
    }
    double u = longest == 0 ? 0 : Accuracy.ofWidth(2 * r.stepS) * Math.sqrt(2);
    return Measured.of(
        longest,
        "s",
        u,
        atFromS,
        atToS,
        longest == 0
            ? "no voltage falls below 90 % of declared"
            : "longest stretch from any voltage below 90 % of declared until all are at 92 %");
  }
}
