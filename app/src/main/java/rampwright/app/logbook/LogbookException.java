package rampwright.app.logbook;

/** The logbook cannot be opened, read or written: what is wrong, where, what to do. */
public final class LogbookException extends Exception {
  private static final long serialVersionUID = 1L;

  public LogbookException(String message) {
    super(message);
  }

  public LogbookException(String message, Throwable cause) {
    super(message, cause);
  }
}
