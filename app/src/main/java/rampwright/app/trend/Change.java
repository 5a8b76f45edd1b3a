package rampwright.app.trend;

/**
 * A change the record shows.
 *
 * @param kind step or drift
 * @param first index of the first start after it
 * @param size of a step, relative to the baseline; of a drift, per year
 * @param chance that there is such a change, 0 to 1
 */
record Change(Kind kind, int first, double size, double chance) {
  enum Kind {
    STEP,
    DRIFT
  }
}
