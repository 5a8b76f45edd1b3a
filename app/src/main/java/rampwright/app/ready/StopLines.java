package rampwright.app.ready;

import static rampwright.app.ready.ReadyLine.State.LOOK;
import static rampwright.app.ready.ReadyLine.State.OK;
import static rampwright.app.ready.ReadyNumber.text;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.app.asset.Asset;
import rampwright.app.asset.Pipe;

/** Whether a soft stop is worth having. */
final class StopLines {
  // Five to ten periods are a common starting point. Common practice, no source.
  private static final double PERIODS = 5;

  // Below a third of a bar nobody hears a check valve. Common practice, no source.
  private static final double SMALL_BAR = 0.3;

  private StopLines() {}

  static void add(Asset asset, @Nullable StarterSettings settings, List<ReadyLine> lines) {
    Pipe pipe = asset.pipe();
    if (pipe == null) {
      lines.add(
          ReadyLine.of(
              "soft stop",
              OK,
              "Joukowsky; 5 to 10 pipe periods (common practice, no source)",
              "no [pipe] on the sheet: a soft stop is for the load's sake alone (goods that topple,"
                  + " belts that wave), and heats motor and starter"));
      return;
    }
    double periodS = 2 * pipe.lengthM() / pipe.waveSpeedMPerS();
    Double velocity = pipe.velocityMPerS();
    rampwright.analysis.machine.Pipe water =
        new rampwright.analysis.machine.Pipe(
            pipe.lengthM(), pipe.waveSpeedMPerS(), velocity == null ? 0 : velocity);
    double worstBar = water.joukowskyBar();
    double wantedS = PERIODS * periodS;
    boolean soft = settings != null && settings.stop() == StopMode.SOFT;
    double rampS = soft && settings != null ? settings.rampDownS() : 0;
    boolean worth = velocity == null || worstBar > SMALL_BAR;
    boolean enough = !worth || (soft && rampS >= wantedS);
    lines.add(
        ReadyLine.of(
            "soft stop",
            enough ? OK : LOOK,
            "Joukowsky rho a v, period 2 L / a; 5 to 10 periods (common practice, no source)",
            text(
                "pipe period %s s; stopping the flow at once %s; a ramp-down of at least %s s, %s%s",
                periodS,
                velocity == null
                    ? "raises the pressure by what cannot be told without velocity_m_s"
                    : text("raises the pressure by up to %s bar", worstBar),
                wantedS,
                worth ? "worth having" : "hardly worth having",
                settings == null
                    ? ""
                    : soft
                        ? text("; set are %s s%s", rampS, rampS >= wantedS ? "" : ", too short")
                        : worth ? "; set is a coast" : "; set is a coast, which will do")));
    Double head = pipe.staticHeadM();
    if (soft && head != null && head > 0) {
      lines.add(
          ReadyLine.of(
              "soft stop and static head",
              OK,
              "flow ends at n = sqrt(static / shut-off head) (affinity laws)",
              "with static head the flow ends well above standstill: only the ramp above that speed"
                  + " softens; watch the check valve in the first trial"));
    }
    if (Boolean.FALSE.equals(pipe.checkValve())) {
      lines.add(
          ReadyLine.of(
              "no check valve",
              LOOK,
              "common practice, no source",
              "without a check valve the water turns pump and motor backwards after a stop: look for"
                  + " a brake or another valve, and start only from standstill. Predictions of a"
                  + " stop do not know of it and end where the flow does"));
    }
  }
}
