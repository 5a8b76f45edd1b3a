package rampwright.acquisition.record;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;

/**
 * How a recording stands at an instant.
 *
 * @param phase waiting, recording or ended
 * @param elapsedS since the begin, or while waiting since it was armed, s
 * @param latest the latest value of each channel
 * @param currentA the highest phase current now, A; NaN when there is none
 * @param peakCurrentA the highest since the begin, A; NaN when there is none
 * @param waitingFor what is waited for, in words; empty when nothing is
 * @param devices how each device is being read
 * @param trouble why readings are not on disk; null when all is well
 * @param ended why it ended; empty before
 */
public record LiveView(
    Phase phase,
    double elapsedS,
    Map<ChannelName, Double> latest,
    double currentA,
    double peakCurrentA,
    String waitingFor,
    List<DeviceState> devices,
    @Nullable String trouble,
    String ended) {
  /** Where a recording stands. */
  public enum Phase {
    ARMED("armed"),
    RECORDING("recording"),
    ENDED("ended");

    private final String key;

    Phase(String key) {
      this.key = key;
    }

    /** In words. */
    public String key() {
      return key;
    }
  }

  /**
   * One device.
   *
   * @param name as in its map
   * @param hz readings a second over the last two seconds
   * @param wantedHz readings a second wanted
   * @param faults readings not had so far
   * @param fault what is wrong now; empty while it answers
   */
  public record DeviceState(String name, double hz, double wantedHz, int faults, String fault) {}
}
