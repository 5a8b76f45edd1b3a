package rampwright.acquisition.device;

import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/** A thread of its own for one link, so that no device waits for another's trouble. */
abstract class SourceWorker implements Runnable {
  private static final long AFTER_DEFECT_NS = TimeUnit.SECONDS.toNanos(1);
  private static final long LONGEST_PARK_NS = TimeUnit.MILLISECONDS.toNanos(200);

  private final Timekeeper time;
  private final EventSink sink;
  private volatile boolean stopped;

  SourceWorker(Timekeeper time, EventSink sink) {
    this.time = time;
    this.sink = sink;
  }

  /** What it talks over, for the thread's name. */
  abstract String link();

  /** Lets the link go; called once the worker has stopped. */
  abstract void close();

  /** The longest it may take to notice that it is to stop, ms. */
  abstract int longestStepMs();

  /** The devices on the link, by their numbers. */
  abstract List<Integer> devices();

  /**
   * Runs, and begins again after a defect of this program or of a library: one odd answer must not
   * end the reading of a device for months.
   */
  final void runToTheEnd() {
    while (!stopped) {
      try {
        run();
        return;
      } catch (RuntimeException e) {
        for (int device : devices()) {
          tell(new DeviceEvent.Fault(device, nanos(), FaultKind.GARBAGE, 1, "a defect: " + e));
        }
        waitUntil(nanos() + AFTER_DEFECT_NS);
      }
    }
  }

  final void stop() {
    stopped = true;
  }

  final boolean isStopped() {
    return stopped;
  }

  final long nanos() {
    return time.nanos();
  }

  final void tell(DeviceEvent event) {
    if (!stopped) {
      sink.take(event);
    }
  }

  /** Waits until an instant of the monotonic clock, or until it is to stop. */
  final void waitUntil(long atNs) {
    long left = atNs - time.nanos();
    while (left > 0 && !stopped) {
      LockSupport.parkNanos(this, Math.min(left, LONGEST_PARK_NS));
      left = atNs - time.nanos();
    }
  }
}
