package rampwright.app.usecase;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.LinePort;
import rampwright.acquisition.device.LineReader;
import rampwright.acquisition.device.RegisterPort;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.ChannelSource;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.MapChannel;
import rampwright.acquisition.map.ReadBlock;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;
import rampwright.app.result.Probe;

/** Reads each device once and shows raw words beside values, so that a map can be put right. */
public final class ProbeDevices {
  private static final int TRIES = 3;
  private static final int LINES_HEARD = 3;

  private final DevicePorts ports;

  public ProbeDevices(DevicePorts ports) {
    this.ports = ports;
  }

  /** What each device said. */
  public List<Probe> run(List<Path> paths) throws InputProblem, UsageProblem {
    List<Probe> probes = new ArrayList<>();
    for (ChannelMap map : ChannelMaps.read(paths)) {
      List<Probe.Line> lines = new ArrayList<>();
      List<String> faults = new ArrayList<>();
      if (map.link() instanceof Link.Lines link) {
        listen(map, link, lines, faults);
      } else if (map.link() instanceof Link.Replay link) {
        replay(map, link, lines, faults);
      } else {
        ask(map, lines, faults);
      }
      probes.add(new Probe(map.name(), map.link().shared(), lines, faults));
    }
    return probes;
  }

  private void ask(ChannelMap map, List<Probe.Line> lines, List<String> faults) {
    RegisterPort port = ports.links().registers(map.link());
    try {
      for (ReadBlock block : ReadBlock.of(map)) {
        int[] words = words(port, map, block, faults);
        for (int channel : block.channels()) {
          MapChannel at = map.channels().get(channel);
          String where =
              "function "
                  + block.function()
                  + ", address "
                  + ((ChannelSource.Registers) at.source()).address();
          if (words == null) {
            continue;
          }
          int[] own = block.wordsOf(map, channel, words);
          double value = block.value(map, channel, words);
          lines.add(
              new Probe.Line(
                  at.name().key(),
                  where,
                  raw(own, block.function() <= 2),
                  Double.isNaN(value) ? null : value,
                  at.name().quantity().unit(),
                  Plausible.remark(at, own, value)));
        }
      }
    } finally {
      port.close();
    }
  }

  private static int @Nullable [] words(
      RegisterPort port, ChannelMap map, ReadBlock block, List<String> faults) {
    String last = "";
    for (int i = 0; i < TRIES; i++) {
      try {
        return port.read(
                map.unit(), block.function(), block.address(), block.count(), map.timeoutMs())
            .words();
      } catch (DeviceFault fault) {
        last = fault.text();
      }
    }
    faults.add(
        "function "
            + block.function()
            + ", address "
            + block.address()
            + ", "
            + block.count()
            + " long: "
            + last
            + " ("
            + TRIES
            + " times)");
    return null;
  }

  private static String raw(int[] words, boolean bits) {
    StringBuilder text = new StringBuilder();
    for (int word : words) {
      text.append(text.isEmpty() ? "" : " ");
      text.append(bits ? "" + word : String.format(Locale.ROOT, "%04X", word));
    }
    return text.toString();
  }

  private void listen(
      ChannelMap map, Link.Lines link, List<Probe.Line> lines, List<String> faults) {
    LinePort port = ports.links().lines(link);
    LineReader reader = new LineReader(map, link);
    try {
      // The first line may be half of one.
      for (int i = 0; i < LINES_HEARD && lines.isEmpty(); i++) {
        LinePort.Line line = port.next(2 * map.timeoutMs());
        if (line == null) {
          faults.add("no line within " + 2 * map.timeoutMs() + " ms");
          return;
        }
        try {
          double[] values = reader.values(line.text());
          for (int c = 0; c < values.length; c++) {
            MapChannel channel = map.channels().get(c);
            lines.add(
                new Probe.Line(
                    channel.name().key(),
                    channel.source() instanceof ChannelSource.Field field
                        ? "field " + field.index()
                        : "pattern",
                    line.text(),
                    Double.isNaN(values[c]) ? null : values[c],
                    channel.name().quantity().unit(),
                    Double.isNaN(values[c])
                        ? "no reading"
                        : Plausible.is(channel.name().quantity(), values[c]) ? "" : "absurd"));
          }
        } catch (DeviceFault fault) {
          if (i > 0) {
            faults.add(fault.text());
          }
        }
      }
    } catch (DeviceFault fault) {
      faults.add(fault.text());
    } finally {
      port.close();
    }
  }

  private void replay(
      ChannelMap map, Link.Replay link, List<Probe.Line> lines, List<String> faults) {
    try {
      Trace trace = ports.links().replay(map, link);
      for (MapChannel channel : map.channels()) {
        Samples samples = trace.channel(channel.name());
        if (samples == null || samples.size() == 0) {
          faults.add("the file has no channel " + channel.name().key());
        } else {
          double value = channel.value(samples.at(0));
          lines.add(
              new Probe.Line(
                  channel.name().key(),
                  "first row",
                  "" + samples.at(0),
                  Double.isNaN(value) ? null : value,
                  channel.name().quantity().unit(),
                  ""));
        }
      }
    } catch (DeviceFault fault) {
      faults.add(fault.text());
    }
  }
}
