package rampwright.acquisition.record;

import java.util.List;
import java.util.Locale;

/**
 * How well a device was read during a trial.
 *
 * @param name the device
 * @param readings answers or lines
 * @param hz readings a second of its quickest request, from the median interval; NaN with fewer
 *     than two
 * @param roundTripMs median time from question to answer, ms; 0 for lines
 * @param roundTripP99Ms the same, 99 of 100 are below
 * @param lateP99Ms how late questions went out, 99 of 100 are below, ms
 * @param retries questions beyond the first of each reading
 * @param faults readings that could not be had
 * @param gaps where readings are missing
 */
public record DeviceQuality(
    String name,
    int readings,
    double hz,
    double roundTripMs,
    double roundTripP99Ms,
    double lateP99Ms,
    int retries,
    int faults,
    List<Gap> gaps) {
  /**
   * Readings missing.
   *
   * @param fromS on the trace's time base, s
   * @param toS when readings came again, s
   * @param why reasons that were told, or that none was
   */
  public record Gap(double fromS, double toS, String why) {
    /** As a line for people. */
    public String text() {
      return String.format(Locale.ROOT, "%.2f s to %.2f s: %s", fromS, toS, why);
    }
  }

  public DeviceQuality {
    gaps = List.copyOf(gaps);
  }

  /** As a line for people. */
  public String text() {
    StringBuilder text = new StringBuilder(name);
    text.append(String.format(Locale.ROOT, ": %d readings", readings));
    if (!Double.isNaN(hz)) {
      text.append(String.format(Locale.ROOT, ", %.4g a second", hz));
    }
    if (roundTripMs > 0) {
      text.append(
          String.format(
              Locale.ROOT,
              ", round trip %.1f ms (99 %% below %.1f), asked up to %.1f ms late (99 %%)",
              roundTripMs,
              roundTripP99Ms,
              lateP99Ms));
    }
    text.append(String.format(Locale.ROOT, ", %d asked again, %d not had", retries, faults));
    return text.append(", gaps ").append(gaps.size()).toString();
  }
}
