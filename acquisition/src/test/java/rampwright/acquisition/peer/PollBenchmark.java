package rampwright.acquisition.peer;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.TimeUnit;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.DeviceSet;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.device.RegisterPort;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.MapFiles;
import rampwright.acquisition.map.SerialSettings;
import rampwright.acquisition.modbus.RtuPort;
import rampwright.acquisition.modbus.TcpPort;

/**
 * How often devices can be read and how evenly, beside pymodbus's client on the same server in the
 * same run, and whether 32 devices are read at 10 Hz without a missed turn. Run in the module's
 * folder; arguments: seconds a part, rounds.
 */
public final class PollBenchmark {
  private static final RealTime TIME = new RealTime();
  private static final int DEVICES = 32;
  private static final int DEVICE_HZ = 10;

  /** Where {@code hour_run.py} serves its first motor. */
  private static final int FIRST_PORT = 21500;

  private PollBenchmark() {}

  public static void main(String[] args) throws Exception {
    double seconds = Double.parseDouble(args[0]);
    int rounds = Integer.parseInt(args[1]);
    try (Peers peers = new Peers()) {
      int port = Peers.freePort();
      peers.tcpServer(port);
      Link.Tcp tcp = new Link.Tcp("127.0.0.1", port);
      String tcpMap = "link = \"tcp\"\nhost = \"127.0.0.1\"\ntcp_port = " + port + "\n";
      for (int i = 0; i < rounds; i++) {
        say("tcp ours, fastest", fastest(new TcpPort(tcp, TIME), seconds));
        say("tcp pymodbus, fastest", client("tcp", "" + port, "" + seconds, "0"));
        say("tcp ours, 50 Hz", evenly(tcpMap, 50, seconds));
        say("tcp pymodbus, 50 Hz", client("tcp", "" + port, "" + seconds, "50"));
      }
      Path folder = Files.createTempDirectory("poll");
      Path near = folder.resolve("near");
      peers.lines(near, folder.resolve("far"));
      peers.rtuServer(folder.resolve("far"), 115200);
      SerialSettings line =
          new SerialSettings(near.toString(), 115200, 8, SerialSettings.Parity.NONE, 1);
      String rtuMap =
          "link = \"rtu\"\nserial_port = \"" + near + "\"\nbaud = 115200\nparity = \"none\"\n";
      for (int i = 0; i < rounds; i++) {
        say("rtu ours, fastest", fastest(new RtuPort(new Link.Rtu(line), TIME), seconds));
        say("rtu pymodbus, fastest", client("rtu", line.port(), "115200", "" + seconds, "0"));
        say("rtu ours, 20 Hz", evenly(rtuMap, 20, seconds));
        say("rtu pymodbus, 20 Hz", client("rtu", line.port(), "115200", "" + seconds, "20"));
      }
      // 8 bytes asked, 45 answered, 3.5 characters of silence before each.
      System.out.printf(
          Locale.ROOT, "the line's own limit %.0f a second%n", 1e9 / line.lineTimeNs(8 + 45 + 7));
    }
    many(seconds * 6);
  }

  private static void say(String what, String text) throws Exception {
    System.out.printf(
        Locale.ROOT,
        "%-22s %s (load %s)%n",
        what,
        text,
        Files.readString(Path.of("/proc/loadavg")).split(" ")[0]);
  }

  private static String fastest(RegisterPort port, double seconds) throws DeviceFault {
    for (int i = 0; ; i++) {
      try {
        port.read(17, 3, 0, 20, 1000);
        break;
      } catch (DeviceFault fault) {
        if (i > 20) {
          throw fault;
        }
      }
    }
    List<Double> took = new ArrayList<>();
    long began = TIME.nanos();
    while (TIME.nanos() - began < seconds * 1e9) {
      RegisterPort.Answer answer = port.read(17, 3, 0, 20, 1000);
      took.add((answer.answeredNs() - answer.askedNs()) * 1e-6);
    }
    double whole = (TIME.nanos() - began) * 1e-9;
    port.close();
    return String.format(
        Locale.ROOT,
        "%8.1f a second, %.2f ms (99 %%: %.2f)",
        took.size() / whole,
        part(took, 0.5),
        part(took, 0.99));
  }

  private static double part(List<Double> values, double share) {
    double[] sorted = values.stream().mapToDouble(value -> value).sorted().toArray();
    return sorted[(int) (sorted.length * share)];
  }

  /** As a recording reads: a map, a rate, a device set. */
  private static String evenly(String link, int hz, double seconds) throws Exception {
    List<DeviceEvent> events = read(List.of(map("m", link, 17, hz, 20)), seconds);
    List<Double> took = new ArrayList<>();
    List<Double> off = new ArrayList<>();
    DeviceEvent.Reading before = null;
    for (DeviceEvent event : events) {
      if (event instanceof DeviceEvent.Reading reading) {
        took.add(reading.roundTripNs() * 1e-6);
        if (before != null) {
          off.add(Math.abs((reading.atNs() - before.atNs()) * 1e-6 - 1000.0 / hz));
        }
        before = reading;
      }
    }
    return String.format(
        Locale.ROOT,
        "%8.1f a second, %.2f ms (99 %%: %.2f), jitter %.2f ms (99 %%: %.2f)",
        took.size() / seconds,
        part(took, 0.5),
        part(took, 0.99),
        part(off, 0.5),
        part(off, 0.99));
  }

  private static ChannelMap map(String name, String link, int unit, int hz, int registers)
      throws Exception {
    StringBuilder text =
        new StringBuilder("[device]\nname = \"" + name + "\"\n" + link)
            .append("unit = " + unit + "\npoll_hz = " + hz + "\nbridge = 100\ntimeout_ms = 1000\n");
    String[] channels = {"i1", "i2"};
    for (int k = 0; k < channels.length; k++) {
      text.append("[[channel]]\nname = \"" + channels[k] + "\"\nfunction = 3\naddress = ")
          .append(k == 0 ? 0 : registers - 1)
          .append("\ntype = \"u16\"\nunit = \"A\"\n");
    }
    return MapFiles.parse(name, text.toString());
  }

  private static List<DeviceEvent> read(List<ChannelMap> maps, double seconds) throws Exception {
    ConcurrentLinkedQueue<DeviceEvent> events = new ConcurrentLinkedQueue<>();
    List<DeviceSet> sets = new ArrayList<>();
    for (int i = 0; i < maps.size(); i++) {
      int device = i;
      sets.add(
          new DeviceSet(
              List.of(maps.get(i)),
              new RealLinks(TIME),
              TIME,
              event -> events.add(numbered(event, device)),
              1_000_000_000L));
    }
    sets.forEach(DeviceSet::start);
    TimeUnit.MILLISECONDS.sleep(Math.round(seconds * 1000));
    sets.forEach(DeviceSet::askToStop);
    sets.forEach(DeviceSet::stop);
    return List.copyOf(events);
  }

  private static DeviceEvent numbered(DeviceEvent event, int device) {
    return event instanceof DeviceEvent.Reading r
        ? new DeviceEvent.Reading(
            device,
            r.block(),
            r.atNs(),
            r.roundTripNs(),
            r.lateNs(),
            r.tries(),
            r.channels(),
            r.values(),
            r.raw())
        : event;
  }

  private static String client(String... arguments) throws Exception {
    List<String> words =
        new ArrayList<>(List.of("/usr/bin/python3", "src/test/resources/peer/poll_client.py"));
    words.addAll(List.of(arguments));
    Process process =
        new ProcessBuilder(words).redirectError(ProcessBuilder.Redirect.INHERIT).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    process.waitFor();
    return said.stripTrailing();
  }

  /** 32 servers of pymodbus in a process of their own. */
  private static void many(double seconds) throws Exception {
    Process servers =
        new ProcessBuilder("/usr/bin/python3", "src/bench/hour_run.py", "serve", "" + DEVICES)
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    try {
      TimeUnit.SECONDS.sleep(3);
      List<ChannelMap> maps = new ArrayList<>();
      for (int i = 0; i < DEVICES; i++) {
        String link = "link = \"tcp\"\nhost = \"127.0.0.1\"\ntcp_port = " + (FIRST_PORT + i) + "\n";
        maps.add(map("m" + i, link, 17, DEVICE_HZ, 8));
      }
      // The first seconds load and compile.
      read(maps, 5);
      List<DeviceEvent> events = read(maps, seconds);
      long faults = events.stream().filter(e -> !(e instanceof DeviceEvent.Reading)).count();
      List<Double> late = new ArrayList<>();
      long missed = 0;
      double period = 1e9 / DEVICE_HZ;
      for (int device = 0; device < DEVICES; device++) {
        double due = Double.NaN;
        for (DeviceEvent event : events) {
          if (event instanceof DeviceEvent.Reading reading && reading.device() == device) {
            late.add(reading.lateNs() * 1e-6);
            double now = reading.atNs() - reading.roundTripNs() / 2.0 - reading.lateNs();
            missed += Double.isNaN(due) ? 0 : Math.round((now - due) / period) - 1;
            due = now;
          }
        }
      }
      say(
          "many",
          String.format(
              Locale.ROOT,
              "%d devices at %d Hz for %.0f s: %d readings, %d turns missed, %d asked again or not"
                  + " had, late %.2f ms (99 %%: %.2f, most %.1f)",
              DEVICES,
              DEVICE_HZ,
              seconds,
              late.size(),
              missed,
              faults,
              part(late, 0.5),
              part(late, 0.99),
              late.stream().mapToDouble(value -> value).max().orElse(Double.NaN)));
    } finally {
      servers.destroyForcibly();
    }
  }
}
