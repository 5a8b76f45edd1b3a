package rampwright.acquisition.device;

import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;

/** Plays a trace file as if a device said it. Readings keep the file's intervals at any speed. */
final class ReplayWorker extends SourceWorker {
  private final int device;
  private final ChannelMap map;
  private final Link.Replay link;
  private final Links links;

  ReplayWorker(
      int device, ChannelMap map, Link.Replay link, Links links, Timekeeper time, EventSink sink) {
    super(time, sink);
    this.device = device;
    this.map = map;
    this.link = link;
    this.links = links;
  }

  @Override
  String link() {
    return link.shared();
  }

  @Override
  List<Integer> devices() {
    return List.of(device);
  }

  @Override
  void close() {}

  @Override
  int longestStepMs() {
    return 300;
  }

  @Override
  public void run() {
    Trace trace;
    try {
      trace = links.replay(map, link);
    } catch (DeviceFault fault) {
      tell(new DeviceEvent.Fault(device, nanos(), fault.kind(), 1, fault.text()));
      tell(new DeviceEvent.Ended(device, nanos()));
      return;
    }
    int[] channels = IntStream.range(0, map.channels().size()).toArray();
    long begin = nanos();
    long atNs = begin;
    for (int i = 0; i < trace.size() && !isStopped(); i++) {
      double sinceS = trace.time().atS(i) - trace.time().atS(0);
      waitUntil(begin + Math.round(sinceS * 1e9 / link.speed()));
      atNs = begin + Math.round(sinceS * 1e9);
      double[] values = new double[channels.length];
      for (int c = 0; c < channels.length; c++) {
        @Nullable Samples samples = trace.channel(map.channels().get(c).name());
        values[c] = samples == null ? Double.NaN : map.channels().get(c).value(samples.at(i));
      }
      tell(new DeviceEvent.Reading(device, 0, atNs, 0, 0, 1, channels, values, ""));
    }
    tell(new DeviceEvent.Ended(device, atNs));
  }
}
