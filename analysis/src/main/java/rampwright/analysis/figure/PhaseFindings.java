package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.List;
import rampwright.analysis.signal.CycleSpectrum;
import rampwright.analysis.signal.Noise;

/** A phase that is missing, and a phase that conducts one way only. */
final class PhaseFindings {
  private static final int CYCLES = 5;
  private static final double ONE_WAY_AFTER_S = 0.3;
  // Stretches closer together than this many times the least that counts are one.
  private static final int MERGED = 3;

  private PhaseFindings() {}

  /** One phase under 5 % of the others for 5 cycles or 2 readings. */
  static List<Finding> missing(Readings r, Flow flow, Thresholds thresholds) {
    List<Finding> found = new ArrayList<>();
    if (r.current.length < 2) {
      return found;
    }
    int least = r.isWaveform() ? 2 * CYCLES : 2;
    // The edges of a flow show phases beginning and ceasing one after the other.
    int edge = r.isWaveform() ? 4 : 1;
    for (int p = 0; p < r.current.length; p++) {
      int from = -1;
      int to = -1;
      int start = -1;
      for (int k = flow.first() + edge; k <= flow.last() - edge + 1; k++) {
        boolean gone = k <= flow.last() - edge && isMissing(r, p, k, thresholds);
        if (gone && start < 0) {
          start = k;
        } else if (!gone && start >= 0) {
          if (k - start >= least) {
            // A contact that makes and breaks is one fault, not a hundred.
            if (from >= 0 && start - to > MERGED * least) {
              found.add(missing(r, p, from, to));
              from = -1;
            }
            from = from < 0 ? start : from;
            to = k - 1;
          }
          start = -1;
        }
      }
      if (from >= 0) {
        found.add(missing(r, p, from, to));
      }
    }
    return found;
  }

  private static boolean isMissing(Readings r, int phase, int k, Thresholds thresholds) {
    double others = 0;
    for (int q = 0; q < r.current.length; q++) {
      if (q != phase && !Double.isNaN(r.current[q][k])) {
        others = Math.max(others, r.current[q][k]);
      }
    }
    double own = r.current[phase][k];
    return others > r.thresholdA
        && own < Math.max(thresholds.phaseMissingShare() * others, 2 * r.noiseA);
  }

  private static Finding missing(Readings r, int phase, int from, int to) {
    String label = r.phases.get(phase).phase();
    return new Finding(
        "phase-missing",
        r.t[from],
        r.t[to],
        Noise.median(r.current[phase], from, to + 1),
        Findings.text(
            "%s carries no current from %.2f s to %.2f s while the others do: a fuse, a lead, a"
                + " terminal or a thyristor pair that does not fire",
            label, r.t[from], r.t[to]));
  }

  /** D.c. part above 10 % of the phase's RMS for 5 cycles after the first 0.3 s. */
  static List<Finding> oneWay(Readings r, Flow flow, CycleSeries cycles, Thresholds thresholds) {
    List<Finding> found = new ArrayList<>();
    int best = -1;
    double worst = 0;
    int bestFrom = 0;
    int bestTo = 0;
    for (int p = 0; p < cycles.spectra().length; p++) {
      int start = -1;
      double sum = 0;
      for (int k = 0; k <= cycles.size(); k++) {
        double share = k < cycles.size() ? share(r, flow, cycles, p, k) : 0;
        if (Math.abs(share) > thresholds.oneWayDcShare() && (start < 0 || sum * share > 0)) {
          if (start < 0) {
            start = k;
            sum = 0;
          }
          sum += share;
        } else if (start >= 0) {
          if (k - start >= CYCLES && Math.abs(sum) / (k - start) > worst) {
            worst = Math.abs(sum) / (k - start);
            best = p;
            bestFrom = start;
            bestTo = k - 1;
          }
          start = -1;
        }
      }
    }
    if (best >= 0) {
      found.add(
          new Finding(
              "one-way-conduction",
              cycles.fromS()[bestFrom],
              cycles.toS()[bestTo],
              100 * worst,
              Findings.text(
                  "%s carries a direct current of %.0f %% of its RMS: one thyristor of a pair does"
                      + " not conduct (or a current transducer has an offset)",
                  r.phases.get(best).phase(), 100 * worst)));
    }
    return found;
  }

  private static double share(Readings r, Flow flow, CycleSeries cycles, int phase, int k) {
    if (cycles.fromS()[k] < flow.fromS() + ONE_WAY_AFTER_S) {
      return 0;
    }
    CycleSpectrum s = cycles.spectra()[phase][k];
    return s.rms() > r.thresholdA ? s.mean() / s.rms() : 0;
  }
}
