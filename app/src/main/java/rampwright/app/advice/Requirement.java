package rampwright.app.advice;

/**
 * What a trial is held against: a limit on a figure, a corridor, or what motor and starter bear.
 */
interface Requirement {
  /** The requirement by its key, for machines and people. */
  String show();

  /** What people call what is limited. */
  String label();

  /** What a run gives, in words, unit included. */
  String told(Rehearsal run);

  /** What is asked, in words, unit included. */
  String asked();

  /** What a run gives, as the number that is held against {@link #needed}; NaN when it has none. */
  double value(Rehearsal run);

  /** The bound a value misses, or the one it is nearest to. */
  double needed(double value);

  /** Whether it is about the stop. */
  boolean ofStop();

  /** Distance inside, as a share of the bound; negative outside, NaN when the run gives nothing. */
  double margin(Rehearsal run);

  /**
   * Chance that the machine keeps it when the model does what the run shows.
   *
   * @param caution factor on the standard deviation of what the model leaves out
   */
  double chance(Rehearsal run, double caution);
}
