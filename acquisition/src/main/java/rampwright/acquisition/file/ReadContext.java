package rampwright.acquisition.file;

import java.time.ZoneId;
import org.jspecify.annotations.Nullable;

/**
 * What a file's reader may be told of the motor and the place, so that relative numbers ({@code %},
 * {@code x In}, {@code Hz}) and local wall-clock stamps can be converted. Each may be null: a
 * column that needs it is then left out with the reason.
 *
 * @param ratedSpeedRpm for a speed in % of rated, rpm
 * @param ratedCurrentA for a current in % of or times rated, A
 * @param ratedVoltageV for a voltage in % of rated, V (line to line)
 * @param ratedTorqueNm for a torque in % of rated, N m
 * @param ratedPowerW for a power in % of rated, W
 * @param polePairs for a speed as an electrical frequency in Hz
 * @param zone for wall-clock stamps that carry no offset
 */
public record ReadContext(
    @Nullable Double ratedSpeedRpm,
    @Nullable Double ratedCurrentA,
    @Nullable Double ratedVoltageV,
    @Nullable Double ratedTorqueNm,
    @Nullable Double ratedPowerW,
    @Nullable Integer polePairs,
    @Nullable ZoneId zone) {
  /** Nothing is known. */
  public static final ReadContext NONE = new ReadContext(null, null, null, null, null, null, null);
}
