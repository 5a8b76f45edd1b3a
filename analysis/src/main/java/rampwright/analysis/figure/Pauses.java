package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.List;

/**
 * Tells a pause within one start or run from a stop and a new start.
 *
 * <p>Up to half a second without current never parts two starts: no starter lets go, has its
 * contactors fall and pulls in again so soon, while breakaway pulses are followed by such pauses
 * and supplies fail and come back within them. Up to two seconds do not part them when the shaft
 * kept most of its speed and the supply is not known to have stayed: a motor caught on the fly. A
 * longer pause, or one through which the shaft came to rest, ends a start. The lengths are common
 * practice, no source.
 */
final class Pauses {
  static final double ALWAYS_BRIDGED_S = 0.5;
  static final double BRIDGED_TURNING_S = 2.0;
  private static final double SPEED_KEPT = 0.8;
  private static final double TURNING_OF_RATED = 0.5;
  // A lost supply leaves less than this of the declared voltage where the motor, still turning,
  // holds it up for a while.
  private static final double LOST_SHARE = 0.5;

  private Pauses() {}

  /** The flows with those joined that only a pause parts. */
  static List<Flow> bridged(Readings r, List<Flow> flows) {
    List<Flow> joined = new ArrayList<>();
    for (Flow flow : flows) {
      Flow before = joined.isEmpty() ? null : joined.get(joined.size() - 1);
      if (before != null && isPause(r, before, flow)) {
        joined.set(joined.size() - 1, join(before, flow));
      } else {
        joined.add(flow);
      }
    }
    return joined;
  }

  private static Flow join(Flow a, Flow b) {
    return new Flow(
        a.first(),
        b.last(),
        b.lastWhole(),
        a.fromS(),
        a.fromUncertaintyS(),
        b.toS(),
        b.toUncertaintyS(),
        a.openStart(),
        b.openEnd());
  }

  private static boolean isPause(Readings r, Flow before, Flow after) {
    double fromS = before.toS();
    double toS = after.fromS();
    double lengthS = toS - fromS;
    // Each end is known to half an interval.
    if (lengthS <= ALWAYS_BRIDGED_S + r.stepS) {
      return true;
    }
    return lengthS <= BRIDGED_TURNING_S + r.stepS
        && keptTurning(r, fromS, toS)
        && !supplyStayed(r, fromS, toS);
  }

  private static boolean keptTurning(Readings r, double fromS, double toS) {
    SpeedTrack speed = r.speed;
    Double rated = r.motor.ratedSpeedRpm();
    if (speed == null || rated == null) {
      return false;
    }
    double before = speed.at(fromS);
    double after = speed.at(toS);
    return after > SPEED_KEPT * before && after > TURNING_OF_RATED * rated;
  }

  private static boolean supplyStayed(Readings r, double fromS, double toS) {
    Double declared =
        r.motor.supplyVoltageV() != null ? r.motor.supplyVoltageV() : r.motor.ratedVoltageV();
    if (declared == null || r.lines.isEmpty()) {
      return false;
    }
    for (int k = r.firstAtOrAfter(fromS); k < r.t.length && r.t[k] <= toS; k++) {
      for (double[] line : r.voltageForExtremes) {
        if (line[k] < LOST_SHARE * declared) {
          return false;
        }
      }
    }
    return true;
  }
}
