package rampwright.exam.tuner;

/** The adviser gave no answer that could be used. */
public final class AdviserFailedException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public AdviserFailedException(String message) {
    super(message);
  }

  public AdviserFailedException(String message, Throwable cause) {
    super(message, cause);
  }
}
