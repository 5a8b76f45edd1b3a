package rampwright.analysis.figure;

import rampwright.analysis.signal.Noise;

/** Tells how a start ended. */
final class Outcomes {
  private static final double LEAST_STALL_S = 3.0;
  private static final double STALL_SHARE = 0.25;
  private static final double SPEED_PROGRESS_SHARE = 0.01;
  private static final double CURRENT_PROGRESS_SHARE = 0.04;

  private Outcomes() {}

  static Outcome of(Readings r, Segment segment) {
    Flow flow = segment.flow();
    if (flow.openStart() && !segment.begunInStart()) {
      return Outcome.ALREADY_RUNNING;
    }
    if (segment.run() != null) {
      return Outcome.COMPLETED;
    }
    double tookS = flow.toS() - flow.fromS();
    double windowS = Math.max(LEAST_STALL_S, STALL_SHARE * tookS);
    boolean longEnough = tookS > windowS;
    if (longEnough && !progressed(r, flow, windowS)) {
      return Outcome.STALLED;
    }
    return flow.openEnd() ? Outcome.CUT_OFF : Outcome.ABORTED;
  }

  /** Whether the start got on in its last {@code windowS}: by speed, or without it by current. */
  static boolean progressed(Readings r, Flow flow, double windowS) {
    double fromS = flow.toS() - windowS;
    SpeedTrack speed = r.speed;
    if (speed != null) {
      int from = speed.firstAtOrAfter(fromS);
      int to = speed.firstAtOrAfter(flow.toS());
      if (to - from >= 6) {
        int tenth = Math.max(3, (to - from) / 10);
        double early = Noise.median(speed.rpm(), from, from + tenth);
        double late = Noise.median(speed.rpm(), to - tenth, to);
        double nominal = r.motor.ratedSpeedRpm() != null ? r.motor.ratedSpeedRpm() : late;
        double least =
            Math.max(
                SPEED_PROGRESS_SHARE * nominal,
                Math.max(4 * speed.noiseRpm(), 2 * speed.resolutionRpm()));
        return late - early > least;
      }
    }
    if (PhaseLoss.before(r, flow, flow.lastWhole() - r.lasting())) {
      return false;
    }
    // Current: at a limit it stays level whether the shaft gains speed or not; level is no
    // progress.
    int from = r.firstAtOrAfter(fromS);
    int to = Math.min(r.t.length, r.firstAtOrAfter(flow.toS()));
    int tenth = Math.max(3, (to - from) / 10);
    if (to - from < 6) {
      return true;
    }
    double early = Noise.median(r.high, from, from + tenth);
    double late = Noise.median(r.high, to - tenth, to);
    return Math.abs(late - early) > CURRENT_PROGRESS_SHARE * Math.max(early, late);
  }

  /** Whether the shaft is known not to have turned. */
  static boolean neverTurned(Readings r, Flow flow) {
    SpeedTrack speed = r.speed;
    if (speed == null) {
      return false;
    }
    double floor = speed.floorAtRest(flow.fromS());
    if (r.motor.ratedSpeedRpm() != null) {
      floor = Math.max(floor, 0.005 * r.motor.ratedSpeedRpm());
    }
    int held = 0;
    for (int i = speed.firstAtOrAfter(flow.fromS());
        i < speed.size() && speed.timeS()[i] <= flow.toS();
        i++) {
      held = speed.rpm()[i] > floor ? held + 1 : 0;
      if (held >= 3) {
        return false;
      }
    }
    return true;
  }
}
