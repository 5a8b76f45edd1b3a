package rampwright.acquisition.peer;

import com.ghgande.j2mod.modbus.procimg.SimpleProcessImage;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.slave.ModbusSlave;
import com.ghgande.j2mod.modbus.slave.ModbusSlaveFactory;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.TimeUnit;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.DeviceSet;
import rampwright.acquisition.device.LinePort;
import rampwright.acquisition.device.Links;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.device.RegisterPort;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.MapFiles;
import rampwright.acquisition.map.SerialSettings;
import rampwright.acquisition.modbus.RtuPort;
import rampwright.acquisition.modbus.TcpPort;
import rampwright.analysis.trace.Trace;

/**
 * How often devices can be read, beside pymodbus's client on the same server in the same run, and
 * whether 32 devices are read at 10 Hz without a missed turn. Arguments: seconds a part, rounds.
 */
public final class PollBenchmark {
  private static final RealTime TIME = new RealTime();

  private PollBenchmark() {}

  public static void main(String[] args) throws Exception {
    double seconds = Double.parseDouble(args[0]);
    int rounds = Integer.parseInt(args[1]);
    try (Peers peers = new Peers()) {
      int port = Peers.freePort();
      peers.tcpServer(port);
      TcpPort tcp = new TcpPort(new Link.Tcp("127.0.0.1", port), TIME);
      for (int i = 0; i < rounds; i++) {
        System.out.println("tcp ours     " + poll(tcp, seconds));
        System.out.println("tcp pymodbus " + client("tcp", "" + port, "" + seconds));
      }
      tcp.close();
      Path folder = Files.createTempDirectory("poll");
      peers.lines(folder.resolve("near"), folder.resolve("far"));
      peers.rtuServer(folder.resolve("far"), 115200);
      SerialSettings line =
          new SerialSettings(
              folder.resolve("near").toString(), 115200, 8, SerialSettings.Parity.NONE, 1);
      RtuPort rtu = new RtuPort(new Link.Rtu(line), TIME);
      for (int i = 0; i < rounds; i++) {
        System.out.println("rtu ours     " + poll(rtu, seconds));
        rtu.close();
        System.out.println("rtu pymodbus " + client("rtu", line.port(), "115200", "" + seconds));
      }
      // 8 bytes asked, 45 answered, 3.5 characters of silence before each.
      System.out.printf(
          Locale.ROOT, "the line's own limit %.0f a second%n", 1e9 / line.lineTimeNs(8 + 45 + 7));
    }
    many(32, 10, seconds * 3);
  }

  private static String poll(RegisterPort port, double seconds) throws DeviceFault {
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
    double[] sorted = took.stream().mapToDouble(v -> v).sorted().toArray();
    return String.format(
        Locale.ROOT,
        "%.1f %.2f %.2f",
        sorted.length / whole,
        sorted[sorted.length / 2],
        sorted[(int) (sorted.length * 0.99)]);
  }

  private static String client(String... arguments) throws Exception {
    List<String> words =
        new ArrayList<>(List.of("/usr/bin/python3", "src/test/resources/peer/poll_client.py"));
    words.addAll(List.of(arguments));
    Process process =
        new ProcessBuilder(words).redirectError(ProcessBuilder.Redirect.INHERIT).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    process.waitFor();
    return said.strip();
  }

  private static void many(int devices, int hz, double seconds) throws Exception {
    List<ModbusSlave> slaves = new ArrayList<>();
    List<DeviceSet> sets = new ArrayList<>();
    ConcurrentLinkedQueue<DeviceEvent> events = new ConcurrentLinkedQueue<>();
    for (int i = 0; i < devices; i++) {
      int port = Peers.freePort();
      ModbusSlave slave =
          ModbusSlaveFactory.createTCPSlave(InetAddress.getLoopbackAddress(), port, 1, false);
      SimpleProcessImage image = new SimpleProcessImage(1);
      for (int k = 0; k < 20; k++) {
        image.addRegister(new SimpleRegister(k));
      }
      slave.addProcessImage(1, image);
      slave.open();
      slaves.add(slave);
      ChannelMap map =
          MapFiles.parse(
              "m",
              "[device]\nname = \"d\"\nlink = \"tcp\"\nhost = \"127.0.0.1\"\ntcp_port = "
                  + port
                  + "\npoll_hz = "
                  + hz
                  + "\n[[channel]]\nname = \"i1\"\nfunction = 3\naddress = 0\ntype = \"u16\"\n"
                  + "unit = \"A\"\n");
      sets.add(new DeviceSet(List.of(map), new RealLinks(), TIME, events::add, 1_000_000_000L));
    }
    sets.forEach(DeviceSet::start);
    TimeUnit.MILLISECONDS.sleep(Math.round(seconds * 1000));
    sets.forEach(DeviceSet::stop);
    slaves.forEach(ModbusSlave::close);
    long readings = 0;
    long faults = 0;
    List<Double> late = new ArrayList<>();
    for (DeviceEvent event : events) {
      if (event instanceof DeviceEvent.Reading reading) {
        readings++;
        late.add(reading.lateNs() * 1e-6);
      } else {
        faults++;
      }
    }
    double[] sorted = late.stream().mapToDouble(v -> v).toArray();
    Arrays.sort(sorted);
    System.out.printf(
        Locale.ROOT,
        "%d devices at %d Hz for %.0f s: %d readings of %.0f turns, %d faults, late 50 %% %.2f ms,"
            + " 99 %% %.2f ms, most %.1f ms%n",
        devices,
        hz,
        seconds,
        readings,
        devices * hz * seconds,
        faults,
        sorted[sorted.length / 2],
        sorted[(int) (sorted.length * 0.99)],
        sorted[sorted.length - 1]);
  }

  private static final class RealLinks implements Links {
    @Override
    public RegisterPort registers(Link link) {
      return new TcpPort((Link.Tcp) link, TIME);
    }

    @Override
    public LinePort lines(Link.Lines link) {
      throw new IllegalStateException("no lines here");
    }

    @Override
    public Trace replay(ChannelMap map, Link.Replay link) {
      throw new IllegalStateException("nothing is played here");
    }
  }
}
