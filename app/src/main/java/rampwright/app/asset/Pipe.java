package rampwright.app.asset;

import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;

/**
 * The pipe a pump feeds.
 *
 * @param lengthM length
 * @param waveSpeedMPerS speed of a pressure wave in it
 * @param velocityMPerS flow velocity when running; null when not known
 * @param staticHeadM head at no flow; null when not known
 * @param totalHeadM head of the pump at its usual flow; null when not known
 * @param checkValve whether a check valve closes behind the pump; null when not known
 */
public record Pipe(
    double lengthM,
    double waveSpeedMPerS,
    @Nullable Double velocityMPerS,
    @Nullable Double staticHeadM,
    @Nullable Double totalHeadM,
    @Nullable Boolean checkValve) {

  public static final NumberKey LENGTH_M =
      new NumberKey("length_m", "m", 0.5, 500_000, "the pipe's length", "km belong times 1000");
  public static final NumberKey WAVE_SPEED_M_S =
      new NumberKey(
          "wave_speed_m_s", "m/s", 50, 1600, "of a pressure wave; in water at most 1480", "");
  public static final NumberKey VELOCITY_M_S =
      new NumberKey("velocity_m_s", "m/s", 0.01, 20, "of the flow when running", "");
  public static final NumberKey STATIC_HEAD_M =
      new NumberKey("static_head_m", "m", -50, 3000, "head at no flow", "");
  public static final NumberKey TOTAL_HEAD_M =
      new NumberKey("total_head_m", "m", 0.5, 5000, "the pump's at its usual flow", "");

  public Pipe {
    LENGTH_M.checked(lengthM);
    WAVE_SPEED_M_S.checked(waveSpeedMPerS);
    VELOCITY_M_S.checkedOptional(velocityMPerS);
    STATIC_HEAD_M.checkedOptional(staticHeadM);
    TOTAL_HEAD_M.checkedOptional(totalHeadM);
  }
}
