package rampwright.acquisition.device;

/**
 * How long a failing device is left alone: twice as long after each failure in a row, up to a most;
 * and on a link that others share, long enough that its failing takes at most a tenth of the link's
 * time.
 */
final class Backoff {
  /** 9 parts of peace for 1 part of failing. */
  private static final long SHARE = 9;

  private final long firstNs;
  private final long mostNs;
  private final boolean shared;
  private int failures;

  Backoff(long firstNs, long mostNs, boolean shared) {
    this.firstNs = firstNs;
    this.mostNs = Math.max(firstNs, mostNs);
    this.shared = shared;
  }

  /** Notes a failure that took so long, and says how long to wait now. */
  long failedNs(long tookNs) {
    long wait = firstNs;
    for (int i = 0; i < failures && wait < mostNs; i++) {
      wait *= 2;
    }
    failures++;
    wait = Math.min(wait, mostNs);
    return shared ? Math.max(wait, SHARE * tookNs) : wait;
  }

  void worked() {
    failures = 0;
  }

  boolean isFailing() {
    return failures > 0;
  }
}
