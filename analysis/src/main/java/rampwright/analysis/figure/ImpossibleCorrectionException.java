package rampwright.analysis.figure;

/** An instant a person put right cannot be so in this trace: what is wrong and what to do. */
public final class ImpossibleCorrectionException extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  ImpossibleCorrectionException(String message) {
    super(message);
  }
}
