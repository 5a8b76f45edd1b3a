package rampwright.app.envelope;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.signal.RmsTrack;
import rampwright.analysis.trace.ChannelName;
import rampwright.app.envelope.Corridor.Channel;
import rampwright.app.envelope.FigureKey.Part;
import rampwright.app.envelope.Polyline.Point;
import rampwright.app.fixture.MadeUp;

class JudgeTest {
  private static final StartRecord START =
      MadeUp.start(
          Map.of("peak_current_ratio", 3.0, "start_time_s", 8.0, "i2t_ratio_s", Double.NaN),
          Map.of("stop_time_s", 8.0));

  private static Verdict judge(Limit... limits) {
    return Judge.judge(
        new Envelope(List.of(limits), List.of()), START, MadeUp.track(), MadeUp.MOTOR);
  }

  private static CorridorCheck corridor(Channel channel, Part part, Polyline up, Polyline low) {
    return corridor(channel, part, up, low, MadeUp.track(), MadeUp.MOTOR, START);
  }

  private static CorridorCheck corridor(
      Channel channel,
      Part part,
      Polyline up,
      Polyline low,
      RmsTrack track,
      MotorContext motor,
      StartRecord start) {
    return Judge.judge(
            new Envelope(List.of(), List.of(new Corridor(channel, part, up, low))),
            start,
            track,
            motor)
        .corridors()
        .get(0);
  }

  private static Polyline line(double... timesAndValues) {
    List<Point> points = new ArrayList<>();
    for (int i = 0; i < timesAndValues.length; i += 2) {
      points.add(new Point(timesAndValues[i], timesAndValues[i + 1]));
    }
    return new Polyline(points);
  }

  @Test
  void startAndStopFiguresAreBothHeldAgainstLimits() {
    Verdict verdict =
        judge(
            new Limit(FigureKey.PEAK_CURRENT_RATIO, null, 3.5),
            new Limit(FigureKey.STOP_TIME, 6.0, 20.0));
    assertThat(verdict).isInstanceOf(Verdict.Met.class);
    assertThat(verdict.met()).isTrue();
    assertThat(verdict.limits()).extracting(LimitCheck::met).containsExactly(true, true);
    assertThat(verdict.limits().get(1).marginPct()).isCloseTo(100.0 / 3, within(1e-9));
  }

  @Test
  void oneMissMakesTheVerdictMissedEvenBesideUnknowns() {
    Verdict verdict =
        judge(
            new Limit(FigureKey.I2T_RATIO, null, 90.0),
            new Limit(FigureKey.PEAK_CURRENT_RATIO, null, 2.5));
    assertThat(verdict).isInstanceOf(Verdict.Missed.class);
    assertThat(verdict.met()).isFalse();
    assertThat(verdict.limits().get(1).marginPct()).isCloseTo(-20, within(1e-9));
  }

  @Test
  void anUnknownAmongTheMetMakesItNotAssessableWithTheReason() {
    Verdict verdict =
        judge(
            new Limit(FigureKey.PEAK_CURRENT_RATIO, null, 3.5),
            new Limit(FigureKey.I2T_RATIO, null, 90.0),
            new Limit(FigureKey.THD, null, 20.0));
    assertThat(verdict).isInstanceOf(Verdict.NotAssessable.class);
    assertThat(verdict.met()).isNull();
    assertThat(verdict.limits().get(1).why()).isEqualTo("made to be missing");
    assertThat(verdict.limits().get(2).why()).isEqualTo("this trace does not give it");
  }

  @Test
  void withoutAStopItsLimitsCannotBeAssessed() {
    StartRecord noStop = MadeUp.start(Map.of("start_time_s", 8.0), null);
    Verdict verdict =
        Judge.judge(
            new Envelope(List.of(new Limit(FigureKey.STOP_TIME, 1.0, null)), List.of()),
            noStop,
            MadeUp.track(),
            MadeUp.MOTOR);
    assertThat(verdict.met()).isNull();
    assertThat(verdict.limits().get(0).why()).isEqualTo("the record shows no stop");
  }

  @Test
  void aValueNearerThanItsUncertaintyIsSaidToBeClose() {
    assertThat(judge(new Limit(FigureKey.START_TIME, null, 8.01)).limits().get(0).isClose())
        .isTrue();
    assertThat(judge(new Limit(FigureKey.START_TIME, null, 8.1)).limits().get(0).isClose())
        .isFalse();
  }

  @Test
  void aCurrentWithinItsCorridorHasTheWorstMarginAndItsInstant() {
    // Current is 3.0 x rated until 10 s (8 s after inception), 0.8 after.
    CorridorCheck check =
        corridor(Channel.CURRENT_RATIO, Part.START, line(0, 4, 7, 3.2, 9, 3.2), Polyline.NONE);
    assertThat(check.met()).isTrue();
    assertThat(check.marginPct()).isCloseTo(100 * 0.2 / 4, within(1e-9));
    assertThat(check.atS()).isCloseTo(9.0, within(1e-9));
    assertThat(check.value()).isCloseTo(3.0, within(1e-12));
    assertThat(check.bound()).isCloseTo(3.2, within(1e-12));
  }

  @Test
  void aCurrentThatLeavesItsCorridorMissesByTheWorst() {
    CorridorCheck check =
        corridor(Channel.CURRENT_RATIO, Part.START, line(0, 4, 7, 4, 7, 2, 12, 2), Polyline.NONE);
    assertThat(check.met()).isFalse();
    assertThat(check.marginPct()).isCloseTo(-25, within(1e-9));
    assertThat(check.atS()).isGreaterThan(9).isLessThan(10);
  }

  @Test
  void aLowerBoundIsHeldToo() {
    // Speed rises 12.5 % a second from inception on.
    CorridorCheck met = corridor(Channel.SPEED_PCT, Part.START, Polyline.NONE, line(0, 0, 8, 80));
    assertThat(met.met()).isTrue();
    CorridorCheck missed =
        corridor(Channel.SPEED_PCT, Part.START, Polyline.NONE, line(0, 0, 4, 60));
    assertThat(missed.met()).isFalse();
    assertThat(missed.atS()).isCloseTo(6, within(0.021));
    assertThat(missed.marginPct()).isCloseTo(100 * (50 - 60) / 60.0, within(1e-6));
  }

  @Test
  void aStopCorridorCountsFromTheStopsBegin() {
    CorridorCheck check =
        corridor(Channel.SPEED_PCT, Part.STOP, line(0, 101, 8, 3), line(0, 95, 7, 5));
    assertThat(check.met()).isTrue();
    assertThat(check.why()).isNull();
  }

  @Test
  void aStartCorridorEndsWhereTheStopBegins() {
    CorridorCheck check =
        corridor(Channel.SPEED_PCT, Part.START, Polyline.NONE, line(10, 90, 36, 90));
    assertThat(check.why()).contains("followed to the stop's begin at 30.00 s only");
    assertThat(check.marginPct()).isPositive();
  }

  @Test
  void aRecordThatEndsBeforeTheCorridorIsNotAssessableUnlessItMissedAlready() {
    StartRecord noStop = MadeUp.start(Map.of(), null);
    CorridorCheck open =
        corridor(
            Channel.CURRENT_RATIO,
            Part.START,
            line(0, 4, 80, 4),
            Polyline.NONE,
            MadeUp.track(),
            MadeUp.MOTOR,
            noStop);
    assertThat(open.met()).isNull();
    assertThat(open.why()).contains("have no values");
    CorridorCheck missed =
        corridor(
            Channel.CURRENT_RATIO,
            Part.START,
            line(0, 2, 80, 2),
            Polyline.NONE,
            MadeUp.track(),
            MadeUp.MOTOR,
            noStop);
    assertThat(missed.met()).isFalse();
  }

  @Test
  void whatIsNeededAndMissingIsSaid() {
    CorridorCheck noRating =
        corridor(
            Channel.CURRENT_RATIO,
            Part.START,
            line(0, 4, 8, 4),
            Polyline.NONE,
            MadeUp.track(),
            MotorContext.UNKNOWN,
            START);
    assertThat(noRating.met()).isNull();
    assertThat(noRating.why()).isEqualTo("the motor's rated current is not known");
    CorridorCheck noSpeed =
        corridor(
            Channel.SPEED_PCT,
            Part.START,
            line(0, 4, 8, 4),
            Polyline.NONE,
            new RmsTrack(new double[] {0, 1}, Map.of(ChannelName.I1, new double[] {0, 1})),
            MadeUp.MOTOR,
            START);
    assertThat(noSpeed.why()).isEqualTo("the trace has no speed channel");
  }

  @Test
  void notedFiguresAreJudgedByWhatWasNoted() {
    Verdict verdict =
        Judge.judgeNoted(
            new Envelope(
                List.of(
                    new Limit(FigureKey.START_TIME, null, 12.0),
                    new Limit(FigureKey.I2T_RATIO, null, 90.0)),
                List.of()),
            Map.of(FigureKey.START_TIME, 11.0));
    assertThat(verdict.met()).isNull();
    assertThat(verdict.limits()).extracting(LimitCheck::met).containsExactly(true, null);
    assertThat(verdict.limits().get(1).why()).isEqualTo("not noted");
  }
}
