package rampwright.app.alert;

/** An alert could not be told: where, why, what to do. */
public final class TellException extends Exception {
  private static final long serialVersionUID = 1L;

  public TellException(String message) {
    super(message);
  }
}
