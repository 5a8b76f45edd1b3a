package rampwright.acquisition.watch;

import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.device.DeviceSet;
import rampwright.acquisition.device.Links;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.record.LiveView;
import rampwright.acquisition.record.RecordedTrial;
import rampwright.acquisition.record.TrialSession;

/** One station: its devices, and one recording after the other. */
final class StationKeeper {
  private static final long SAY_EVERY_NS = TimeUnit.MINUTES.toNanos(1);

  private final Station station;
  private final Timekeeper time;
  private final RotatingLog log;
  private final DeviceSet devices;
  private final String[] trouble;
  private final long[] saidNs;
  private final Queue<TrialSession> ended = new ConcurrentLinkedQueue<>();
  private volatile TrialSession session;
  private final AtomicLong trials = new AtomicLong();
  private volatile String lastTrial = "";

  StationKeeper(Station station, Links links, Timekeeper time, RotatingLog log, long mostDelayNs) {
    this.station = station;
    this.time = time;
    this.log = log;
    this.trouble = new String[station.plan().maps().size()];
    this.saidNs = new long[trouble.length];
    this.session = new TrialSession(station.plan(), time);
    this.devices = new DeviceSet(station.plan().maps(), links, time, this::take, mostDelayNs);
  }

  Station station() {
    return station;
  }

  void start() {
    devices.start();
  }

  /** The next recording is armed with the reading that ended the one before: no start is missed. */
  void take(DeviceEvent event) {
    synchronized (ended) {
      session.take(event);
      if (session.isEnded()) {
        armNext();
        session.take(event);
      }
    }
    tellChange(event);
  }

  private void armNext() {
    ended.add(session);
    session = new TrialSession(station.plan(), time);
  }

  /**
   * Says when a device falls silent and when it is back, not each time it is asked in vain, and of
   * one that stumbles all the time not more than once a minute.
   */
  private void tellChange(DeviceEvent event) {
    String name = station.name() + ": " + station.plan().maps().get(event.device()).name();
    String said = null;
    synchronized (trouble) {
      String before = trouble[event.device()];
      boolean rested =
          saidNs[event.device()] == 0 || event.atNs() - saidNs[event.device()] > SAY_EVERY_NS;
      if (event instanceof DeviceEvent.Fault fault && before == null && rested) {
        saidNs[event.device()] = event.atNs();
        trouble[event.device()] = fault.text();
        said = name + ": " + fault.text();
      } else if (event instanceof DeviceEvent.Reading && before != null) {
        trouble[event.device()] = null;
        said = name + ": is read again";
      }
    }
    if (said != null) {
      log.say(said);
    }
  }

  /** A recording that has ended, another one being armed in its place; null while there is none. */
  @Nullable TrialSession takeEnded() {
    synchronized (ended) {
      session.tick();
      if (session.isEnded()) {
        armNext();
      }
    }
    return ended.poll();
  }

  /** Tells the devices to end; does not wait. */
  void askToStop() {
    devices.askToStop();
  }

  /** Lets the devices go and ends the recording under way; all that are still to be made whole. */
  List<TrialSession> end() {
    devices.stop();
    synchronized (ended) {
      session.endNow("the watch was stopped");
      List<TrialSession> last = new ArrayList<>(ended);
      ended.clear();
      last.add(session);
      return last;
    }
  }

  void recorded(RecordedTrial trial) {
    trials.incrementAndGet();
    lastTrial = trial.folder().toString();
  }

  WatchStatus.StationStatus status() {
    LiveView view = session.view();
    return new WatchStatus.StationStatus(
        station.name(),
        view.phase().key(),
        view.waitingFor(),
        trials.get(),
        lastTrial,
        view.devices());
  }
}
