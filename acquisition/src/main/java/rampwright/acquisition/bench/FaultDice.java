package rampwright.acquisition.bench;

import java.util.Random;

/** Which answers go wrong. Thread-safe. */
public final class FaultDice {
  private final Random random;
  private BenchFault kind = BenchFault.NONE;
  private double rate;

  /** Dice that leave everything right. */
  public FaultDice(long seed) {
    random = new Random(seed);
  }

  /**
   * From now on, this happens.
   *
   * @param share of all answers, 0 to 1
   */
  public synchronized void set(BenchFault fault, double share) {
    if (!(share >= 0 && share <= 1)) {
      throw new IllegalArgumentException("a rate of faults is 0 to 1, not " + share);
    }
    kind = fault;
    rate = share;
  }

  synchronized BenchFault next() {
    return kind != BenchFault.NONE && random.nextDouble() < rate ? kind : BenchFault.NONE;
  }

  /** Bytes that mean nothing. */
  synchronized byte[] garbage(int count) {
    byte[] bytes = new byte[count];
    random.nextBytes(bytes);
    return bytes;
  }
}
