package rampwright.app.page.record;

import java.util.List;

/**
 * What the record shows, ready to be placed. Texts are plain; the template's engine escapes them.
 * An empty text stands for nothing to say.
 *
 * @param title the asset's name
 * @param facts when and by whom it was made, what it is of
 * @param kind of the state: accepted, refused or open
 * @param state in a word
 * @param sentence why
 * @param besides what else a reader must know at once
 * @param faults what faults of files keep out
 * @param sheet the sheet by section
 * @param sheetWhy why there is none
 * @param warnings of the sheet
 * @param list checks before energising
 * @param ready checks of readiness
 * @param trials in order of time
 * @param overlay first and last trial; empty where there are no two
 * @param hows how each figure was found
 * @param heat the account
 * @param entered final settings
 * @param signatures oldest first
 * @param signaturesWhy why there are none to show
 * @param sum over the files
 * @param files the record rests on
 */
public record RecordModel(
    String title,
    List<Pair> facts,
    String kind,
    String state,
    String sentence,
    List<String> besides,
    List<String> faults,
    List<Group> sheet,
    String sheetWhy,
    List<String> warnings,
    Checks list,
    Ready ready,
    List<Trial> trials,
    String trialsWhy,
    List<Plot> overlay,
    List<How> hows,
    Heat heat,
    Entered entered,
    List<Signed> signatures,
    String signaturesWhy,
    String sum,
    List<Pair> files) {

  /** A name and what belongs to it. */
  public record Pair(String name, String text) {}

  /** A section of the sheet. */
  public record Group(String name, List<Line> lines) {}

  /** A line of the sheet; {@code given} says whether there is a value. */
  public record Line(String label, String meaning, String value, boolean given) {}

  /** The list before energising. */
  public record Checks(String why, String summary, List<String> cautions, List<Check> checks) {}

  /** One check; its mark is "x" or a blank. */
  public record Check(String number, String about, String text, boolean ticked, String by) {}

  /** Readiness. */
  public record Ready(String why, String summary, List<Looked> lines) {}

  /** One check of readiness. */
  public record Looked(String kind, String state, String check, String text, String source) {}

  /**
   * One trial.
   *
   * @param number of the trial in the record; the anchors of its figures begin with it
   * @param kind of its verdict
   * @param tag its verdict in a word
   * @param marks what sets it apart: by hand, not representative, corrected, could not be read
   * @param seen what a person noted
   */
  public record Trial(
      int number,
      String heading,
      String kind,
      String tag,
      List<Pair> marks,
      List<Pair> facts,
      List<Setting> settings,
      String settingsWhy,
      String limitBothWays,
      List<Start> starts,
      List<Finding> findings,
      boolean measured,
      List<Judged> verdicts,
      Seen seen) {}

  /** One setting; {@code before} where it changed. */
  public record Setting(String label, String value, String before) {}

  /** One start with its stop; {@code stop} is empty where there is none. */
  public record Start(String heading, Found start, String stop, Found stopped, List<Plot> plots) {}

  /** Instants and figures, and what was not to be had. */
  public record Found(List<Figure> instants, List<Figure> figures, List<Pair> missing) {}

  /** One figure; {@code more} its phases, window and rule as found. */
  public record Figure(
      String anchor,
      String label,
      String value,
      String uncertainty,
      String unit,
      String more,
      String window,
      String rule) {}

  /** How figures were found: one rule, and where it was used. */
  public record How(String label, String rule, List<Where> where) {}

  /** A window a rule was used over, and what came of it. */
  public record Where(String anchor, String text) {}

  /** What else a trace shows. */
  public record Finding(String code, String when, String text) {}

  /** A verdict. */
  public record Judged(String heading, String kind, String word, String why, List<Asked> asked) {}

  /** One limit or corridor. */
  public record Asked(
      String what,
      String value,
      String allowed,
      String margin,
      String kind,
      String word,
      String under) {}

  /** What a person noted; {@code head} is empty where nothing was. */
  public record Seen(String head, List<Pair> lines) {}

  /** The heat account. */
  public record Heat(
      String why,
      String then,
      String now,
      List<Part> parts,
      List<String> words,
      List<Plot> plots) {}

  /** One rule of the heat account. */
  public record Part(
      String rule, String used, String stated, String next, String text, String source) {}

  /** The settings to be entered. */
  public record Entered(String why, String of, List<Setting> settings, String limitBothWays) {}

  /** A signature. */
  public record Signed(
      String name, String when, List<Pair> words, String kind, String stands, String sum) {}

  /**
   * A picture of one or more boxes above each other over one axis.
   *
   * @param title what it shows
   * @param label the same for those who do not see it
   * @param boxes from top to bottom
   * @param flags the marks in words
   * @param caption how to read it
   */
  public record Plot(
      String title, String label, List<Box> boxes, List<Pair> flags, String caption) {}

  /** A box of 1000 by 1000 that is stretched to its place; texts by their place in percent. */
  public record Box(
      String title,
      String size,
      List<Path> paths,
      List<Tick> across,
      List<Tick> up,
      List<Tick> flags) {

    /** All paths in one text, for what draws them on paper: look, colon, path; by bars. */
    public String drawing() {
      StringBuilder text = new StringBuilder();
      for (Path path : paths) {
        text.append(text.length() == 0 ? "" : "|").append(path.look()).append(':').append(path.d());
      }
      return text.toString();
    }
  }

  /** A path and how it looks. */
  public record Path(String look, String d) {}

  /** A text at a place. */
  public record Tick(String style, String text) {}
}
