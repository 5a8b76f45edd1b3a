package rampwright.acquisition.record;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.map.ChannelMap;
import rampwright.analysis.trace.ChannelName;

/**
 * What the readings so far say of the motor: does current flow, does the shaft turn, is the run
 * command given, does it run steadily. Used for begin and end of a trial only; figures are taken
 * from the trace with all care later.
 */
final class MotorWatch {
  /** Of rated current; the figures' own threshold. */
  private static final double CURRENT_SHARE = 0.05;

  /** Of rated speed; common practice, no source. */
  private static final double SPEED_SHARE = 0.02;

  /** A state change needs two readings, as in the figures. */
  private static final int CONFIRM = 2;

  private static final double STEADY_WINDOW_S = 3;

  /** Of rated current: the band in which current is settled, as in the figures. */
  private static final double STEADY_BAND = 0.1;

  /** Of rated current: more than this for long is a current limit at work, not a run. */
  private static final double MOST_RUNNING = 1.3;

  /** One quantity's state with the time since when. */
  static final class State {
    private final RestLevel level;
    private boolean on;
    private boolean known;
    private int against;
    private long againstFromNs;
    private long sinceNs;
    private boolean seenOff;
    private boolean seenOn;

    State(RestLevel level) {
      this.level = level;
    }

    private void take(double value, long atNs, int confirm) {
      boolean above = level.isAbove(value);
      if (!known) {
        known = true;
        on = above;
        sinceNs = atNs;
      } else if (above == on) {
        against = 0;
      } else {
        againstFromNs = against == 0 ? atNs : againstFromNs;
        against++;
        if (against >= confirm) {
          on = above;
          sinceNs = againstFromNs;
          against = 0;
        }
      }
      seenOff |= !on;
      seenOn |= on;
    }

    boolean isKnown() {
      return known;
    }

    boolean isOn() {
      return on;
    }

    /** It was off and has come on. */
    boolean hasBegun() {
      return on && seenOff;
    }

    boolean wasEverOn() {
      return seenOn;
    }

    long sinceNs() {
      return sinceNs;
    }

    double level() {
      return level.level();
    }
  }

  private final List<ChannelMap> maps;
  private final double ratedCurrentA;
  private final State current;
  private final State speed;
  private final State run;
  private final Map<ChannelName, Double> latest = new EnumMap<>(ChannelName.class);
  private final Deque<double[]> recent = new ArrayDeque<>();

  MotorWatch(List<ChannelMap> maps, double ratedCurrentA, double ratedSpeedRpm) {
    this.maps = maps;
    this.ratedCurrentA = ratedCurrentA;
    this.current = new State(new RestLevel(ratedCurrentA, CURRENT_SHARE));
    this.speed = new State(new RestLevel(ratedSpeedRpm, SPEED_SHARE));
    this.run = new State(new RestLevel(1, 0.5));
  }

  void take(DeviceEvent.Reading reading) {
    boolean currentCame = false;
    for (int i = 0; i < reading.channels().length; i++) {
      double value = reading.values()[i];
      ChannelName name = maps.get(reading.device()).channels().get(reading.channels()[i]).name();
      latest.put(name, value);
      if (Double.isNaN(value)) {
        continue;
      }
      if (name == ChannelName.SPEED) {
        speed.take(value, reading.atNs(), CONFIRM);
      } else if (name == ChannelName.RUN) {
        run.take(value, reading.atNs(), 1);
      }
      currentCame |= ChannelName.CURRENTS.contains(name);
    }
    if (currentCame) {
      double highest = highestCurrentA();
      if (!Double.isNaN(highest)) {
        current.take(highest, reading.atNs(), CONFIRM);
        remember(reading.atNs(), highest);
      }
    }
  }

  private void remember(long atNs, double value) {
    recent.addLast(new double[] {atNs * 1e-9, value});
    while (recent.size() > 2 && atNs * 1e-9 - recent.getFirst()[0] > STEADY_WINDOW_S) {
      recent.removeFirst();
    }
  }

  /** The highest phase current of the latest readings, A; NaN when there is none. */
  double highestCurrentA() {
    double highest = Double.NaN;
    for (ChannelName name : ChannelName.CURRENTS) {
      double value = latest.getOrDefault(name, Double.NaN);
      if (!Double.isNaN(value) && !(value <= highest)) {
        highest = value;
      }
    }
    return highest;
  }

  /** Whether the motor has run with the same moderate current for a while. */
  boolean isSteady() {
    if (!current.isOn() || recent.size() < 3) {
      return false;
    }
    double span = recent.getLast()[0] - recent.getFirst()[0];
    double low = Double.POSITIVE_INFINITY;
    double high = 0;
    for (double[] point : recent) {
      low = Math.min(low, point[1]);
      high = Math.max(high, point[1]);
    }
    return span > 0.8 * STEADY_WINDOW_S
        && high - low <= STEADY_BAND * ratedCurrentA
        && high <= MOST_RUNNING * ratedCurrentA;
  }

  State current() {
    return current;
  }

  State speed() {
    return speed;
  }

  State run() {
    return run;
  }

  /** The latest value of each channel that was ever read. */
  Map<ChannelName, Double> latest() {
    return new EnumMap<>(latest);
  }

  boolean has(ChannelName name) {
    return maps.stream().anyMatch(map -> map.has(name));
  }
}
