package rampwright.analysis.figure;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;

/**
 * When the stop began.
 *
 * @param atS the instant, s
 * @param uncertaintyS its standard uncertainty, s
 * @param rule how it was found
 */
record StopBegin(double atS, double uncertaintyS, String rule) {
  private static final double CURRENT_SHARE = 0.1;
  private static final double SPEED_SHARE = 0.01;
  // A slow stop's beginning may look steady for a while.
  private static final double MOST_BACK_S = 1.0;
  // On waveforms of known order what it does shows late by some 10 % of the stop, give or take 5 %.
  static final double ORDER_SHARE = 0.05;
  // On readings of known order, made by two plants, it showed after 0.08 s and 2 % of what is seen
  // of the stop, at most 0.3 s (medians); the spread is half of that and 3 %.
  private static final double LAG_S = 0.08;
  private static final double LAG_SHARE = 0.02;
  private static final double MOST_LAG_S = 0.3;
  private static final double LAG_SPREAD = 0.03;
  static final double LAG_SPREAD_TO_S = 10;
  // Where the first small change was not seen, or a swing hides it, the order may be further back.
  private static final double UNSEEN_S = 0.1;
  private static final double UNSEEN_SHARE = 0.03;
  private static final double SWING_SHARE = 0.1;
  private static final double SQRT12 = Math.sqrt(12);

  // At full speed to its end a controlled stop can only have been this short: a torque 30 % below
  // the load's for a second takes a few percent off any speed.
  private static final double MOST_AT_SPEED_S = 1.5;
  private static final double RETURN_S = 1.0;

  /** The stop's beginning in a flow that reached the run; null when the record shows no stop. */
  static @Nullable StopBegin find(Readings r, Flow flow, RunState run, Swing swing) {
    StopBegin commanded = fromCommand(r, flow, run);
    if (commanded != null) {
      return commanded;
    }
    StopBegin gaps = Bypass.gapsReturn(r, flow, run);
    if (gaps != null) {
      return gaps;
    }
    Steady steady = Steady.last(r, flow, run, swing);
    double band =
        CURRENT_SHARE
            * (r.motor.ratedCurrentA() != null ? r.motor.ratedCurrentA() : steady.levelA());
    band = Math.max(band, 4 * steady.rippleA());
    int departed = departure(r, flow, swing, steady, band);
    StopOnset onset = StopOnset.of(r, flow, steady, run);
    if (departed < 0 && !flow.openEnd() && onset != null) {
      // A short soft stop: the last readings before current ceases all lie off the run by a little.
      departed = onset.before(-1);
    }
    if (departed < 0) {
      return flow.openEnd() ? null : coast(flow);
    }
    return dated(
        r, flow, swing, steady, departed, band, onset == null ? -1 : onset.before(departed));
  }

  private static StopBegin coast(Flow flow) {
    return new StopBegin(flow.toS(), flow.toUncertaintyS(), "current ceases");
  }

  private static @Nullable StopBegin fromCommand(Readings r, Flow flow, RunState run) {
    Samples command = r.trace.channel(ChannelName.RUN);
    if (command == null) {
      return null;
    }
    int from = r.trace.time().firstAtOrAfter(r.t[run.first()]);
    int to = Math.min(command.size(), r.trace.time().firstAtOrAfter(flow.toS()) + 2);
    for (int i = to - 1; i > from; i--) {
      if (command.at(i) < 0.5 && command.at(i - 1) >= 0.5) {
        double a = r.trace.time().atS(i - 1);
        double b = r.trace.time().atS(i);
        return new StopBegin(0.5 * (a + b), (b - a) / SQRT12, "run command falls");
      }
    }
    return null;
  }

  /**
   * First index from which the state stays away from the run for good; -1 when it does not.
   *
   * <p>With a speed channel the current alone makes no stop: the speed must leave the run and stay
   * away, or the current must cease shortly after.
   */
  private static int departure(Readings r, Flow flow, Swing swing, Steady steady, double band) {
    int lasting = Math.max(r.lasting(), (int) Math.round(0.06 / r.stepS));
    int last = flow.lastWhole();
    // An average over a swing is touched by current ceasing half its span before.
    last -= (int) Math.ceil(0.5 * swing.spanS / r.stepS);
    int slowedFor = slowedFrom(r, last, steady);
    boolean hasSpeed = r.speed != null && !Double.isNaN(steady.speedRpm());
    boolean leaves = last - slowedFor + 1 >= lasting;
    int held = 0;
    for (int k = steady.to(); k <= last; k++) {
      boolean away =
          Math.abs(swing.currentA[k] - steady.levelA()) > band || (hasSpeed && k >= slowedFor);
      held = away ? held + 1 : 0;
      if (held < lasting) {
        continue;
      }
      int from = k - held + 1;
      int back = comesBack(r, swing, from, last, steady.levelA(), band);
      boolean shortly = !flow.openEnd() && flow.toS() - r.t[from] < MOST_AT_SPEED_S;
      if (back > 0 && (!hasSpeed || back < slowedFor)) {
        k = back;
        held = 0;
      } else if (!hasSpeed || leaves || shortly) {
        return from;
      } else {
        held = 0;
      }
    }
    return -1;
  }

  /** First index of the last stretch, to {@code last}, in which the speed is off the run's. */
  private static int slowedFrom(Readings r, int last, Steady steady) {
    int k = last;
    while (k >= steady.to() && slowed(r, k, steady.speedRpm())) {
      k--;
    }
    return k + 1;
  }

  /**
   * Where a current that was away is back for good measure: within the band for a second without
   * merely passing through it. -1 when it does not come back.
   */
  private static int comesBack(
      Readings r, Swing swing, int from, int last, double level, double band) {
    int start = -1;
    for (int k = from; k <= last; k++) {
      if (Math.abs(swing.currentA[k] - level) > band) {
        start = -1;
        continue;
      }
      start = start < 0 ? k : start;
      double spanS = r.t[k] - r.t[start];
      if (spanS >= RETURN_S) {
        Line line = Line.through(r.t, swing.currentA, start, k + 1);
        if (Math.abs(line.slope()) * spanS < 0.5 * band) {
          return k;
        }
      }
    }
    return -1;
  }

  /** Whether the speed at a stamp has left the run's. */
  static boolean slowed(Readings r, int k, double runRpm) {
    if (r.speed == null || Double.isNaN(runRpm)) {
      return false;
    }
    double n = r.speed.at(r.t[k]);
    return !Double.isNaN(n) && runRpm - n > speedLimit(r, r.speed, runRpm);
  }

  private static double speedLimit(Readings r, SpeedTrack speed, double runRpm) {
    double nominal = r.motor.ratedSpeedRpm() != null ? r.motor.ratedSpeedRpm() : runRpm;
    return Math.max(SPEED_SHARE * nominal, 4 * speed.noiseRpm());
  }

  /** Where the run's line and the departure's line meet, by current and by speed; the earlier. */
  private static StopBegin dated(
      Readings r, Flow flow, Swing swing, Steady steady, int departed, double band, int onset) {
    double detectedS = r.t[departed];
    double lagS = r.isWaveform() ? r.stepS : 0;
    int runFrom = steady.from();
    double earliestS = Math.max(flow.fromS(), r.t[runFrom] - MOST_BACK_S);
    double byCurrentS =
        meeting(r.t, swing.currentA, departed, runFrom, flow.last(), steady.levelA(), band, r.stepS)
            - lagS;
    double bestS = !Double.isNaN(byCurrentS) ? byCurrentS : detectedS;
    String rule = "current leaves the run: two lines meet";
    SpeedTrack speed = r.speed;
    if (speed != null && !Double.isNaN(steady.speedRpm())) {
      double limit = speedLimit(r, speed, steady.speedRpm());
      double settled = speed.mean(Math.max(earliestS, detectedS - 2), detectedS - 1);
      if (Double.isNaN(settled)) {
        settled = steady.speedRpm();
      }
      int k = speed.firstAtOrAfter(detectedS - 2);
      int end = speed.firstAtOrAfter(flow.toS());
      while (k < end && !(settled - speed.rpm()[k] > limit)) {
        k++;
      }
      if (k < end) {
        double s =
            meeting(
                speed.timeS(),
                speed.rpm(),
                k,
                speed.firstAtOrAfter(earliestS),
                end - 1,
                settled,
                limit,
                speed.intervalS());
        if (!Double.isNaN(s) && s < bestS) {
          bestS = s;
          detectedS = Math.max(s, Math.min(detectedS, speed.timeS()[k]));
          rule = "speed leaves the run: two lines meet";
        }
      }
    }
    bestS = Math.max(earliestS, Math.min(bestS, detectedS));
    double u = Math.max(r.stepS / SQRT12, (detectedS - bestS) / 2);
    boolean byOnset = false;
    if (onset > 0) {
      double onsetS = 0.5 * (r.t[onset - 1] + r.t[onset]) - lagS;
      if (onsetS < bestS) {
        u = Math.max((r.t[onset] - r.t[onset - 1]) / SQRT12, (bestS - onsetS) / 2);
        bestS = onsetS;
        byOnset = true;
        rule = "current first leaves the run's level by four times its scatter";
      }
    }
    double seenS = flow.toS() - bestS;
    double orderedS = bestS - orderLagS(seenS);
    u = Math.hypot(u, orderUncertaintyS(seenS));
    if (!byOnset) {
      u = Math.hypot(u, UNSEEN_S + UNSEEN_SHARE * Math.min(seenS, LAG_SPREAD_TO_S));
    }
    if (swing.isThere()) {
      u = Math.hypot(u, Math.max(swing.spanS / SQRT12, SWING_SHARE * seenS));
    }
    return new StopBegin(
        orderedS,
        u,
        String.format(
            Locale.ROOT, "%s, less %.2f s for the order to show", rule, bestS - orderedS));
  }

  /** How long an order takes to show, by what is seen of the stop. */
  private static double orderLagS(double seenS) {
    return Math.min(MOST_LAG_S, LAG_S + LAG_SHARE * seenS);
  }

  private static double orderUncertaintyS(double seenS) {
    return Math.hypot(0.5 * orderLagS(seenS), LAG_SPREAD * Math.min(seenS, LAG_SPREAD_TO_S));
  }

  /** Time where a line through the departure meets the level it departs from. */
  private static double meeting(
      double[] timeS,
      double[] values,
      int departed,
      int first,
      int last,
      double level,
      double band,
      double stepS) {
    int from = departed;
    int floor =
        Math.max(
            0,
            Math.max(
                first - (int) Math.ceil(MOST_BACK_S / stepS),
                departed - (int) Math.ceil(3 / stepS)));
    double side = Math.signum(values[departed] - level);
    while (from > floor && side * (values[from - 1] - level) > 0.25 * band) {
      from--;
    }
    int to = departed;
    int ceiling = Math.min(last, departed + (int) Math.ceil(2 / stepS));
    while (to < ceiling && side * (values[to] - level) < 2 * band) {
      to++;
    }
    while (to - from < 3 && to < ceiling) {
      to++;
    }
    Line line = Line.through(timeS, values, from, to + 1);
    return line.reachesS(level);
  }
}
