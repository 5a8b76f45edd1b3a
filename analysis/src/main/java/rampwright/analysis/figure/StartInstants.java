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

  private StartInstants() {}

  static Map<String, Measured> of(
      Readings r, Segment segment, RunLevel level, AnalysisOptions options, SpeedModel model) {
    Map<String, Measured> instants = new LinkedHashMap<>();
    instants.put("inception_s", inception(r, segment));
    instants.put("breakaway_s", breakaway(r, segment, level));
    Measured full = fullSpeed(r, segment, level, model);
    instants.put("full_speed_s", full);
    instants.put("knee_s", knee(r, segment, level));
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

  private static Measured inception(Readings r, Segment segment) {
    Flow flow = segment.flow();
    String why = segment.whyNoBeginning();
    if (why != null) {
      return Measured.missing("s", why);
    }
    return instant(
        flow.fromS(),
        flow.fromUncertaintyS(),
        r.isWaveform()
            ? "first sample of current above the noise"
            : "between the last reading at rest and the first flowing one, by how this compares with the next");
  }

  private static Measured breakaway(Readings r, Segment segment, RunLevel level) {
    String why = segment.whyNoBeginning();
    return r.speed != null && why != null
        ? Measured.missing("s", why)
        : Breakaway.find(r, segment.flow(), nominalSpeed(r, level));
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
    String why = segment.whyNoBeginning();
    if (why != null && !segment.begunInStart()) {
      return Measured.missing("s", why);
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
    if (why != null) {
      return Measured.missing("s", why);
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

  private static Measured knee(Readings r, Segment segment, RunLevel level) {
    RunState run = segment.run();
    String why = segment.whyNoBeginning();
    if (run == null || why != null) {
      return Measured.missing("s", why != null ? why : "no run was reached");
    }
    if (level.currentA().value() == null) {
      return Measured.missing("s", "the run current could not be had: " + level.currentA().why());
    }
    Arrival arrival = Arrival.of(r, segment, run, level);
    double limit = arrival.atShare(Arrival.ARRIVED);
    int k = arrival.lastAbove(limit);
    if (k < 0 || arrival.peakA() <= arrival.runA()) {
      return Measured.missing("s", "the current does not fall to its run value in this record");
    }
    return instant(
        arrival.lastFallS(r.t, limit),
        Math.hypot(Accuracy.ofWidth(r.t[k + 1] - r.t[k]), r.isWaveform() ? r.stepS : 0),
        String.format(
                Locale.ROOT,
                "highest phase last falls below Irun + 0.1 (Ipeak - Irun) = %.4g A before the run",
                limit)
            + loadChanged(arrival));
  }

  private static String loadChanged(Arrival arrival) {
    return arrival.loadChanged()
        ? String.format(Locale.ROOT, "; the load changed later, Irun here %.4g A", arrival.runA())
        : "";
  }

  private static Measured settled(Readings r, Segment segment, RunLevel level) {
    Double rated = r.motor.ratedCurrentA();
    RunState run = segment.run();
    String why = segment.whyNoBeginning();
    if (run == null || why != null) {
      return Measured.missing("s", why != null ? why : "no run was reached");
    }
    if (rated == null) {
      return Measured.missing("s", "needs the motor's rated current");
    }
    if (level.currentA().value() == null) {
      return Measured.missing("s", "the run current could not be had: " + level.currentA().why());
    }
    Arrival arrival = Arrival.of(r, segment, run, level);
    double[] current = arrival.currentA();
    double band = SETTLED_BAND_OF_RATED * rated;
    int end = r.firstAtOrAfter(level.toS());
    int start = -1;
    for (int k = segment.flow().first(); k < end; k++) {
      if (Double.isNaN(current[k])) {
        continue;
      }
      if (Math.abs(current[k] - arrival.runA()) <= band) {
        if (start < 0) {
          start = k;
        }
        if (r.t[k] - r.t[start] >= SETTLED_HOLD_S) {
          double beforeS = start > 0 ? r.t[start - 1] : r.t[start];
          return instant(
              r.t[start],
              Accuracy.ofWidth(r.t[start] - beforeS) + (r.isWaveform() ? r.stepS / 2 : 0),
              "highest phase within 0.1 In of its run value for 1 s" + loadChanged(arrival));
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
