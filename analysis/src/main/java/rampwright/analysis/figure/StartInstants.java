package rampwright.analysis.figure;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;

/** The instants of a start, by their definitions. */
final class StartInstants {
  static final double FULL_SPEED_SHARE = 0.95;
  private static final double SETTLED_BAND_OF_RATED = 0.1;
  private static final double SETTLED_HOLD_S = 1.0;
  private static final double KNEE_SHARE = 0.1;

  private StartInstants() {}

  static Map<String, Measured> of(
      Readings r, Segment segment, RunLevel level, AnalysisOptions options, SpeedModel model) {
    Map<String, Measured> instants = new LinkedHashMap<>();
    instants.put("inception_s", inception(r, segment.flow()));
    instants.put("breakaway_s", Breakaway.find(r, segment.flow(), nominalSpeed(r, level)));
    Measured full = fullSpeed(r, segment, level, model);
    instants.put("full_speed_s", full);
    instants.put("knee_s", knee(r, segment, level, full));
    instants.put("bypass_s", Bypass.find(r, segment));
    instants.put("settled_s", settled(r, segment, level));
    options
        .corrected()
        .forEach(
            (key, atS) -> {
              if (instants.containsKey(key)) {
                instants.put(key, corrected(atS, options.correctionReason()));
              }
            });
    return instants;
  }

  static Measured corrected(double atS, String reason) {
    return Measured.of(
        atS,
        "s",
        null,
        atS,
        atS,
        "corrected by a person" + (reason.isEmpty() ? "" : ": " + reason));
  }

  static Measured instant(double atS, double uncertaintyS, String rule) {
    return Measured.of(atS, "s", uncertaintyS, atS, atS, rule);
  }

  private static Measured inception(Readings r, Flow flow) {
    if (flow.openStart()) {
      return Measured.missing("s", "the record begins with current flowing");
    }
    return instant(
        flow.fromS(),
        flow.fromUncertaintyS(),
        r.isWaveform()
            ? "first sample of current above the noise"
            : "midpoint between the last reading at rest and the first flowing one");
  }

  /** Settled run speed where there is one, else rated speed, else NaN. */
  static double nominalSpeed(Readings r, RunLevel level) {
    if (level.speedRpm() > 0) {
      return level.speedRpm();
    }
    Double rated = r.motor.ratedSpeedRpm();
    return rated != null && rated > 0 ? rated : Double.NaN;
  }

  private static Measured fullSpeed(Readings r, Segment segment, RunLevel level, SpeedModel model) {
    Flow flow = segment.flow();
    if (flow.openStart()) {
      return Measured.missing("s", "the record begins with current flowing");
    }
    if (segment.run() == null) {
      return Measured.missing("s", "full speed was not reached");
    }
    if (r.speed != null && !Double.isNaN(level.speedRpm())) {
      Measured bySpeed = fullSpeedBySpeed(r.speed, flow, level.speedRpm());
      if (bySpeed.isPresent()) {
        return bySpeed;
      }
    }
    SpeedModel.Estimate estimate =
        model.fullSpeed(r.track, new SpeedModel.Span(flow.fromS(), segment.runEndS(), flow.toS()));
    if (estimate != null && estimate.atS() > flow.fromS() && estimate.atS() < segment.runEndS()) {
      return instant(estimate.atS(), estimate.uncertaintyS(), "model: " + estimate.basis());
    }
    return CurrentFall.fullSpeed(r, segment, level);
  }

  private static Measured fullSpeedBySpeed(SpeedTrack speed, Flow flow, double settledRpm) {
    double goal = FULL_SPEED_SHARE * settledRpm;
    Crossing crossing = Crossing.first(speed, goal, true, flow.fromS(), flow.toS());
    if (crossing == null) {
      return Measured.missing("s", "the speed channel does not cross 95 % of the run speed");
    }
    return instant(
        crossing.atS(),
        crossing.uncertaintyS(),
        "speed: first reaches 95 % of the settled run speed");
  }

  private static Measured knee(Readings r, Segment segment, RunLevel level, Measured full) {
    if (segment.run() == null || segment.flow().openStart()) {
      return Measured.missing("s", "no run was reached");
    }
    Double run = level.currentA().value();
    if (run == null) {
      return Measured.missing("s", "the run current could not be had: " + level.currentA().why());
    }
    int first = segment.flow().first();
    int runEnd = Math.min(r.firstAtOrAfter(level.toS()), r.t.length) - 1;
    double until = full.value() != null ? full.value() : r.t[segment.run().first()];
    double peak = 0;
    for (int k = first; k <= runEnd && r.t[k] <= until; k++) {
      if (r.high[k] > peak) {
        peak = r.high[k];
      }
    }
    double limit = run + KNEE_SHARE * (peak - run);
    int k = runEnd;
    while (k > first && !(r.high[k] > limit)) {
      k--;
    }
    if (k >= runEnd || peak <= run) {
      return Measured.missing("s", "the current does not fall to its run value in this record");
    }
    double share = (r.high[k] - limit) / (r.high[k] - r.high[k + 1]);
    if (Double.isNaN(share)) {
      // The reading after it is missing.
      share = 1;
    }
    double atS = r.t[k] + Math.max(0, Math.min(1, share)) * (r.t[k + 1] - r.t[k]);
    return instant(
        atS,
        Math.hypot(Accuracy.ofWidth(r.t[k + 1] - r.t[k]), r.isWaveform() ? r.stepS : 0),
        String.format(
            Locale.ROOT,
            "highest phase last falls below Irun + 0.1 (Ipeak - Irun) = %.4g A",
            limit));
  }

  private static Measured settled(Readings r, Segment segment, RunLevel level) {
    Double rated = r.motor.ratedCurrentA();
    Double run = level.currentA().value();
    if (segment.run() == null || segment.flow().openStart()) {
      return Measured.missing("s", "no run was reached");
    }
    if (rated == null) {
      return Measured.missing("s", "needs the motor's rated current");
    }
    if (run == null) {
      return Measured.missing("s", "the run current could not be had: " + level.currentA().why());
    }
    double band = SETTLED_BAND_OF_RATED * rated;
    int end = r.firstAtOrAfter(level.toS());
    int start = -1;
    for (int k = segment.flow().first(); k < end; k++) {
      if (Double.isNaN(r.high[k])) {
        continue;
      }
      if (Math.abs(r.high[k] - run) <= band) {
        if (start < 0) {
          start = k;
        }
        if (r.t[k] - r.t[start] >= SETTLED_HOLD_S) {
          double beforeS = start > 0 ? r.t[start - 1] : r.t[start];
          return instant(
              r.t[start],
              Accuracy.ofWidth(r.t[start] - beforeS) + (r.isWaveform() ? r.stepS / 2 : 0),
              "highest phase within 0.1 In of its run value for 1 s");
        }
      } else {
        start = -1;
      }
    }
    return Measured.missing(
        "s", "the current does not stay within 0.1 In of its run value for 1 s");
  }

  /** The value of an instant, or null. */
  static @Nullable Double at(Map<String, Measured> instants, String key) {
    Measured m = instants.get(key);
    return m == null ? null : m.value();
  }
}
