package rampwright.acquisition.record;

import java.util.ArrayDeque;
import java.util.Deque;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.map.ChannelMap;

/** Counts one device's readings for the live view. */
final class DeviceMeter {
  private static final long WINDOW_NS = 2_000_000_000L;

  private final ChannelMap map;
  private final Deque<Long> recent = new ArrayDeque<>();
  private int faults;
  private String fault = "";

  DeviceMeter(ChannelMap map) {
    this.map = map;
  }

  void take(DeviceEvent event) {
    if (event instanceof DeviceEvent.Reading reading) {
      fault = "";
      if (reading.block() == 0) {
        recent.addLast(reading.atNs());
        forget(reading.atNs());
      }
    } else if (event instanceof DeviceEvent.Fault told) {
      faults++;
      fault = told.text();
      forget(told.atNs());
    }
  }

  private void forget(long nowNs) {
    while (!recent.isEmpty() && nowNs - recent.getFirst() > WINDOW_NS) {
      recent.removeFirst();
    }
  }

  LiveView.DeviceState state() {
    double spanS = recent.size() < 2 ? 0 : (recent.getLast() - recent.getFirst()) * 1e-9;
    double hz = spanS > 0 ? (recent.size() - 1) / spanS : 0;
    return new LiveView.DeviceState(map.name(), hz, map.hz(), faults, fault);
  }
}
