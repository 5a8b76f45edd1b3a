package rampwright.analysis.trace;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Channels over one time axis. All channels have as many samples as the time base has instants.
 * Values are in the unit of the channel's quantity.
 */
public final class Trace {
  private final TimeBase time;
  private final Map<ChannelName, Samples> channels;
  private final @Nullable TraceKind declaredKind;
  private final Provenance provenance;

  /**
   * A trace.
   *
   * @param declaredKind what a person or the file says the values are; null to find it out
   * @throws IllegalArgumentException when a channel's length is not that of the time base
   */
  public Trace(
      TimeBase time,
      Map<ChannelName, Samples> channels,
      @Nullable TraceKind declaredKind,
      Provenance provenance) {
    channels.forEach(
        (name, samples) -> {
          if (samples.size() != time.size()) {
            throw new IllegalArgumentException(
                "channel "
                    + name.key()
                    + " has "
                    + samples.size()
                    + " samples, time has "
                    + time.size());
          }
        });
    EnumMap<ChannelName, Samples> sorted = new EnumMap<>(ChannelName.class);
    sorted.putAll(channels);
    this.time = time;
    this.channels = Collections.unmodifiableMap(sorted);
    this.declaredKind = declaredKind;
    this.provenance = provenance;
  }

  public TimeBase time() {
    return time;
  }

  /** Number of samples of every channel. */
  public int size() {
    return time.size();
  }

  /** Names of the channels present, in order of {@link ChannelName}. */
  public Set<ChannelName> names() {
    return channels.keySet();
  }

  public boolean has(ChannelName name) {
    return channels.containsKey(name);
  }

  /** Samples of a channel, or null when the trace does not have it. */
  public @Nullable Samples channel(ChannelName name) {
    return channels.get(name);
  }

  /** Those of {@code wanted} that are present, in the order given. */
  public List<ChannelName> present(List<ChannelName> wanted) {
    return wanted.stream().filter(channels::containsKey).toList();
  }

  /** What a person or the file says the values are; null when it has to be found out. */
  public @Nullable TraceKind declaredKind() {
    return declaredKind;
  }

  public Provenance provenance() {
    return provenance;
  }
}
