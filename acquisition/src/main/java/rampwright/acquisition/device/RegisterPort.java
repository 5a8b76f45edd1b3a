package rampwright.acquisition.device;

/**
 * A way to ask Modbus devices. Used by one thread at a time; opened when first asked, and again
 * after a fault.
 */
public interface RegisterPort {
  /**
   * What a device answered.
   *
   * @param words registers 0 to 65535, or bits 0 and 1, as many as were asked for
   * @param askedNs when the question began to go out
   * @param answeredNs when the answer was whole
   */
  record Answer(int[] words, long askedNs, long answeredNs) {}

  /**
   * Reads once.
   *
   * @param function 1 to 4; there is no way to ask anything else
   * @throws DeviceFault when no good answer came within the time
   */
  Answer read(int unit, int function, int address, int count, int timeoutMs) throws DeviceFault;

  /** Lets the link go. */
  void close();
}
