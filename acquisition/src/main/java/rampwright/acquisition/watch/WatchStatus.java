package rampwright.acquisition.watch;

import java.time.Instant;
import java.util.List;
import rampwright.acquisition.record.LiveView;

/**
 * How a watch stands.
 *
 * @param at when this was
 * @param since when it began
 * @param state watching or ended
 * @param freeBytes room on the fullest disk of its assets; below 0 when it cannot be told
 * @param trials trials recorded since it began
 * @param stations each asset
 * @param messages the newest lines of its log
 */
public record WatchStatus(
    Instant at,
    Instant since,
    String state,
    long freeBytes,
    long trials,
    List<StationStatus> stations,
    List<String> messages) {
  /**
   * One asset.
   *
   * @param name what people call it
   * @param phase armed or recording
   * @param waitingFor in words
   * @param trials recorded since the watch began
   * @param lastTrial folder of the latest; empty when there is none
   * @param devices how each device is being read
   */
  public record StationStatus(
      String name,
      String phase,
      String waitingFor,
      long trials,
      String lastTrial,
      List<LiveView.DeviceState> devices) {}
}
