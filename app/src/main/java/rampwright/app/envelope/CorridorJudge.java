package rampwright.app.envelope;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.StopRecord;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;

/**
 * Holds a channel against its corridor, sample by sample of the RMS track.
 *
 * <p>Time counts from current inception or from the stop's begin. A start's corridor is followed no
 * further than the stop's begin: what comes after is the stop. A record that ends before the
 * corridor, or misses more than a tenth of it in one piece, is not assessable unless what is there
 * is outside already.
 */
final class CorridorJudge {
  /** Longest stretch without values, as a share of the corridor, that may be passed over. */
  private static final double LARGEST_HOLE = 0.1;

  private CorridorJudge() {}

  static CorridorCheck check(
      Corridor corridor, StartRecord start, RmsTrack track, MotorContext motor) {
    StopRecord stop = start.stop();
    boolean ofStart = corridor.part() == FigureKey.Part.START;
    String noStop = Judge.notAStop(start);
    if (!ofStart && noStop != null) {
      return unknown(corridor, noStop);
    }
    Double originS =
        ofStart || stop == null
            ? valueOf(start.instants().get("inception_s"))
            : valueOf(stop.instants().get("stop_begin_s"));
    if (originS == null) {
      return unknown(
          corridor, ofStart ? "no instant of inception" : "no instant the stop begins at");
    }
    double[] values = values(corridor.channel(), track, motor);
    if (values == null) {
      return unknown(corridor, whyNoValues(corridor.channel(), track));
    }
    double endS = originS + corridor.toS();
    List<String> notes = new ArrayList<>();
    Double stopBeginS = stop == null ? null : valueOf(stop.instants().get("stop_begin_s"));
    if (ofStart && stopBeginS != null && stopBeginS < endS) {
      endS = stopBeginS;
      notes.add(text("followed to the stop's begin at %.2f s only", endS));
    }
    return walk(corridor, track.timeS(), values, originS, endS, notes);
  }

  private static CorridorCheck walk(
      Corridor corridor,
      double[] timeS,
      double[] values,
      double originS,
      double endS,
      List<String> notes) {
    double beginS = originS + corridor.fromS();
    double worst = Double.POSITIVE_INFINITY;
    boolean outside = false;
    double worstAt = Double.NaN;
    double worstValue = Double.NaN;
    double worstBound = Double.NaN;
    double lastGoodS = beginS;
    double holeS = 0;
    for (int i = 0; i < timeS.length && timeS[i] <= endS; i++) {
      if (timeS[i] < beginS || Double.isNaN(values[i])) {
        continue;
      }
      holeS = Math.max(holeS, timeS[i] - lastGoodS);
      lastGoodS = timeS[i];
      double sinceS = timeS[i] - originS;
      double upper = corridor.upper().at(sinceS, true);
      double lower = corridor.lower().at(sinceS, false);
      double toUpper = (upper - values[i]) / scale(corridor.upper());
      double toLower = (values[i] - lower) / scale(corridor.lower());
      outside |= toUpper < 0 || toLower < 0;
      if (toUpper < worst) {
        worst = toUpper;
        worstAt = timeS[i];
        worstValue = values[i];
        worstBound = upper;
      }
      if (toLower < worst) {
        worst = toLower;
        worstAt = timeS[i];
        worstValue = values[i];
        worstBound = lower;
      }
    }
    if (Double.isNaN(worstAt)) {
      return unknown(corridor, "the channel has no value within the corridor's time");
    }
    holeS = Math.max(holeS, endS - lastGoodS);
    Boolean met = !outside;
    if (!outside && holeS > LARGEST_HOLE * (corridor.toS() - corridor.fromS())) {
      met = null;
      notes.add(text("%.2f s of the corridor have no values (the record's end or a gap)", holeS));
    }
    return new CorridorCheck(
        corridor,
        met,
        100 * worst,
        worstAt,
        worstValue,
        worstBound,
        notes.isEmpty() ? null : String.join("; ", notes));
  }

  private static double scale(Polyline bound) {
    double scale = bound.scale();
    return scale == 0 ? 1 : scale;
  }

  private static double @Nullable [] values(
      Corridor.Channel channel, RmsTrack track, MotorContext motor) {
    if (channel == Corridor.Channel.SPEED_PCT) {
      Double ratedRpm = motor.ratedSpeedRpm();
      double[] speed = track.of(ChannelName.SPEED);
      return ratedRpm == null || speed == null ? null : scaled(speed, 100 / ratedRpm);
    }
    Double ratedA = motor.ratedCurrentA();
    double[] highest = null;
    for (ChannelName name : ChannelName.CURRENTS) {
      double[] current = track.of(name);
      if (current != null) {
        highest = highest == null ? current.clone() : larger(highest, current);
      }
    }
    return ratedA == null || highest == null ? null : scaled(highest, 1 / ratedA);
  }

  private static double[] larger(double[] into, double[] other) {
    for (int i = 0; i < into.length; i++) {
      // A phase without a value leaves the word to the others.
      if (!(into[i] >= other[i]) && !Double.isNaN(other[i])) {
        into[i] = other[i];
      }
    }
    return into;
  }

  private static double[] scaled(double[] values, double factor) {
    double[] scaled = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      scaled[i] = values[i] * factor;
    }
    return scaled;
  }

  private static String whyNoValues(Corridor.Channel channel, RmsTrack track) {
    if (channel == Corridor.Channel.SPEED_PCT) {
      return track.of(ChannelName.SPEED) == null
          ? "the trace has no speed channel"
          : "the motor's rated speed is not known";
    }
    boolean anyCurrent = ChannelName.CURRENTS.stream().anyMatch(name -> track.of(name) != null);
    return anyCurrent ? "the motor's rated current is not known" : "the trace has no current";
  }

  private static @Nullable Double valueOf(@Nullable Measured instant) {
    return instant == null ? null : instant.value();
  }

  private static CorridorCheck unknown(Corridor corridor, String why) {
    return new CorridorCheck(corridor, null, null, null, null, null, why);
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
