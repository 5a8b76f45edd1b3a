package rampwright.app.usecase;

/** What a person asked for cannot be asked for in that way: what is wrong and what to do. */
public final class UsageProblem extends Exception {
  private static final long serialVersionUID = 1L;

  public UsageProblem(String message) {
    super(message);
  }
}
