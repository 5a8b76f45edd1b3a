package rampwright.app.usecase;

import java.time.InstantSource;
import org.jspecify.annotations.Nullable;
import rampwright.app.heat.HeatBook;

/**
 * A clock that also knows how long the computer has been on, so that it shows when somebody moves
 * the clock.
 */
public interface UpClock extends InstantSource {
  /** How long it has been on; null where that cannot be told. */
  HeatBook.@Nullable UpTime up();
}
