package rampwright.acquisition.device;

import java.time.Instant;

/** The machine's clocks, handed in so that a test can move them. */
public interface Timekeeper {
  /** A clock that never steps and means nothing by itself, ns. Readings are dated by it. */
  long nanos();

  /** The clock on the wall; people and time services set it. */
  Instant utc();
}
