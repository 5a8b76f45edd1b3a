package rampwright.app.logbook;

import java.util.List;

/**
 * What came of taking the figures of logged starts again.
 *
 * @param trials whose trace was analysed
 * @param changed starts entered anew
 * @param same starts whose figures are what they were
 * @param definitions version they are taken by now
 * @param problems one line for each trial that could not be analysed
 */
public record Reanalyzed(
    int trials, int changed, int same, String definitions, List<String> problems) {
  public Reanalyzed {
    problems = List.copyOf(problems);
  }
}
