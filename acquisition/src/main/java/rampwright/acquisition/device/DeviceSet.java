package rampwright.acquisition.device;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.MapChannel;
import rampwright.analysis.trace.ChannelName;

/**
 * Devices that are read together, all dated by one clock. Each link has a thread of its own, so
 * that a dead device delays nobody; devices on one link take turns.
 */
public final class DeviceSet {
  /** How long a device that fails for long is left alone while a start may come any moment. */
  public static final long RECORD_DELAY_NS = RegisterWorker.RECORD_DELAY_NS;

  private final List<ChannelMap> maps;
  private final List<SourceWorker> workers = new ArrayList<>();
  private final List<Thread> threads = new ArrayList<>();

  /**
   * Devices; nothing is opened yet.
   *
   * @param mostDelayNs the longest a failing device is left alone
   * @throws IllegalArgumentException when {@link #conflict} has something to say
   */
  public DeviceSet(
      List<ChannelMap> maps, Links links, Timekeeper time, EventSink sink, long mostDelayNs) {
    String conflict = conflict(maps);
    if (!conflict.isEmpty()) {
      throw new IllegalArgumentException(conflict);
    }
    this.maps = List.copyOf(maps);
    Map<String, List<Integer>> registerLinks = new LinkedHashMap<>();
    for (int i = 0; i < maps.size(); i++) {
      ChannelMap map = maps.get(i);
      if (map.link() instanceof Link.Lines lines) {
        workers.add(new LineWorker(i, map, lines, links.lines(lines), time, sink, mostDelayNs));
      } else if (map.link() instanceof Link.Replay replay) {
        workers.add(new ReplayWorker(i, map, replay, links, time, sink));
      } else {
        registerLinks.computeIfAbsent(map.link().shared(), link -> new ArrayList<>()).add(i);
      }
    }
    registerLinks.forEach(
        (shared, devices) ->
            workers.add(
                new RegisterWorker(
                    maps,
                    devices,
                    links.registers(maps.get(devices.get(0)).link()),
                    time,
                    sink,
                    mostDelayNs)));
  }

  /** The maps, in the order of device numbers. */
  public List<ChannelMap> maps() {
    return maps;
  }

  /** Why these maps cannot be read together, and what to do; empty when they can. */
  public static String conflict(List<ChannelMap> maps) {
    if (maps.isEmpty()) {
      return "no channel map was given";
    }
    Map<ChannelName, String> owner = new EnumMap<>(ChannelName.class);
    Map<String, Link> links = new LinkedHashMap<>();
    for (ChannelMap map : maps) {
      for (MapChannel channel : map.channels()) {
        String other = owner.putIfAbsent(channel.name(), map.name());
        if (other != null) {
          return channel.name().key()
              + " comes from both "
              + other
              + " and "
              + map.name()
              + "; take it out of one of the maps";
        }
      }
      Link same = links.putIfAbsent(map.link().shared(), map.link());
      if (same != null && (!same.equals(map.link()) || same instanceof Link.Lines)) {
        return map.name()
            + ": "
            + map.link().shared()
            + " is used by another map in another way; one port has one set of settings";
      }
    }
    return "";
  }

  /** Begins to read. */
  public void start() {
    for (SourceWorker worker : workers) {
      Thread thread = new Thread(worker::runToTheEnd, "device " + worker.link());
      thread.setDaemon(true);
      threads.add(thread);
      thread.start();
    }
  }

  /** Tells every link to end; does not wait. */
  public void askToStop() {
    workers.forEach(SourceWorker::stop);
  }

  /** Ends reading and lets every link go; what is under way is waited for, but not for long. */
  public void stop() {
    askToStop();
    boolean interrupted = false;
    for (int i = 0; i < threads.size(); i++) {
      SourceWorker worker = workers.get(i);
      try {
        TimeUnit.MILLISECONDS.timedJoin(threads.get(i), 500L + worker.longestStepMs());
      } catch (InterruptedException e) {
        interrupted = true;
      }
      worker.close();
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
  }
}
