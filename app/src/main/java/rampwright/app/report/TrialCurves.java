package rampwright.app.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.AnalyzedTrace;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.figure.Outcome;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.StopRecord;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;

/**
 * What is drawn of one start and its stop.
 *
 * @param inceptionS where current begins, on the trace's time base; null where that is not known
 * @param stopBeginS where the stop begins; null where there is none
 * @param rated whether current is over rated current; else in A
 * @param ratedSpeed whether speed is in % of rated speed; else in rpm
 * @param windows one, or two where the run between start and stop is long
 * @param marks the instants, in order of time
 */
public record TrialCurves(
    @Nullable Double inceptionS,
    @Nullable Double stopBeginS,
    boolean rated,
    boolean ratedSpeed,
    List<Window> windows,
    List<Mark> marks) {
  private static final int COLUMNS = 300;

  /** A run longer than so many times what lies around it is not drawn. */
  private static final double LONG_RUN = 3;

  private static final double LEAD_S = 1;
  private static final List<ChannelName> CURRENTS =
      List.of(ChannelName.I1, ChannelName.I2, ChannelName.I3);
  private static final List<ChannelName> VOLTAGES =
      List.of(ChannelName.V12, ChannelName.V23, ChannelName.V31);

  public TrialCurves {
    windows = List.copyOf(windows);
    marks = List.copyOf(marks);
  }

  /**
   * What is drawn over one stretch of time.
   *
   * @param highest the highest phase current
   * @param lowest the lowest phase current; empty where there is but one
   * @param voltageV the lowest line-to-line voltage; empty without voltages
   * @param speed empty without speed
   */
  public record Window(
      double fromS, double toS, Curve highest, Curve lowest, Curve voltageV, Curve speed) {}

  /** An instant, by its key. */
  public record Mark(String key, double atS) {}

  /** What is drawn of each start of a trace. */
  public static List<TrialCurves> of(AnalyzedTrace analyzed, MotorContext motor) {
    RmsTrack track = analyzed.track();
    if (track.size() < 2) {
      return List.of();
    }
    Double ratedA = motor.ratedCurrentA();
    Double ratedRpm = motor.ratedSpeedRpm();
    double[] highest = extreme(track, CURRENTS, true, ratedA == null ? 1 : 1 / ratedA);
    double[] lowest = extreme(track, CURRENTS, false, ratedA == null ? 1 : 1 / ratedA);
    double[] volts = extreme(track, VOLTAGES, false, 1);
    double[] speed =
        extreme(track, List.of(ChannelName.SPEED), true, ratedRpm == null ? 1 : 100 / ratedRpm);
    List<TrialCurves> all = new ArrayList<>();
    List<StartRecord> starts = analyzed.figures().starts();
    for (int k = 0; k < starts.size(); k++) {
      StartRecord start = starts.get(k);
      List<Mark> marks = marks(start);
      List<Window> windows = new ArrayList<>();
      double endS = track.timeS()[track.size() - 1];
      Double next = k + 1 < starts.size() ? at(starts.get(k + 1).instants(), "inception_s") : null;
      for (double[] w :
          spans(start, marks, track.timeS()[0], next == null ? endS : next - LEAD_S)) {
        windows.add(
            new Window(
                w[0],
                w[1],
                Curve.of(track.timeS(), highest, w[0], w[1], COLUMNS),
                Curve.of(track.timeS(), lowest, w[0], w[1], COLUMNS),
                Curve.of(track.timeS(), volts, w[0], w[1], COLUMNS),
                Curve.of(track.timeS(), speed, w[0], w[1], COLUMNS)));
      }
      StopRecord stop = start.stop();
      all.add(
          new TrialCurves(
              at(start.instants(), "inception_s"),
              stop == null ? null : at(stop.instants(), "stop_begin_s"),
              ratedA != null,
              ratedRpm != null,
              windows,
              marks));
    }
    return all;
  }

  /** The stretches that are drawn: all of it, or start and stop where the run between is long. */
  private static List<double[]> spans(
      StartRecord start, List<Mark> marks, double beginS, double endS) {
    if (marks.isEmpty() || !(endS > beginS)) {
      return endS > beginS ? List.of(new double[] {beginS, endS}) : List.of();
    }
    double firstS = marks.get(0).atS();
    double lastS = marks.get(marks.size() - 1).atS();
    double fromS = Math.max(beginS, firstS - LEAD_S);
    StopRecord stop = start.stop();
    Double stopS = stop == null ? null : at(stop.instants(), "stop_begin_s");
    double upS = firstS;
    for (Mark mark : marks) {
      upS = stopS == null || mark.atS() < stopS ? Math.max(upS, mark.atS()) : upS;
    }
    double startToS = Math.min(endS, upS + Math.max(2, 0.4 * (upS - firstS)));
    double toS = Math.min(endS, Math.max(lastS + LEAD_S, startToS));
    if (stopS == null) {
      return List.of(new double[] {fromS, start.outcome() == Outcome.COMPLETED ? toS : endS});
    }
    double stopFromS = Math.max(startToS, stopS - LEAD_S);
    // Only a run may be left out: a start that never came to one is looked at all the way.
    boolean longRun =
        ran(start) && stopFromS - startToS > LONG_RUN * ((startToS - fromS) + (toS - stopFromS));
    return longRun && toS > stopFromS
        ? List.of(new double[] {fromS, startToS}, new double[] {stopFromS, toS})
        : List.of(new double[] {fromS, toS});
  }

  private static boolean ran(StartRecord start) {
    return start.outcome() == Outcome.COMPLETED || start.outcome() == Outcome.ALREADY_RUNNING;
  }

  private static List<Mark> marks(StartRecord start) {
    List<Mark> marks = new ArrayList<>();
    StopRecord stop = start.stop();
    add(marks, start.instants());
    add(marks, stop == null ? Map.of() : stop.instants());
    marks.sort(Comparator.comparingDouble(Mark::atS));
    return marks;
  }

  private static void add(List<Mark> marks, Map<String, Measured> instants) {
    instants.forEach(
        (key, instant) -> {
          Double atS = instant.value();
          if (atS != null) {
            marks.add(new Mark(key, atS));
          }
        });
  }

  private static @Nullable Double at(Map<String, Measured> instants, String key) {
    Measured instant = instants.get(key);
    return instant == null ? null : instant.value();
  }

  /** The largest or smallest of channels at each instant, times a factor; NaN where none has it. */
  private static double[] extreme(
      RmsTrack track, List<ChannelName> channels, boolean largest, double factor) {
    double[] result = new double[track.size()];
    Arrays.fill(result, Double.NaN);
    for (ChannelName channel : channels) {
      double[] values = track.of(channel);
      if (values != null) {
        for (int i = 0; i < result.length; i++) {
          double value = values[i] * factor;
          boolean better = largest ? value > result[i] : value < result[i];
          result[i] =
              better || (Double.isNaN(result[i]) && Double.isFinite(value)) ? value : result[i];
        }
      }
    }
    return result;
  }
}
