package rampwright.acquisition.device;

import org.jspecify.annotations.Nullable;

/** A way to hear an instrument that prints lines. Nothing is ever sent. */
public interface LinePort {
  /**
   * A line without its end.
   *
   * @param text as it came; may hold anything but the terminator
   * @param beganNs when its first byte came
   */
  record Line(String text, long beganNs) {}

  /**
   * The next line; null when none was whole within the time.
   *
   * @throws DeviceFault when the port cannot be had or is lost, or a line is too long to be one
   */
  @Nullable Line next(int waitMs) throws DeviceFault;

  /** Lets the port go. */
  void close();
}
