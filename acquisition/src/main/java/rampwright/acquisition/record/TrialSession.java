package rampwright.acquisition.record;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.device.EventSink;
import rampwright.acquisition.device.Timekeeper;
import rampwright.analysis.trace.ChannelName;

/**
 * One trial from arming to its end. Readings come in by {@link #take}; their own instants decide
 * begin and end, so that a test can feed them at any speed.
 */
public final class TrialSession implements EventSink {
  /** Rest after a stop that belongs to the trial, s; the figures want one second of it. */
  private static final double REST_TAIL_S = 3;

  /** Steady run that belongs to the trial, s. */
  private static final double STEADY_TAIL_S = 2;

  /** Without current for so long, a speed that does not come to rest is not believed, s. */
  private static final double NO_CURRENT_S = 120;

  /** About 100 MB: two hours of 40 readings a second. */
  private static final int MOST_EVENTS = 300_000;

  /**
   * The begin is dated back to the first of the readings that show it, which must still be held.
   */
  private static final long HELD_BESIDES_NS = 3_000_000_000L;

  private final RecordPlan plan;
  private final Timekeeper time;
  private final Journal journal;
  private final List<JournalLine.Device> devices = new ArrayList<>();
  private final List<DeviceMeter> meters = new ArrayList<>();
  private final MotorWatch motor;
  private final long armedNs;
  private final long preNs;

  private final Deque<DeviceEvent> events = new ArrayDeque<>();
  private LiveView.Phase phase = LiveView.Phase.ARMED;
  private boolean beginWanted;
  private JournalLine.@Nullable Clock clock;
  private JournalLine.@Nullable Begin begin;
  private @Nullable Path folder;
  private String ended = "";
  private long latestNs = Long.MIN_VALUE;
  private long steadySinceNs = Long.MIN_VALUE;
  private double peakA = Double.NaN;
  private int endedDevices;

  /**
   * Arms.
   *
   * @throws IllegalArgumentException when the plan asks for what its maps cannot tell
   */
  public TrialSession(RecordPlan plan, Timekeeper time) {
    this(plan, time, JournalFile::create);
  }

  TrialSession(RecordPlan plan, Timekeeper time, JournalFile.Opener opener) {
    String lack = lack(plan);
    if (!lack.isEmpty()) {
      throw new IllegalArgumentException(lack);
    }
    this.plan = plan;
    this.time = time;
    this.motor = new MotorWatch(plan.maps(), plan.ratedCurrentA(), plan.ratedSpeedRpm());
    this.armedNs = time.nanos();
    this.preNs = Math.round(plan.preS() * 1e9);
    this.beginWanted = plan.on() == TriggerKind.NOW;
    for (int i = 0; i < plan.maps().size(); i++) {
      devices.add(JournalLine.device(i, plan.maps().get(i)));
      meters.add(new DeviceMeter(plan.maps().get(i)));
    }
    Path armed =
        plan.journalArmed()
            ? plan.trials()
                .resolve(TrialFolders.ARMED + ProcessHandle.current().pid() + "-" + armedNs)
            : null;
    JournalLine.Clock armedClock = new JournalLine.Clock(armedNs, time.utc());
    this.clock = armedClock;
    List<byte[]> head = new ArrayList<>();
    head.add(new JournalLine.Head(JournalLine.VERSION).bytes());
    devices.forEach(device -> head.add(device.bytes()));
    head.add(armedClock.bytes());
    this.journal = new Journal(head, armed, plan.preS(), time, opener);
  }

  /** What the plan wants that its maps cannot tell, and what to do; empty when all is there. */
  public static String lack(RecordPlan plan) {
    boolean current =
        plan.maps().stream().anyMatch(map -> ChannelName.CURRENTS.stream().anyMatch(map::has));
    boolean speed = plan.maps().stream().anyMatch(map -> map.has(ChannelName.SPEED));
    boolean run = plan.maps().stream().anyMatch(map -> map.has(ChannelName.RUN));
    return switch (plan.on()) {
      case CURRENT -> current ? "" : "no map has a current; begin on speed, run or now";
      case SPEED -> speed ? "" : "no map has a speed; begin on current, run or now";
      case RUN -> run ? "" : "no map has a run command; begin on current, speed or now";
      case NOW -> "";
    };
  }

  @Override
  public synchronized void take(DeviceEvent event) {
    if (phase == LiveView.Phase.ENDED) {
      return;
    }
    latestNs = Math.max(latestNs, event.atNs());
    events.addLast(event);
    meters.get(event.device()).take(event);
    journal.append(new JournalLine.Event(event).bytes());
    if (event instanceof DeviceEvent.Reading reading) {
      motor.take(reading);
      if (phase == LiveView.Phase.RECORDING) {
        notePeak();
      }
      if (phase == LiveView.Phase.ARMED) {
        lookForBegin(reading);
      }
      if (phase == LiveView.Phase.RECORDING) {
        lookForEnd(reading.atNs());
      }
    } else if (event instanceof DeviceEvent.Ended) {
      endedDevices++;
      if (endedDevices == plan.maps().size()) {
        endNow("what was played is over");
      }
    }
    if (phase == LiveView.Phase.ARMED) {
      forgetOld();
    } else if (events.size() > MOST_EVENTS) {
      endNow("a trial holds " + MOST_EVENTS + " readings at most");
    }
  }

  private void notePeak() {
    double now = motor.highestCurrentA();
    if (!Double.isNaN(now) && !(now <= peakA)) {
      peakA = now;
    }
  }

  private void forgetOld() {
    while (!events.isEmpty() && latestNs - events.getFirst().atNs() > preNs + HELD_BESIDES_NS) {
      events.removeFirst();
    }
  }

  private void lookForBegin(DeviceEvent.Reading reading) {
    if (beginWanted) {
      begin(reading.atNs(), plan.on() == TriggerKind.NOW ? "at once" : "by hand");
      return;
    }
    MotorWatch.State state =
        switch (plan.on()) {
          case SPEED -> motor.speed();
          case RUN -> motor.run();
          case CURRENT, NOW -> motor.current();
        };
    if (state.hasBegun()) {
      String why =
          switch (plan.on()) {
            case SPEED -> String.format(Locale.ROOT, "speed above %.3g rpm", motor.speed().level());
            case RUN -> "run command";
            case CURRENT, NOW ->
                String.format(Locale.ROOT, "current above %.3g A", motor.current().level());
          };
      begin(state.sinceNs(), why);
    }
  }

  private void begin(long atNs, String why) {
    events.removeIf(event -> event.atNs() < atNs - preNs);
    // The wall clock may have been set while it was waiting.
    JournalLine.Clock now = new JournalLine.Clock(time.nanos(), time.utc());
    JournalLine.Begin line = new JournalLine.Begin(atNs, why);
    Instant beginUtc = now.utc().plusNanos(Math.min(0, atNs - now.atNs()));
    Path made = TrialFolders.claim(plan.trials(), beginUtc);
    List<byte[]> lines = new ArrayList<>();
    lines.add(now.bytes());
    lines.add(line.bytes());
    events.forEach(event -> lines.add(new JournalLine.Event(event).bytes()));
    SettingsText settings = plan.settings();
    journal.begin(
        made,
        lines,
        settings == null ? null : settings.of(beginUtc, "").getBytes(StandardCharsets.UTF_8));
    clock = now;
    begin = line;
    folder = made;
    phase = LiveView.Phase.RECORDING;
    notePeak();
  }

  private void lookForEnd(long nowNs) {
    JournalLine.Begin from = begin;
    if (from == null) {
      return;
    }
    if ((nowNs - from.atNs()) * 1e-9 >= plan.longestS()) {
      endNow("longest time");
      return;
    }
    boolean steady = plan.until() == EndKind.SETTLED && motor.isSteady();
    if (!steady) {
      steadySinceNs = Long.MIN_VALUE;
    } else if (steadySinceNs == Long.MIN_VALUE) {
      steadySinceNs = nowNs;
    } else if ((nowNs - steadySinceNs) * 1e-9 >= STEADY_TAIL_S) {
      endNow("settled");
      return;
    }
    MotorWatch.State current = motor.current();
    MotorWatch.State speed = motor.speed();
    MotorWatch.State ruling = current.isKnown() ? current : speed;
    if (!ruling.wasEverOn() || ruling.isOn()) {
      return;
    }
    double offS = (nowNs - ruling.sinceNs()) * 1e-9;
    boolean atRest = !speed.isKnown() || (!speed.isOn() && since(speed, nowNs) >= REST_TAIL_S);
    if (offS >= REST_TAIL_S && (atRest || offS >= NO_CURRENT_S)) {
      endNow("stopped");
    }
  }

  private static double since(MotorWatch.State state, long nowNs) {
    return (nowNs - state.sinceNs()) * 1e-9;
  }

  /** Begins with the next reading, whatever the readings say. */
  public synchronized void beginNow() {
    beginWanted = true;
  }

  /** Ends; a trial that has not begun ends without one. */
  public synchronized void endNow(String why) {
    if (phase == LiveView.Phase.ENDED) {
      return;
    }
    journal.append(new JournalLine.End(latestNs, why).bytes());
    ended = why;
    phase = LiveView.Phase.ENDED;
  }

  /** Looks whether the longest time is over though nothing is read any more. */
  public synchronized void tick() {
    JournalLine.Begin from = begin;
    if (phase == LiveView.Phase.RECORDING
        && from != null
        && (time.nanos() - from.atNs()) * 1e-9 >= plan.longestS() + 1) {
      endNow("longest time");
    }
  }

  public synchronized boolean isEnded() {
    return phase == LiveView.Phase.ENDED;
  }

  /** Whether there is a trial, begun or ended. */
  public synchronized boolean hasBegun() {
    return begin != null;
  }

  /** How it stands. */
  public synchronized LiveView view() {
    JournalLine.Begin from = begin;
    long reference = from == null ? armedNs : from.atNs();
    long now = from == null ? time.nanos() : Math.max(latestNs, from.atNs());
    return new LiveView(
        phase,
        (now - reference) * 1e-9,
        motor.latest(),
        motor.highestCurrentA(),
        peakA,
        waitingFor(),
        meters.stream().map(DeviceMeter::state).toList(),
        journal.trouble(),
        ended);
  }

  private String waitingFor() {
    if (phase != LiveView.Phase.ARMED) {
      return "";
    }
    MotorWatch.State state =
        switch (plan.on()) {
          case SPEED -> motor.speed();
          case RUN -> motor.run();
          case CURRENT, NOW -> motor.current();
        };
    String what =
        switch (plan.on()) {
          case SPEED -> "the shaft to turn";
          case RUN -> "the run command";
          case CURRENT -> "current to flow";
          case NOW -> "the first reading";
        };
    if (latestNs == Long.MIN_VALUE) {
      return "the first reading";
    }
    return state.isOn() && !state.hasBegun()
        ? "rest: it runs already; a trial begins once it has stopped"
        : what;
  }

  /** How long readings were in memory only at most, s. */
  double longestUnsafeS() {
    return journal.longestUnsafeNs() * 1e-9;
  }

  /**
   * Makes the trial's folder whole. To be called once, after the end.
   *
   * @throws IOException when the disk does not take the trace; the journal stays and the next
   *     recovery makes the trial of it
   */
  public RecordedTrial finish() throws IOException, InterruptedException {
    journal.close();
    List<DeviceEvent> all;
    JournalLine.Begin from;
    Path made;
    JournalLine.Clock when;
    String why;
    synchronized (this) {
      all = new ArrayList<>(events);
      from = begin;
      made = folder;
      when = clock;
      why = ended;
    }
    if (from == null || made == null) {
      throw new IllegalStateException("there is no trial");
    }
    List<String> notes = new ArrayList<>(plan.notes());
    List<String> remarks = new ArrayList<>();
    if (journal.dropped() > 0) {
      remarks.add(journal.dropped() + " readings were not kept in the journal for want of memory");
    }
    notes.add("began by " + from.why() + ", ended by " + why);
    TrialBuilder.Built built = TrialBuilder.build(devices, when, all, from.atNs() - preNs, notes);
    if (built == null) {
      Recovery.removeEmptyTrial(made);
      throw new NoTraceException(
          made.getFileName() + ": fewer than two readings were had, which makes no trace");
    }
    return TrialWriter.write(made, built, plan.settings(), when, from, why, remarks);
  }

  /** Gives up a trial that has not begun; nothing is left of it. */
  public void discard() throws IOException, InterruptedException {
    endNow("given up");
    journal.close();
    journal.removeArmed();
  }
}
