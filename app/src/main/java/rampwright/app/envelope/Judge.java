package rampwright.app.envelope;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.StopRecord;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.RmsTrack;

/** Holds a trial's figures and channels against an envelope. */
public final class Judge {
  private Judge() {}

  /**
   * The verdict on one start and its stop.
   *
   * @param track the RMS track the figures were taken from
   * @param motor rated current and speed, which corridors refer to
   */
  public static Verdict judge(
      Envelope envelope, StartRecord start, RmsTrack track, MotorContext motor) {
    List<LimitCheck> limits = new ArrayList<>();
    for (Limit limit : envelope.limits()) {
      limits.add(check(limit, figureOf(start, limit.figure())));
    }
    List<CorridorCheck> corridors = new ArrayList<>();
    for (Corridor corridor : envelope.corridors()) {
      corridors.add(CorridorJudge.check(corridor, start, track, motor));
    }
    return Verdict.of(limits, corridors, start.outcome());
  }

  /** Why what follows a start is not the stop that was asked for; null when it is. */
  static @Nullable String notAStop(StartRecord start) {
    return switch (start.outcome()) {
      case STALLED -> "the start stalled: no stop from the run";
      case ABORTED -> "the start was aborted: no stop from the run";
      default -> start.stop() == null ? "the record shows no stop" : null;
    };
  }

  /** Holds figures that a person noted without a trace against the limits; corridors need one. */
  public static Verdict judgeNoted(Envelope envelope, Map<FigureKey, Double> noted) {
    List<LimitCheck> limits = new ArrayList<>();
    for (Limit limit : envelope.limits()) {
      Double value = noted.get(limit.figure());
      limits.add(
          value == null
              ? new LimitCheck(limit, null, null, null, null, "not noted")
              : of(limit, value, null));
    }
    List<CorridorCheck> corridors = new ArrayList<>();
    for (Corridor corridor : envelope.corridors()) {
      corridors.add(new CorridorCheck(corridor, null, null, null, null, null, "there is no trace"));
    }
    return Verdict.of(limits, corridors);
  }

  private static LimitCheck check(Limit limit, Measured figure) {
    Double value = figure.value();
    if (value == null) {
      String why = figure.why();
      return new LimitCheck(limit, null, null, null, null, why == null ? "not to be had" : why);
    }
    return of(limit, value, figure.uncertainty());
  }

  private static LimitCheck of(Limit limit, double value, @Nullable Double uncertainty) {
    return new LimitCheck(
        limit, value, uncertainty, limit.allows(value), limit.marginPct(value), null);
  }

  private static Measured figureOf(StartRecord start, FigureKey key) {
    Map<String, Measured> figures = start.figures();
    if (key.part() == FigureKey.Part.STOP) {
      StopRecord stop = start.stop();
      String why = notAStop(start);
      if (why != null || stop == null) {
        return Measured.missing(key.unit(), why == null ? "the record shows no stop" : why);
      }
      figures = stop.figures();
    }
    Measured figure = figures.get(key.key());
    return figure == null ? Measured.missing(key.unit(), "this trace does not give it") : figure;
  }
}
