package rampwright.acquisition.map;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;

/**
 * A device and its channels.
 *
 * @param file the map's file, for messages and for paths in it; null when it was made in the
 *     program
 * @param name what people call the device
 * @param link how it is reached
 * @param unit Modbus unit id, 0 to 255; without meaning for other links
 * @param timeoutMs how long an answer may take, ms
 * @param bridge how many registers nobody asked for may be read across to save a request
 * @param polls rates; the first is the device's own
 * @param channels at least one
 */
public record ChannelMap(
    @Nullable Path file,
    String name,
    Link link,
    int unit,
    int timeoutMs,
    int bridge,
    List<PollGroup> polls,
    List<MapChannel> channels) {
  public ChannelMap {
    polls = List.copyOf(polls);
    channels = List.copyOf(channels);
    if (polls.isEmpty() || channels.isEmpty()) {
      throw new IllegalArgumentException("a map has a rate and a channel at least");
    }
  }

  /** The device's own rate, readings a second. */
  public double hz() {
    return polls.get(0).hz();
  }

  /** The rate of a poll group, readings a second; the device's own for an unknown one. */
  public double hz(String poll) {
    return polls.stream()
        .filter(group -> group.name().equals(poll))
        .findFirst()
        .orElse(polls.get(0))
        .hz();
  }

  /** Whether a channel of that name is in it. */
  public boolean has(ChannelName name) {
    return channels.stream().anyMatch(channel -> channel.name() == name);
  }
}
