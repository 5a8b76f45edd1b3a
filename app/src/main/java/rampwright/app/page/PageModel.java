package rampwright.app.page;

import java.util.List;

/**
 * What the page shows, ready to be placed. Texts are plain; the template's engine escapes them.
 *
 * @param title of the page
 * @param made when, in words
 * @param summary of the fleet in a sentence
 * @param rows figures that want a look, the most pressing first
 * @param groups all assets by group
 * @param assets with charts, in the order in which the rows name them
 */
public record PageModel(
    String title,
    String made,
    String summary,
    List<Row> rows,
    List<Group> groups,
    List<Asset> assets) {

  /** A row of the ranking; {@code anchor} of its asset. */
  public record Row(
      String anchor,
      String asset,
      String name,
      String group,
      String figure,
      Spark spark,
      String change,
      String since,
      String sure,
      String limit,
      String reason,
      String kind,
      String also) {}

  /**
   * A course as small as a word.
   *
   * @param path in a box of 100 by 24
   * @param end where it ends, as a path of one dot
   * @param label for those who do not see it
   */
  public record Spark(String path, String end, String label) {}

  /** Assets of a group; the group's name may be empty. */
  public record Group(String name, List<Member> members) {}

  /** An asset in its group; {@code anchor} is empty where it has no charts. */
  public record Member(
      String anchor, String asset, String name, String words, String kind, Spark spark) {}

  /** An asset with its charts. */
  public record Asset(
      String anchor,
      String asset,
      String name,
      String group,
      String facts,
      List<String> alerts,
      List<String> clears,
      List<Hint> leads,
      List<Figure> figures) {}

  /** Where to look first. */
  public record Hint(String look, String evidence, String against, String missing) {}

  /** One figure with its charts; {@code open} where it is shown without being asked for. */
  public record Figure(
      String label,
      String key,
      String state,
      String kind,
      String why,
      String limit,
      boolean open,
      Chart course,
      List<Chart> control) {}

  /**
   * One chart: paths in a box of 1000 by 1000 that is stretched to its place, and texts by their
   * place in percent, so that they keep their size on any screen.
   */
  public record Chart(
      String title,
      String caption,
      String label,
      String size,
      List<Path> paths,
      List<Tick> across,
      List<Tick> up,
      List<Flag> flags) {}

  /** A path and how it looks. */
  public record Path(String look, String d) {}

  /** A text at a place, % from the left or from the top. */
  public record Tick(String style, String text) {}

  /** A mark in time: its place, what it is, when and what was noted. */
  public record Flag(String style, String sign, String text) {}
}
