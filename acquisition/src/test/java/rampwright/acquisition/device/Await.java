package rampwright.acquisition.device;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/** Waits for what other threads do; a busy machine may take its time over it. */
public final class Await {
  private static final long MOST_S = 60;

  private Await() {}

  /**
   * Waits until something is so; fails after a minute.
   *
   * @param about tells in the failure how things stood
   */
  public static void until(BooleanSupplier condition, Object about) throws InterruptedException {
    long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(MOST_S);
    while (!condition.getAsBoolean()) {
      assertThat(System.nanoTime()).as("waited %d s for it; %s", MOST_S, about).isLessThan(until);
      TimeUnit.MILLISECONDS.sleep(10);
    }
  }
}
