package rampwright.app.result;

import java.util.List;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Trace;

/**
 * What a trace file held, without its samples.
 *
 * @param samples number of samples of each channel
 * @param channels the channels, in their usual order
 * @param provenance where it came from and what was made of it
 */
public record TraceFacts(int samples, List<ChannelName> channels, Provenance provenance) {
  public TraceFacts {
    channels = List.copyOf(channels);
  }

  /** The facts of a trace. */
  public static TraceFacts of(Trace trace) {
    return new TraceFacts(trace.size(), List.copyOf(trace.names()), trace.provenance());
  }
}
