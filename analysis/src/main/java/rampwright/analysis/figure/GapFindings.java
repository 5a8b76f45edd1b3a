package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import rampwright.analysis.trace.Samples;

/** Stretches of over three intervals in which a phase current was not read. */
final class GapFindings {
  private static final int MOST_EACH = 20;

  private GapFindings() {}

  /** Gaps of all currents at once, and beside them those of one phase. */
  static List<Finding> find(Readings r, Thresholds thresholds) {
    List<Samples> currents = r.currentSamples();
    List<Finding> all = of(r, thresholds, "no current reading", i -> anyGood(currents, i));
    List<Finding> found = new ArrayList<>(all);
    if (currents.size() > 1) {
      for (int p = 0; p < currents.size(); p++) {
        Samples one = currents.get(p);
        String what = "no reading of " + r.phases.get(p).key();
        for (Finding gap : of(r, thresholds, what, i -> good(one, i))) {
          if (!within(all, gap, r.sampleS)) {
            found.add(gap);
          }
        }
      }
    }
    return found;
  }

  private static boolean anyGood(List<Samples> all, int i) {
    for (int k = 0; k < all.size(); k++) {
      if (good(all.get(k), i)) {
        return true;
      }
    }
    return false;
  }

  private static boolean good(Samples samples, int i) {
    return !Double.isNaN(samples.at(i));
  }

  /** Whether a phase's gap is, but for an interval at either end, one of all phases. */
  private static boolean within(List<Finding> all, Finding gap, double intervalS) {
    double slackS = 1.5 * intervalS;
    return all.stream()
        .anyMatch(a -> a.fromS() < gap.fromS() + slackS && a.toS() > gap.toS() - slackS);
  }

  private static List<Finding> of(
      Readings r, Thresholds thresholds, String what, IntPredicate good) {
    List<Finding> found = new ArrayList<>();
    double limitS = (thresholds.gapIntervals() + 0.5) * r.sampleS;
    double lastS = r.startS();
    int n = r.trace.size();
    int more = 0;
    for (int i = 0; i < n; i++) {
      if (i < n - 1 && !good.test(i)) {
        continue;
      }
      double atS = r.trace.time().atS(i);
      if (atS - lastS > limitS) {
        if (found.size() < MOST_EACH) {
          found.add(
              new Finding(
                  "gap",
                  lastS,
                  atS,
                  atS - lastS,
                  Findings.text(
                      "%s for %.3g s (%.0f intervals)",
                      what, atS - lastS, (atS - lastS) / r.sampleS)));
        } else {
          more++;
        }
      }
      lastS = atS;
    }
    if (more > 0) {
      Finding last = found.remove(found.size() - 1);
      found.add(
          new Finding(
              "gap",
              last.fromS(),
              r.endS(),
              last.value(),
              last.text() + "; and " + more + " more"));
    }
    return found;
  }
}
