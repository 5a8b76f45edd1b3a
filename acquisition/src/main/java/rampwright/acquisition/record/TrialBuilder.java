package rampwright.acquisition.record;

import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/** Events of a trial to its trace. Recording and recovery go the same way. */
final class TrialBuilder {
  /** A trace with how well it was read. */
  record Built(Trace trace, List<DeviceQuality> quality) {}

  /** Readings at more than this are samples of the waveform for all that is known here. */
  private static final double MOST_RMS_HZ = 400;

  private TrialBuilder() {}

  /**
   * Builds a trace; null when fewer than two readings lie in the span.
   *
   * @param fromNs the first instant that belongs to it
   * @param notes lines for its head
   */
  static @Nullable Built build(
      List<JournalLine.Device> devices,
      JournalLine.@Nullable Clock clock,
      List<DeviceEvent> events,
      long fromNs,
      List<String> notes) {
    List<List<ChannelName>> names = new ArrayList<>();
    for (JournalLine.Device device : devices) {
      List<ChannelName> channels = new ArrayList<>();
      for (String key : device.channels().split(",", -1)) {
        channels.add(
            ChannelName.ofKey(key)
                .orElseThrow(() -> new IllegalArgumentException("no channel " + key)));
      }
      names.add(channels);
    }
    List<DeviceEvent.Reading> readings = new ArrayList<>();
    List<List<DeviceEvent>> ofDevice = new ArrayList<>();
    devices.forEach(device -> ofDevice.add(new ArrayList<>()));
    long endNs = fromNs;
    for (DeviceEvent event : events) {
      if (event.atNs() >= fromNs) {
        ofDevice.get(event.device()).add(event);
        endNs = Math.max(endNs, event.atNs());
        if (event instanceof DeviceEvent.Reading reading) {
          readings.add(reading);
        }
      }
    }
    TraceMerger.Merged merged = TraceMerger.merge(names, readings);
    int size = merged.atNs().length;
    if (size < 2) {
      return null;
    }
    long zeroNs = merged.atNs()[0];
    double[] timeS = new double[size];
    for (int i = 0; i < size; i++) {
      timeS[i] = (Math.floorDiv(merged.atNs()[i], 1000L) - Math.floorDiv(zeroNs, 1000L)) / 1e6;
    }
    List<DeviceQuality> quality = new ArrayList<>();
    List<String> head = new ArrayList<>(notes);
    for (int i = 0; i < devices.size(); i++) {
      DeviceQuality one = QualityFinder.of(devices.get(i).name(), ofDevice.get(i), zeroNs, endNs);
      quality.add(one);
      head.add("read from " + one.text());
      one.gaps().forEach(gap -> head.add("gap of " + one.name() + ": " + gap.text()));
    }
    for (ChannelName name : merged.other()) {
      head.add(
          name.key()
              + (name == ChannelName.RUN
                  ? ": its last reading at each instant"
                  : ": put between its own readings in proportion"));
    }
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    merged.values().forEach((name, values) -> channels.put(name, Samples.owning(values)));
    Instant start = clock == null ? null : clock.utc().plusNanos(zeroNs - clock.atNs());
    double stepNs = QualityFinder.medianStep(merged.atNs());
    TraceKind kind = stepNs < 1e9 / MOST_RMS_HZ ? null : TraceKind.RMS;
    return new Built(
        new Trace(
            TimeBase.listed(Samples.owning(timeS)),
            channels,
            kind,
            new Provenance(
                "devices",
                "",
                start == null ? null : start.toString(),
                List.of(),
                List.of(),
                clean(head))),
        quality);
  }

  /** Notes are lines of a file; what devices say in them must not break out. */
  private static List<String> clean(List<String> notes) {
    return notes.stream().map(note -> note.replaceAll("\\p{Cntrl}", "?")).toList();
  }
}
