package rampwright.app.usecase;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.RunFigure;
import rampwright.app.advice.FigureLimit;
import rampwright.app.advice.Ratings;
import rampwright.app.asset.Asset;
import rampwright.app.asset.Motor;
import rampwright.app.asset.Pipe;
import rampwright.app.asset.Starter;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Limit;

/** An asset's envelope and plates as advice takes them. */
final class AdviceSheet {
  /** Overload and its time of a rating index, IEC 60947-4-2 (from memory): AC-53b: 3.5-30:330. */
  private static final Pattern OVERLOAD =
      Pattern.compile(
          "AC-?53[ab]\\s*:?\\s*(\\d+(?:\\.\\d+)?)\\s*-\\s*(\\d+(?:\\.\\d+)?)\\s*:",
          Pattern.CASE_INSENSITIVE);

  private AdviceSheet() {}

  /**
   * A limit with the figure of a simulated run it rests on. Motor heat is an i2t over what the
   * locked-rotor time allows, and pipe periods a stop time over 2 L / a (the figures' definitions).
   */
  static FigureLimit limit(Limit limit, Asset asset) {
    FigureKey key = limit.figure();
    Double factor =
        switch (key) {
          case MOTOR_HEAT_COLD -> heatFactor(asset.motor(), asset.motor().lockedRotorTimeColdS());
          case MOTOR_HEAT_HOT -> heatFactor(asset.motor(), asset.motor().lockedRotorTimeHotS());
          case PIPE_PERIODS -> periodFactor(asset.pipe());
          default -> null;
        };
    if (factor == null) {
      return new FigureLimit(key.key(), limit.min(), limit.max());
    }
    RunFigure figure = key == FigureKey.PIPE_PERIODS ? RunFigure.STOP_TIME : RunFigure.I2T;
    return new FigureLimit(key.key(), limit.min(), limit.max(), figure, factor);
  }

  private static @Nullable Double heatFactor(Motor motor, @Nullable Double lockedTimeS) {
    Double ratio = motor.lockedRotorCurrentRatio();
    return lockedTimeS == null || ratio == null
        ? null
        : Double.valueOf(100 / (lockedTimeS * ratio * ratio));
  }

  private static @Nullable Double periodFactor(@Nullable Pipe pipe) {
    return pipe == null ? null : Double.valueOf(pipe.waveSpeedMPerS() / (2 * pipe.lengthM()));
  }

  /** What motor and starter bear in one start, as far as their plates say. */
  static Ratings ratings(Asset asset) {
    Motor motor = asset.motor();
    Double hot = motor.lockedRotorTimeHotS();
    Double ratio = motor.lockedRotorCurrentRatio();
    Double allows = hot == null || ratio == null ? null : Double.valueOf(hot * ratio * ratio);
    String source =
        hot == null || ratio == null
            ? ""
            : String.format(Locale.ROOT, "locked rotor: %.3g x for %.3g s from hot", ratio, hot);
    Starter starter = asset.starter();
    Double overload = null;
    Double starterRatio = null;
    double overloadS = 0;
    String index = starter == null ? null : starter.ratingIndex();
    if (starter != null && index != null) {
      Matcher matcher = OVERLOAD.matcher(index);
      if (matcher.find()) {
        overload = Double.valueOf(matcher.group(1));
        overloadS = Double.parseDouble(matcher.group(2));
        starterRatio = starter.ratedCurrentA() * starter.lineOverStarter() / motor.ratedCurrentA();
      }
    }
    boolean known = starterRatio != null && overload != null && overloadS > 0;
    return new Ratings(
        allows,
        source,
        known ? starterRatio : null,
        known ? overload : null,
        overloadS,
        motor.startsPerHour());
  }
}
