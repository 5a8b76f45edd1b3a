package rampwright.acquisition.device;

import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;

/** Listens to one instrument that prints lines. */
final class LineWorker extends SourceWorker {
  private static final int STEP_MS = 100;

  private final int device;
  private final ChannelMap map;
  private final LinePort port;
  private final LineReader reader;
  private final Backoff backoff;
  private final int[] channels;

  LineWorker(
      int device,
      ChannelMap map,
      Link.Lines link,
      LinePort port,
      Timekeeper time,
      EventSink sink,
      long mostDelayNs) {
    super(time, sink);
    this.device = device;
    this.map = map;
    this.port = port;
    this.reader = new LineReader(map, link);
    this.backoff = new Backoff(TimeUnit.MILLISECONDS.toNanos(STEP_MS), mostDelayNs, false);
    this.channels = IntStream.range(0, map.channels().size()).toArray();
  }

  @Override
  String link() {
    return map.link().shared();
  }

  @Override
  List<Integer> devices() {
    return List.of(device);
  }

  @Override
  void close() {
    port.close();
  }

  @Override
  int longestStepMs() {
    return 5 * STEP_MS;
  }

  @Override
  public void run() {
    // The first line after opening is half of one more often than not.
    boolean fresh = true;
    long heardNs = nanos();
    long silenceNs = TimeUnit.MILLISECONDS.toNanos(map.timeoutMs());
    while (!isStopped()) {
      try {
        LinePort.Line line = port.next(STEP_MS);
        long now = nanos();
        if (line == null) {
          if (now - heardNs > silenceNs) {
            heardNs = now;
            tell(
                new DeviceEvent.Fault(
                    device, now, FaultKind.NO_ANSWER, 1, "no line for " + map.timeoutMs() + " ms"));
          }
          continue;
        }
        heardNs = now;
        hear(line, fresh);
        fresh = false;
      } catch (DeviceFault fault) {
        long now = nanos();
        tell(new DeviceEvent.Fault(device, now, fault.kind(), 1, fault.text()));
        if (fault.kind() == FaultKind.UNREACHABLE || fault.kind() == FaultKind.LOST) {
          fresh = true;
          waitUntil(now + backoff.failedNs(0));
        }
        heardNs = nanos();
      }
    }
  }

  private void hear(LinePort.Line line, boolean fresh) throws DeviceFault {
    if (line.text().isBlank()) {
      return;
    }
    try {
      double[] values = reader.values(line.text());
      backoff.worked();
      tell(
          new DeviceEvent.Reading(
              device, 0, line.beganNs(), 0, 0, 1, channels, values, line.text()));
    } catch (DeviceFault fault) {
      if (!fresh) {
        throw fault;
      }
    }
  }
}
