package rampwright.app.usecase;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Enters finished trials into the logbook beside the recording, one after the other, in a thread of
 * its own: whoever records only hands them over and never waits. Where the logbook is away the same
 * trial is tried again, first soon, then more and more seldom; what is left at the end stays marked
 * in its folder and is picked up when recording begins again.
 */
public final class LogQueue implements AutoCloseable {
  /** Longest wait between two tries. */
  private static final Duration LONGEST_WAIT = Duration.ofMinutes(10);

  /** How long an end waits for the entry under way; a server that hangs must not hold it up. */
  private static final Duration END_WAIT = Duration.ofSeconds(30);

  private final Try entering;
  private final Consumer<String> talk;
  private final Duration firstWait;
  private final ReentrantLock lock = new ReentrantLock();
  private final Condition changed = lock.newCondition();
  private final Deque<Path> waiting = new ArrayDeque<>();
  private final Thread worker;
  private boolean closing;

  /** How a trial is entered; {@link LogTrial} does it. */
  public interface Try {
    LogTrial.Logged log(Path trial);
  }

  /**
   * A queue at work.
   *
   * @param entering enters one trial, and throws nothing
   * @param talk gets a line for each trial entered, and for each kind of trouble once
   * @param firstWait between a first try that failed and the second; each further one twice as long
   */
  public LogQueue(Try entering, Consumer<String> talk, Duration firstWait) {
    this.entering = entering;
    this.talk = talk;
    this.firstWait = firstWait;
    worker = new Thread(this::work, "logbook");
    worker.setDaemon(true);
    worker.start();
  }

  /** Hands a finished trial over; returns at once. */
  public void offer(Path trial) {
    lock.lock();
    try {
      if (!waiting.contains(trial)) {
        waiting.add(trial);
        changed.signalAll();
      }
    } finally {
      lock.unlock();
    }
  }

  /** Hands over what earlier recordings of an asset left marked. */
  public void pickUp(Path assetFolder) {
    LogTrial.waiting(assetFolder).forEach(this::offer);
  }

  private void work() {
    String saidBefore = "";
    Duration wait = firstWait;
    try {
      for (Path trial = next(); trial != null; trial = next()) {
        LogTrial.Logged logged = entering.log(trial);
        boolean later = logged.fate() == LogTrial.Fate.LATER;
        if (!later || !logged.text().equals(saidBefore)) {
          talk.accept(trial + ": " + logged.text());
        }
        saidBefore = later ? logged.text() : "";
        if (!later) {
          done(trial);
          wait = firstWait;
        } else if (ended(wait)) {
          return;
        } else {
          Duration twice = wait.multipliedBy(2);
          wait = twice.compareTo(LONGEST_WAIT) > 0 ? LONGEST_WAIT : twice;
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** The next trial, left in the queue; null at the end. */
  private @Nullable Path next() throws InterruptedException {
    lock.lock();
    try {
      while (waiting.isEmpty() && !closing) {
        changed.await();
      }
      return waiting.peek();
    } finally {
      lock.unlock();
    }
  }

  private void done(Path trial) {
    lock.lock();
    try {
      waiting.remove(trial);
    } finally {
      lock.unlock();
    }
  }

  /** Waits until the next try is due; true when the queue is to end. */
  private boolean ended(Duration wait) throws InterruptedException {
    lock.lock();
    try {
      long leftNs = wait.toNanos();
      while (!closing && leftNs > 0) {
        leftNs = changed.awaitNanos(leftNs);
      }
      return closing;
    } finally {
      lock.unlock();
    }
  }

  /** Enters what can be entered now; the rest stays marked. Waits half a minute at most. */
  @Override
  public void close() {
    lock.lock();
    try {
      closing = true;
      changed.signalAll();
    } finally {
      lock.unlock();
    }
    try {
      worker.join(TimeUnit.MILLISECONDS.convert(END_WAIT));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
