package rampwright.app.logbook;

import java.time.Instant;

/**
 * One thing that became of an alert. An alert is raised, told wherever alerts are wanted, seen by
 * people, and cleared; each is an entry of its own.
 *
 * @param asset id
 * @param subject what it is about: the figure, and what it does
 * @param episode 1 for the first time this subject is raised, 2 for the second
 * @param act what became of it
 * @param at when
 * @param text of the alert, of the person, or where it was told
 * @param clears what would clear it
 * @param author who saw it; empty for the program
 */
public record AlertAct(
    String asset,
    String subject,
    int episode,
    Act act,
    Instant at,
    String text,
    String clears,
    String author) {

  /** What becomes of an alert. */
  public enum Act {
    RAISED("raised"),
    TOLD("told"),
    SEEN("seen"),
    CLEARED("cleared");

    private final String word;

    Act(String word) {
      this.word = word;
    }

    public String word() {
      return word;
    }
  }
}
