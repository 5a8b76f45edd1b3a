package rampwright.acquisition.device;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.MapFiles;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;

/** Several devices on one clock: turns, retries, delays, and that no device waits for another's. */
class DeviceSetTest {
  private final Timekeeper time = new RealTime();
  private final List<DeviceEvent> events = new CopyOnWriteArrayList<>();

  /** Ports in memory, by what links share. */
  private static final class FakeLinks implements Links {
    private final Map<String, RegisterPort> ports = new HashMap<>();
    private @Nullable LinePort lines;
    private @Nullable Trace trace;

    @Override
    public RegisterPort registers(Link link) {
      RegisterPort port = ports.get(link.shared());
      if (port == null) {
        throw new AssertionError(link.shared());
      }
      return port;
    }

    @Override
    public LinePort lines(Link.Lines link) {
      if (lines == null) {
        throw new AssertionError(link.shared());
      }
      return lines;
    }

    @Override
    public Trace replay(ChannelMap map, Link.Replay link) throws DeviceFault {
      if (trace == null) {
        throw new DeviceFault(FaultKind.UNREACHABLE, "there is no such file");
      }
      return trace;
    }
  }

  /** What a port does with a question. */
  @FunctionalInterface
  private interface Ask {
    int[] words(int unit, int address, int count) throws DeviceFault, InterruptedException;
  }

  private RegisterPort port(Ask ask) {
    return new RegisterPort() {
      @Override
      public Answer read(int unit, int function, int address, int count, int timeoutMs)
          throws DeviceFault {
        long asked = time.nanos();
        try {
          return new Answer(ask.words(unit, address, count), asked, time.nanos());
        } catch (InterruptedException e) {
          throw new AssertionError(e);
        }
      }

      @Override
      public void close() {}
    };
  }

  private static ChannelMap map(String name, String host, int unit, String channel, double hz)
      throws Exception {
    String quantity = channel.startsWith("i") ? "A" : channel.startsWith("v") ? "V" : "rpm";
    return MapFiles.parse(
        name,
        "[device]\nname = \""
            + name
            + "\"\nlink = \"tcp\"\nhost = \""
            + host
            + "\"\nunit = "
            + unit
            + "\npoll_hz = "
            + hz
            + "\ntimeout_ms = 100\n[[channel]]\nname = \""
            + channel
            + "\"\nfunction = 3\naddress = 5\ntype = \"u16\"\nunit = \""
            + quantity
            + "\"\n");
  }

  /** Begins to read, as while a start is recorded. */
  private DeviceSet started(FakeLinks links, ChannelMap... maps) {
    DeviceSet set =
        new DeviceSet(List.of(maps), links, time, events::add, DeviceSet.RECORD_DELAY_NS);
    set.start();
    return set;
  }

  /** A set of one device whose port does this. */
  private DeviceSet started(double hz, Ask ask) throws Exception {
    FakeLinks links = new FakeLinks();
    links.ports.put("tcp a port 502", port(ask));
    return started(links, map("a", "a", 1, "i1", hz));
  }

  private double spanOfFirstS(int count) {
    List<DeviceEvent.Reading> good = readings(0);
    return (good.get(count - 1).atNs() - good.get(0).atNs()) / 1e9;
  }

  private List<DeviceEvent.Reading> readings(int device) {
    List<DeviceEvent.Reading> found = new ArrayList<>();
    for (DeviceEvent event : events) {
      if (event instanceof DeviceEvent.Reading reading && reading.device() == device) {
        found.add(reading);
      }
    }
    return found;
  }

  private List<DeviceEvent.Fault> faults(int device) {
    List<DeviceEvent.Fault> found = new ArrayList<>();
    for (DeviceEvent event : events) {
      if (event instanceof DeviceEvent.Fault fault && fault.device() == device) {
        found.add(fault);
      }
    }
    return found;
  }

  @Test
  void aDeadDeviceOnItsOwnLinkDelaysNobody() throws Exception {
    FakeLinks links = new FakeLinks();
    links.ports.put("tcp a port 502", port((unit, address, count) -> new int[] {42}));
    links.ports.put(
        "tcp b port 502",
        port(
            (unit, address, count) -> {
              TimeUnit.MILLISECONDS.sleep(400);
              throw new DeviceFault(FaultKind.NO_ANSWER, "dead");
            }));
    DeviceSet set = started(links, map("a", "a", 1, "i1", 100), map("b", "b", 1, "speed", 100));
    Await.until(() -> readings(0).size() >= 100, events);
    set.stop();
    double spanS = spanOfFirstS(100);
    // 100 readings at 100 Hz are 0.99 s; waiting for the dead one just once would add 0.4 s a turn
    assertThat(spanS).isBetween(0.9, 4.0);
    assertThat(faults(1)).isNotEmpty();
    assertThat(faults(1).get(0).text()).isEqualTo("dead");
  }

  @Test
  void aDeadDeviceOnASharedLineTakesAtMostASmallShareOfIt() throws Exception {
    AtomicInteger dead = new AtomicInteger();
    FakeLinks links = new FakeLinks();
    links.ports.put(
        "tcp bus port 502",
        port(
            (unit, address, count) -> {
              if (unit == 2) {
                dead.incrementAndGet();
                TimeUnit.MILLISECONDS.sleep(50);
                throw new DeviceFault(FaultKind.NO_ANSWER, "dead");
              }
              return new int[] {7};
            }));
    DeviceSet set = started(links, map("a", "bus", 1, "i1", 50), map("b", "bus", 2, "speed", 50));
    Await.until(() -> readings(0).size() >= 100, events);
    set.stop();
    double spanS = spanOfFirstS(100);
    // A tenth of the time at 50 ms a question is 2 a second; the first turn asks twice.
    assertThat(dead.get()).isLessThanOrEqualTo((int) Math.ceil(spanS * 2) + 3);
  }

  @Test
  void aFailedQuestionIsAskedOnceMoreAndTheTriesAreTold() throws Exception {
    AtomicInteger asked = new AtomicInteger();
    DeviceSet set =
        started(
            50,
            (unit, address, count) -> {
              if (asked.incrementAndGet() == 2) {
                throw new DeviceFault(FaultKind.BAD_CHECK, "checksum");
              }
              return new int[] {asked.get()};
            });
    Await.until(() -> readings(0).size() >= 3, events);
    set.stop();
    assertThat(faults(0)).isEmpty();
    assertThat(readings(0).get(0).tries()).isEqualTo(1);
    assertThat(readings(0).get(1).tries()).isEqualTo(2);
    assertThat(readings(0).get(1).values()[0]).isEqualTo(3);
    assertThat(readings(0).get(1).raw()).isEqualTo("0003");
  }

  /** A library may throw anything at an odd answer; a device must not stay unread for that. */
  @Test
  void aDefectIsAFaultAndReadingGoesOn() throws Exception {
    AtomicInteger asked = new AtomicInteger();
    DeviceSet set =
        started(
            50,
            (unit, address, count) -> {
              if (asked.incrementAndGet() == 2) {
                throw new IllegalStateException("odd");
              }
              return new int[] {1};
            });
    Await.until(() -> readings(0).size() >= 3, events);
    set.stop();
    assertThat(faults(0)).hasSize(1);
    assertThat(faults(0).get(0).text()).contains("a defect", "odd");
  }

  @Test
  void aRefusalIsNotAskedAgainAtOnce() throws Exception {
    AtomicInteger asked = new AtomicInteger();
    DeviceSet set =
        started(
            100,
            (unit, address, count) -> {
              asked.incrementAndGet();
              throw new DeviceFault(FaultKind.REFUSED, "exception 2");
            });
    Await.until(() -> faults(0).size() >= 4, events);
    set.stop();
    List<DeviceEvent.Fault> all = faults(0);
    assertThat(all).allMatch(fault -> fault.tries() == 1);
    // 10, 20, 40 ms of peace: each at least as long as it should be.
    for (int i = 1; i < 4; i++) {
      assertThat(all.get(i).atNs() - all.get(i - 1).atNs())
          .isGreaterThanOrEqualTo(TimeUnit.MILLISECONDS.toNanos(10L << i - 1));
    }
  }

  @Test
  void linesBecomeReadingsSilenceAndNonsenseBecomeFaults() throws Exception {
    FakeLinks links = new FakeLinks();
    AtomicInteger turn = new AtomicInteger();
    links.lines =
        new LinePort() {
          @Override
          public @Nullable Line next(int waitMs) throws DeviceFault {
            int now = turn.incrementAndGet();
            if (now == 1) {
              return new Line("82.5 r", 1);
            }
            if (now == 3) {
              return new Line("\u001b]0;rm -rf\u0007", 3);
            }
            if (now == 4) {
              throw new DeviceFault(FaultKind.LOST, "gone");
            }
            if (now > 6) {
              try {
                TimeUnit.MILLISECONDS.sleep(waitMs);
              } catch (InterruptedException e) {
                throw new AssertionError(e);
              }
              return null;
            }
            return new Line("1482.5 rpm", now);
          }

          @Override
          public void close() {}
        };
    ChannelMap tachometer =
        MapFiles.parse(
            "t",
            "[device]\nname = \"t\"\nlink = \"lines\"\nserial_port = \"/dev/x\"\npoll_hz = 5\n"
                + "timeout_ms = 150\npattern = '(?<speed>[0-9.]+) rpm'\n[[channel]]\n"
                + "name = \"speed\"\nunit = \"rpm\"\n");
    DeviceSet set = started(links, tachometer);
    Await.until(
        () -> faults(0).stream().anyMatch(fault -> fault.kind() == FaultKind.NO_ANSWER), events);
    set.stop();
    assertThat(readings(0)).hasSizeBetween(2, 3);
    assertThat(readings(0).get(0).values()).containsExactly(1482.5);
    assertThat(faults(0).get(0).kind()).isEqualTo(FaultKind.GARBAGE);
    assertThat(faults(0).get(0).text()).doesNotContain("\u001b").contains("?]0;rm");
    assertThat(faults(0).get(1).kind()).isEqualTo(FaultKind.LOST);
  }

  @Test
  void aFileIsPlayedWithItsOwnIntervalsAtAnySpeed() throws Exception {
    FakeLinks links = new FakeLinks();
    links.trace =
        new Trace(
            TimeBase.even(3, 0.1, 31),
            Map.of(ChannelName.I1, Samples.of(new double[31])),
            null,
            Provenance.computed("made"));
    ChannelMap replay =
        MapFiles.parse(
            "r",
            "[device]\nname = \"r\"\nlink = \"replay\"\nfile = \"x.csv\"\nspeed = 30\n"
                + "poll_hz = 10\n[[channel]]\nname = \"i1\"\nunit = \"A\"\n");
    DeviceSet set = started(links, replay);
    Await.until(
        () -> events.stream().anyMatch(event -> event instanceof DeviceEvent.Ended), events);
    set.stop();
    List<DeviceEvent.Reading> all = readings(0);
    assertThat(all).hasSize(31);
    assertThat(all.get(30).atNs() - all.get(0).atNs()).isEqualTo(3_000_000_000L);
  }

  @Test
  void mapsThatExcludeEachOtherAreRefusedWithWhatToDo() throws Exception {
    assertThat(DeviceSet.conflict(List.of(map("a", "a", 1, "i1", 10), map("b", "b", 1, "i1", 10))))
        .isEqualTo("i1 comes from both a and b; take it out of one of the maps");
    assertThat(DeviceSet.conflict(List.of())).isEqualTo("no channel map was given");
    assertThatThrownBy(() -> new DeviceSet(List.of(), new FakeLinks(), time, events::add, 1))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
