package rampwright.app.trend;

/** What a figure does over many starts. */
public enum TrendState {
  STEADY("steady"),
  STEP("step"),
  DRIFT("drift"),
  CANNOT_TELL("cannot tell");

  private final String word;

  TrendState(String word) {
    this.word = word;
  }

  public String word() {
    return word;
  }
}
