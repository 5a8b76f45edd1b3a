package rampwright.app.ready;

/**
 * One check.
 *
 * @param check what was checked
 * @param state how it stands
 * @param text the numbers, and what to do
 * @param source the rule and where it comes from
 */
public record ReadyLine(String check, State state, String text, String source) {
  /** How a check stands. */
  public enum State {
    /** Nothing against it. */
    OK("ok"),
    /** Worth a person's look before going on. */
    LOOK("look"),
    /** Not to be started so. */
    HOLD("hold");

    private final String key;

    State(String key) {
      this.key = key;
    }

    /** Word used in JSON. */
    public String key() {
      return key;
    }
  }

  static ReadyLine of(String check, State state, String source, String text) {
    return new ReadyLine(check, state, text, source);
  }
}
