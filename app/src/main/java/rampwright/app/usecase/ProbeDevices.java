package rampwright.app.usecase;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
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
    List<Plausible.Found> all = new ArrayList<>();
    List<Integer> functions = new ArrayList<>();
    RegisterPort port = ports.links().registers(map.link());
    try {
      for (ReadBlock block : ReadBlock.of(map)) {
        int[] words;
        try {
          words = words(port, map, block);
        } catch (DeviceFault fault) {
          faults.add(told(map, block, fault));
          if (fault.kind() == FaultKind.UNREACHABLE) {
            // The other requests would say the same.
            return;
          }
          continue;
        }
        for (int channel : block.channels()) {
          all.add(
              new Plausible.Found(
                  map.channels().get(channel),
                  block.wordsOf(map, channel, words),
                  block.value(map, channel, words)));
          functions.add(block.function());
        }
      }
    } finally {
      port.close();
    }
    Plausible.Order agreed = Plausible.agreed(all);
    for (int i = 0; i < all.size(); i++) {
      Plausible.Found one = all.get(i);
      int function = functions.get(i);
      lines.add(
          new Probe.Line(
              one.channel().name().key(),
              "function "
                  + function
                  + ", address "
                  + ((ChannelSource.Registers) one.channel().source()).address(),
              raw(one.words(), function <= 2),
              Double.isNaN(one.value()) ? null : one.value(),
              one.channel().name().quantity().unit(),
              Plausible.remark(one, agreed)));
    }
  }

  private static int[] words(RegisterPort port, ChannelMap map, ReadBlock block)
      throws DeviceFault {
    for (int tries = 1; ; tries++) {
      try {
        return port.read(
                map.unit(), block.function(), block.address(), block.count(), map.timeoutMs())
            .words();
      } catch (DeviceFault fault) {
        if (tries == TRIES) {
          throw fault;
        }
      }
    }
  }

  private static String told(ChannelMap map, ReadBlock block, DeviceFault fault) {
    String where =
        switch (fault.kind()) {
          // They say it themselves, or it does not matter.
          case REFUSED, UNREACHABLE, LOST -> "";
          case NO_ANSWER, WRONG_ANSWER, BAD_CHECK, GARBAGE ->
              String.format(
                  Locale.ROOT,
                  "function %d, address %d, %d long: ",
                  block.function(),
                  block.address(),
                  block.count());
        };
    return where + fault.text() + ", " + TRIES + " times" + remedy(map, fault);
  }

  /** What to look at. */
  private static String remedy(ChannelMap map, DeviceFault fault) {
    boolean tcp = map.link() instanceof Link.Tcp;
    return switch (fault.kind()) {
      case UNREACHABLE, LOST -> tcp ? "; are host and tcp_port right?" : "; is serial_port right?";
      case NO_ANSWER ->
          tcp
              ? "; is unit = " + map.unit() + " right, is timeout_ms long enough?"
              : "; are baud, parity and unit = " + map.unit() + " right?";
      case REFUSED ->
          fault.text().startsWith("exception 2 ") || fault.text().startsWith("exception 3 ")
              ? "; are these registers there (addresses count from 0), and is unit = "
                  + map.unit()
                  + " right?"
              : fault.text().startsWith("exception 1 ")
                  ? "; does the device know that function? try function 3 or 4"
                  : "; is unit = " + map.unit() + " right?";
      case WRONG_ANSWER -> "; is unit = " + map.unit() + " right?";
      case BAD_CHECK, GARBAGE -> tcp ? "" : "; are baud and parity right?";
    };
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
