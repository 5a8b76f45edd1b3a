package rampwright.acquisition.device;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.PriorityQueue;
import java.util.concurrent.TimeUnit;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.ReadBlock;

/** Asks the Modbus devices of one link in turn, each block of registers at its rate. */
final class RegisterWorker extends SourceWorker {
  /** A question is asked twice before its turn is given up; once while the device is failing. */
  private static final int TRIES = 2;

  private final RegisterPort port;
  private final String link;
  private final PriorityQueue<Turn> turns =
      new PriorityQueue<>(
          Comparator.<Turn>comparingLong(turn -> turn.dueNs).thenComparingInt(turn -> turn.order));
  private final int longestTimeoutMs;
  private final List<Integer> devices;
  private final List<Turn> all = new ArrayList<>();

  /** One block of one device and when it is next asked. */
  private static final class Turn {
    private final Device device;
    private final int index;
    private final ReadBlock block;
    private final long periodNs;
    private final int order;
    private long dueNs;

    Turn(Device device, int index, ReadBlock block, int order) {
      this.device = device;
      this.index = index;
      this.block = block;
      this.order = order;
      this.periodNs = Math.round(1e9 / device.map.hz(block.poll()));
    }
  }

  private static final class Device {
    private final int index;
    private final ChannelMap map;
    private final Backoff backoff;
    private long notBeforeNs = Long.MIN_VALUE;

    Device(int index, ChannelMap map, Backoff backoff) {
      this.index = index;
      this.map = map;
      this.backoff = backoff;
    }
  }

  /**
   * A worker.
   *
   * @param devices indices into {@code maps} of the devices on the link
   */
  RegisterWorker(
      List<ChannelMap> maps,
      List<Integer> devices,
      RegisterPort port,
      Timekeeper time,
      EventSink sink,
      long mostDelayNs) {
    super(time, sink);
    this.port = port;
    this.link = maps.get(devices.get(0)).link().shared();
    this.devices = List.copyOf(devices);
    int longest = 0;
    int order = 0;
    for (int i : devices) {
      ChannelMap map = maps.get(i);
      longest = Math.max(longest, map.timeoutMs());
      Device device =
          new Device(
              i, map, new Backoff(Math.round(1e9 / map.hz()), mostDelayNs, devices.size() > 1));
      List<ReadBlock> blocks = ReadBlock.of(map);
      for (int b = 0; b < blocks.size(); b++) {
        all.add(new Turn(device, b, blocks.get(b), order++));
      }
    }
    longestTimeoutMs = longest;
  }

  @Override
  String link() {
    return link;
  }

  @Override
  List<Integer> devices() {
    return devices;
  }

  @Override
  void close() {
    port.close();
  }

  @Override
  int longestStepMs() {
    return 3 * longestTimeoutMs;
  }

  @Override
  public void run() {
    long begin = nanos();
    turns.clear();
    all.forEach(turn -> turn.dueNs = begin);
    turns.addAll(all);
    while (!isStopped()) {
      Turn turn = turns.poll();
      if (turn == null) {
        return;
      }
      waitUntil(turn.dueNs);
      if (isStopped()) {
        return;
      }
      long now = nanos();
      if (now < turn.device.notBeforeNs) {
        turn.dueNs = turn.device.notBeforeNs;
      } else {
        ask(turn, now - turn.dueNs);
        now = nanos();
        // Turns that passed while something took long are left out, not made up for in a rush.
        long passed = Math.max(0, (now - turn.dueNs) / turn.periodNs);
        turn.dueNs += (passed + 1) * turn.periodNs;
        turn.dueNs = Math.max(turn.dueNs, turn.device.notBeforeNs);
      }
      turns.add(turn);
    }
  }

  private void ask(Turn turn, long lateNs) {
    Device device = turn.device;
    ReadBlock block = turn.block;
    long beganNs = nanos();
    int allowed = device.backoff.isFailing() ? 1 : TRIES;
    for (int tries = 1; ; tries++) {
      try {
        RegisterPort.Answer answer =
            port.read(
                device.map.unit(),
                block.function(),
                block.address(),
                block.count(),
                device.map.timeoutMs());
        device.backoff.worked();
        device.notBeforeNs = Long.MIN_VALUE;
        tell(reading(turn, answer, lateNs, tries));
        return;
      } catch (DeviceFault fault) {
        boolean again =
            tries < allowed
                && !isStopped()
                && fault.kind() != FaultKind.REFUSED
                && fault.kind() != FaultKind.UNREACHABLE;
        long now = nanos();
        if (again) {
          tell(new DeviceEvent.AskedAgain(device.index, now, fault.text()));
        } else {
          device.notBeforeNs = now + device.backoff.failedNs(now - beganNs);
          tell(new DeviceEvent.Fault(device.index, now, fault.kind(), tries, fault.text()));
          return;
        }
      }
    }
  }

  private static DeviceEvent.Reading reading(
      Turn turn, RegisterPort.Answer answer, long lateNs, int tries) {
    ChannelMap map = turn.device.map;
    int[] channels = new int[turn.block.channels().size()];
    double[] values = new double[channels.length];
    for (int i = 0; i < channels.length; i++) {
      channels[i] = turn.block.channels().get(i);
      values[i] = turn.block.value(map, channels[i], answer.words());
    }
    long roundTripNs = answer.answeredNs() - answer.askedNs();
    return new DeviceEvent.Reading(
        turn.device.index,
        turn.index,
        answer.askedNs() + roundTripNs / 2,
        roundTripNs,
        lateNs,
        tries,
        channels,
        values,
        hex(answer.words(), turn.block.function() <= 2));
  }

  /** Words as hex without blanks, bits as 0 and 1. */
  static String hex(int[] words, boolean bits) {
    StringBuilder text = new StringBuilder(words.length * 4);
    for (int word : words) {
      text.append(bits ? String.valueOf(word) : String.format(Locale.ROOT, "%04X", word));
    }
    return text.toString();
  }

  /**
   * The delay after which a device that fails for long is asked again while a start is recorded.
   */
  static final long RECORD_DELAY_NS = TimeUnit.SECONDS.toNanos(1);
}
