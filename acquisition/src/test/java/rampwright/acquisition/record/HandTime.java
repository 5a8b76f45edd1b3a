package rampwright.acquisition.record;

import java.time.Instant;
import rampwright.acquisition.device.Timekeeper;

/** Clocks a test moves. */
final class HandTime implements Timekeeper {
  private volatile long nanos;
  private volatile Instant utc = Instant.parse("2026-03-14T09:12:05Z");

  void set(long atNs) {
    nanos = atNs;
  }

  void setUtc(Instant instant) {
    utc = instant;
  }

  @Override
  public long nanos() {
    return nanos;
  }

  @Override
  public Instant utc() {
    return utc.plusNanos(nanos);
  }
}
