package rampwright.app.ready;

/**
 * One check.
 *
 * @param part what it is about
 * @param check what was checked
 * @param state how it stands
 * @param text the numbers, and what to do
 * @param source the rule and where it comes from
 */
public record ReadyLine(Part part, String check, State state, String text, String source) {
  /** What a check is about, in the order checks are shown. */
  public enum Part {
    /** The motor's sheet and the supply it hangs on. */
    SHEET("motor and supply"),
    /** The starter and its relay. */
    STARTER("starter"),
    /** What the settings will do to this load. */
    START("the start"),
    /** What a start costs, and how often it may be made. */
    HEAT("heat"),
    /** What is not known, and how much it matters. */
    UNKNOWN("not known"),
    /** The stop. */
    STOP("the stop");

    private final String title;

    Part(String title) {
      this.title = title;
    }

    /** Words for a person. */
    public String title() {
      return title;
    }
  }

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

  /** A check of the sheet, until it is told what it is about. */
  static ReadyLine of(String check, State state, String source, String text) {
    return new ReadyLine(Part.SHEET, check, state, text, source);
  }

  ReadyLine about(Part other) {
    return new ReadyLine(other, check, state, text, source);
  }
}
