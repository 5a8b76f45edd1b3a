package rampwright.app.asset;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;

/**
 * The starter.
 *
 * @param ratedCurrentA its rated operational current, A RMS
 * @param ratingIndex utilisation category and rating index (IEC 60947-4-2) as on the plate
 * @param tripClass overload trip class (IEC 60947-4-1) as set
 * @param wiring where it sits
 * @param measured where the trace's currents were taken, for a starter inside the delta
 * @param ranges range and resolution of each setting by its key in settings.toml; what can be set
 */
public record Starter(
    double ratedCurrentA,
    @Nullable String ratingIndex,
    @Nullable String tripClass,
    Wiring wiring,
    Wiring measured,
    Map<String, SettingRange> ranges) {

  public static final NumberKey RATED_CURRENT_A =
      new NumberKey("rated_current_A", "A", 0.05, 10_000, "the starter's rated current", "");

  /** In the supply line, or in series with each winding of a delta. */
  public enum Wiring {
    IN_LINE("in line"),
    INSIDE_DELTA("inside delta");

    private final String key;

    Wiring(String key) {
      this.key = key;
    }

    /** Word used in files. */
    public String key() {
      return key;
    }
  }

  public Starter {
    RATED_CURRENT_A.checked(ratedCurrentA);
    ranges = Collections.unmodifiableMap(new LinkedHashMap<>(ranges));
  }

  /**
   * Line current over the current in the starter: the square root of 3 inside a delta (a winding
   * current's share of the line current in a balanced delta), else 1.
   */
  public double lineOverStarter() {
    return wiring == Wiring.INSIDE_DELTA ? Math.sqrt(3) : 1;
  }
}
