package rampwright.app.usecase;

/** Names and words that people give, as they are kept: one line, of a length that can be read. */
final class PersonsWord {
  private static final int LONGEST_NAME = 80;
  private static final int LONGEST_TEXT = 500;

  private PersonsWord() {}

  /** A name; refused where it is none. */
  static String name(String given, String what) throws UsageProblem {
    return name(given, what, "--by");
  }

  /** The same of another option. */
  static String name(String given, String what, String option) throws UsageProblem {
    String name = given.strip();
    if (name.isEmpty()) {
      throw new UsageProblem(option + ": " + what + " needs a name");
    }
    if (name.length() > LONGEST_NAME || !name.equals(oneLine(name))) {
      throw new UsageProblem(
          option
              + ": a name has at most "
              + LONGEST_NAME
              + " letters, on one line, without control characters");
    }
    return name;
  }

  /** A remark on one line; what would steer a screen or begin a line becomes a blank. */
  static String text(String given, String option) throws UsageProblem {
    String text = oneLine(given).strip();
    if (text.length() > LONGEST_TEXT) {
      throw new UsageProblem(
          option + ": " + text.length() + " letters; at most " + LONGEST_TEXT + " are kept");
    }
    return text;
  }

  private static String oneLine(String text) {
    return text.replaceAll("[\\p{Cntrl}\\p{Cf}\\p{Zl}\\p{Zp}\\p{Cs}]", " ");
  }
}
