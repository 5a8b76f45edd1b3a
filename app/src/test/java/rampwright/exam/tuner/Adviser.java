package rampwright.exam.tuner;

import java.nio.file.Path;
import java.util.List;
import rampwright.exam.plant.Limits;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.TrueFigures;

/** Somebody who says what to set next. */
public interface Adviser {

  /** Short, for the table. */
  String name();

  /**
   * What to set for the next trial.
   *
   * @param folder an asset folder holding all trials made so far, without their truth
   * @param told the same for advisers that are given the exact figures; the product looks only at
   *     the folder
   */
  Proposal next(Path folder, Told told);

  /** One trial with its exact figures. */
  record Seen(PlantSettings settings, TrueFigures figures) {}

  /** What an adviser is told besides the folder. */
  record Told(Limits limits, List<Seen> trials, long seed) {
    public Told {
      trials = List.copyOf(trials);
    }

    public Seen last() {
      return trials.get(trials.size() - 1);
    }
  }

  /**
   * An answer.
   *
   * @param status keep, change, cannot meet, need another trial
   * @param chance stated for meeting every limit; NaN: none stated
   */
  record Proposal(String status, PlantSettings settings, double chance) {
    public boolean isCannotMeet() {
      return "cannot meet".equals(status);
    }
  }
}
