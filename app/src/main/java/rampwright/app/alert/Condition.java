package rampwright.app.alert;

/**
 * How one subject of an alert stands now.
 *
 * @param subject the figure, and what it does
 * @param level whether it would raise, hold or clear an alert
 * @param text what is to be told
 * @param clears what would clear it
 */
public record Condition(String subject, Level level, String text, String clears) {
  /** What it means for an alert. */
  public enum Level {
    /** Raises one where none stands. */
    RAISES,
    /** Too little to raise one, too much to clear it. */
    HOLDS,
    /** Clears one once enough starts were without. */
    QUIET
  }
}
