package rampwright.acquisition.device;

import java.time.Instant;

/** The machine's own clocks, for tests that talk to something real. */
public final class RealTime implements Timekeeper {
  @Override
  public long nanos() {
    return System.nanoTime();
  }

  @Override
  public Instant utc() {
    return Instant.now();
  }
}
