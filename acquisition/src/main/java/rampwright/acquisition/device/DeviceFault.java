package rampwright.acquisition.device;

/** A reading that could not be had, and why. */
public final class DeviceFault extends Exception {
  private static final long serialVersionUID = 1L;

  private final FaultKind kind;

  /**
   * A fault.
   *
   * @param text what happened, without control characters
   */
  public DeviceFault(FaultKind kind, String text) {
    super(text);
    this.kind = kind;
  }

  /** The same with what it came from. */
  public DeviceFault(FaultKind kind, String text, Throwable cause) {
    super(text, cause);
    this.kind = kind;
  }

  public FaultKind kind() {
    return kind;
  }

  /** What happened. */
  public String text() {
    return String.valueOf(getMessage());
  }
}
