package rampwright.analysis.figure;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.signal.Noise;
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
  private static final double SQRT12 = Math.sqrt(12);
  // A new level this long and this flat is a change of load, not a stop.
  private static final double STEADY_S = 1.5;
  private static final double STEADY_WITH_SPEED_S = 0.7;
  private static final double STEADY_SHARE = 0.02;
  // The hump of a soft stop has a flat top too, but well above the run.
  private static final double MOST_RUN_RATIO = 1.15;

  /** The stop's beginning in a flow that reached the run; null when the record shows no stop. */
  static @Nullable StopBegin find(Readings r, Flow flow, RunState run) {
    StopBegin commanded = fromCommand(r, flow, run);
    if (commanded != null) {
      return commanded;
    }
    StopBegin gaps = Bypass.gapsReturn(r, flow, run);
    if (gaps != null) {
      return gaps;
    }
    double reference = run.levelA();
    double band =
        CURRENT_SHARE * (r.motor.ratedCurrentA() != null ? r.motor.ratedCurrentA() : reference);
    double ripple = ripple(r, run.first(), flow.last());
    band = Math.max(band, 4 * ripple);
    int k = firstSteady(r, flow, run.first(), reference, band);
    while (true) {
      int departed = departure(r, flow, k, reference, band, run);
      if (departed < 0) {
        return flow.openEnd() ? null : coast(flow);
      }
      int again = steadyAgain(r, flow, departed, run, ripple);
      if (again < 0) {
        return dated(r, flow, k, departed, reference, band, run);
      }
      int length = Math.max(3, (int) Math.round(steadyS(r) / r.stepS));
      reference = Noise.median(r.high, again, again + length);
      k = again + length;
    }
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

  private static double ripple(Readings r, int from, int last) {
    int length = Math.min(last + 1, from + Math.max(10, (int) Math.round(1 / r.stepS)));
    Line line = Line.through(r.t, r.high, from, length);
    return line.scatter() == line.scatter() ? Math.min(line.scatter(), 0.1 * line.middle()) : 0;
  }

  private static int firstSteady(Readings r, Flow flow, int from, double reference, double band) {
    for (int k = from; k <= flow.last(); k++) {
      if (Math.abs(r.high[k] - reference) <= band) {
        return k;
      }
    }
    return from;
  }

  /** First index from which the state stays away from the reference for as long as it must last. */
  private static int departure(
      Readings r, Flow flow, int from, double reference, double band, RunState run) {
    // Coming down from the start the current passes into the band; departures count from there on.
    int lasting = Math.max(r.lasting(), (int) Math.round(0.06 / r.stepS));
    int held = 0;
    boolean arrived = false;
    int lastOfCoast = flow.openEnd() ? flow.last() : lastFullReading(r, flow);
    for (int k = from; k <= lastOfCoast; k++) {
      boolean away = Math.abs(r.high[k] - reference) > band || slowed(r, k, run);
      if (!away) {
        arrived = true;
        held = 0;
      } else if (arrived) {
        held++;
        if (held >= lasting) {
          return k - held + 1;
        }
      }
    }
    return -1;
  }

  /** Last stamp whose window or reading is not yet touched by current ceasing. */
  private static int lastFullReading(Readings r, Flow flow) {
    int k = flow.last();
    while (k > flow.first() && r.t[k] > flow.toS()) {
      k--;
    }
    return r.isWaveform() ? k : Math.max(flow.first(), k - 1);
  }

  private static boolean slowed(Readings r, int k, RunState run) {
    if (r.speed == null || run.speedRpm() != run.speedRpm()) {
      return false;
    }
    double n = r.speed.at(r.t[k]);
    double nominal = r.motor.ratedSpeedRpm() != null ? r.motor.ratedSpeedRpm() : run.speedRpm();
    double limit = Math.max(SPEED_SHARE * nominal, 4 * r.speed.noiseRpm());
    return n == n && run.speedRpm() - n > limit;
  }

  private static double steadyS(Readings r) {
    return r.speed != null ? STEADY_WITH_SPEED_S : STEADY_S;
  }

  /** First index from which the state is a steady run again, at whatever level; -1 when it is not. */
  private static int steadyAgain(
      Readings r, Flow flow, int departed, RunState run, double ripple) {
    int length = Math.max(3, (int) Math.round(steadyS(r) / r.stepS));
    double rated =
        r.motor.ratedCurrentA() != null ? r.motor.ratedCurrentA() : run.levelA() / 0.8;
    double flat = Math.max(STEADY_SHARE * rated, 4 * ripple);
    for (int k = departed; k + length <= flow.last(); k++) {
      double level = Noise.median(r.high, k, k + length);
      if (level > MOST_RUN_RATIO * rated) {
        continue;
      }
      boolean steady = true;
      for (int j = k; j < k + length && steady; j++) {
        steady = !(Math.abs(r.high[j] - level) > flat);
        if (r.speed != null && run.speedRpm() == run.speedRpm()) {
          steady &= !slowed(r, j, run);
        }
      }
      if (steady) {
        Line line = Line.through(r.t, r.high, k, k + length);
        if (Math.abs(line.slope()) * steadyS(r) < flat / 2) {
          return k;
        }
      }
    }
    return -1;
  }

  /** Where the run's line and the departure's line meet, by current and by speed; the earlier. */
  private static StopBegin dated(
      Readings r,
      Flow flow,
      int runFrom,
      int departed,
      double reference,
      double band,
      RunState run) {
    double detectedS = r.t[departed];
    double lagS = r.isWaveform() ? r.stepS : 0;
    double earliestS = r.t[runFrom];
    double byCurrentS =
        meeting(r.t, r.high, departed, runFrom, flow.last(), reference, band, r.stepS) - lagS;
    double bestS = byCurrentS == byCurrentS ? byCurrentS : detectedS;
    String rule = "current leaves the run: two lines meet";
    SpeedTrack speed = r.speed;
    if (speed != null && run.speedRpm() == run.speedRpm()) {
      double nominal = r.motor.ratedSpeedRpm() != null ? r.motor.ratedSpeedRpm() : run.speedRpm();
      double limit = Math.max(SPEED_SHARE * nominal, 4 * speed.noiseRpm());
      double settled = speed.mean(Math.max(earliestS, detectedS - 2), detectedS - 1);
      if (settled != settled) {
        settled = run.speedRpm();
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
        if (s == s && s < bestS) {
          bestS = s;
          detectedS = Math.max(s, Math.min(detectedS, speed.timeS()[k]));
          rule = "speed leaves the run: two lines meet";
        }
      }
    }
    bestS = Math.max(earliestS, Math.min(bestS, detectedS));
    double u = Math.max(r.stepS / SQRT12, (detectedS - bestS) / 2);
    return new StopBegin(bestS, u, rule);
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
    int floor = Math.max(first, departed - (int) Math.ceil(2 / stepS));
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
