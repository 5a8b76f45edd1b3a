package rampwright.app.chart;

import java.util.ArrayList;
import java.util.List;

/**
 * A band a channel must stay in.
 *
 * @param channel what the band limits
 * @param part where its time begins
 * @param upper upper limit as corner points, times increasing; empty when there is none
 * @param lower lower limit likewise
 */
public record Corridor(Channel channel, Part part, List<Corner> upper, List<Corner> lower) {
  public Corridor {
    upper = List.copyOf(upper);
    lower = List.copyOf(lower);
  }

  /** The band up to an instant, s from the part's beginning; corners beyond it are left out. */
  Corridor until(double timeS) {
    return new Corridor(channel, part, until(upper, timeS), until(lower, timeS));
  }

  private static List<Corner> until(List<Corner> corners, double timeS) {
    List<Corner> kept = new ArrayList<>();
    for (Corner corner : corners) {
      if (corner.timeS() <= timeS) {
        kept.add(corner);
      } else if (!kept.isEmpty()) {
        Corner last = kept.get(kept.size() - 1);
        if (last.timeS() < timeS) {
          double share = (timeS - last.timeS()) / (corner.timeS() - last.timeS());
          kept.add(new Corner(timeS, last.value() + share * (corner.value() - last.value())));
        }
        break;
      } else {
        break;
      }
    }
    return kept;
  }

  /** What a band limits. */
  public enum Channel {
    /** Current as a multiple of the motor's rated current. */
    CURRENT_RATIO,
    /** Speed, percent of rated. */
    SPEED_PCT
  }

  /** Where the time of a band begins. */
  public enum Part {
    /** At current inception. */
    START,
    /** At stop begin. */
    STOP
  }

  /**
   * A corner of a limit.
   *
   * @param timeS time from the part's beginning, s
   * @param value in the channel's unit
   */
  public record Corner(double timeS, double value) {}
}
