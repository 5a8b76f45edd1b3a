package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.List;

/**
 * A stretch of a track without a good value that is too long to be interpolated.
 *
 * @param fromS last good stamp before it; the track's first where there is none
 * @param toS first good stamp after it; the track's last where there is none
 * @param before last good value; NaN where there is none
 * @param after first good value; NaN where there is none
 */
record Gap(double fromS, double toS, double before, double after) {
  /** One phase missing for up to this many readings is interpolated. */
  static final int BRIDGED = 3;

  /** Gaps of a series, missing rows of the file as well as missing values. */
  static List<Gap> of(double[] timeS, double[] values, double stepS) {
    List<Gap> gaps = new ArrayList<>();
    int last = -1;
    for (int k = 0; k <= timeS.length; k++) {
      if (k < timeS.length && Double.isNaN(values[k])) {
        continue;
      }
      double fromS = last >= 0 ? timeS[last] : timeS[0] - stepS;
      double toS = k < timeS.length ? timeS[k] : timeS[timeS.length - 1] + stepS;
      if (toS - fromS > (BRIDGED + 1.5) * stepS) {
        gaps.add(
            new Gap(
                Math.max(fromS, timeS[0]),
                Math.min(toS, timeS[timeS.length - 1]),
                last >= 0 ? values[last] : Double.NaN,
                k < timeS.length ? values[k] : Double.NaN));
      }
      last = k;
    }
    return gaps;
  }

  /** How much of it lies in [aS, bS], s. */
  double withinS(double aS, double bS) {
    return Math.max(0, Math.min(toS, bS) - Math.max(fromS, aS));
  }

  /** The larger of the values beside it; 0 where there is none. */
  double largerBeside() {
    double a = Double.isNaN(before) ? 0 : before;
    double b = Double.isNaN(after) ? 0 : after;
    return Math.max(a, b);
  }

  /** By how much the values beside it differ; the larger one where only one is there. */
  double differenceBeside() {
    return Double.isNaN(before) || Double.isNaN(after) ? largerBeside() : Math.abs(before - after);
  }
}
