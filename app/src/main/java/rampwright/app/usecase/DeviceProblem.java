package rampwright.app.usecase;

/** A device is at fault: what is wrong, where, what to do. */
public final class DeviceProblem extends Exception {
  private static final long serialVersionUID = 1L;

  public DeviceProblem(String message) {
    super(message);
  }
}
