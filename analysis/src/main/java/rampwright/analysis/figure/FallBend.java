package rampwright.analysis.figure;

/** How far the steepest part of a falling speed may lie beyond its slope over a window. */
final class FallBend {
  private FallBend() {}

  /**
   * By how much the fall within a window, or at its edges, is steeper than the window's mean,
   * beyond what noise would show: where the fall bends, its steepest part is.
   */
  static double of(SpeedTrack speed, int from, int to, double noise, double windowS) {
    int middle = (from + to) / 2;
    double first = Line.through(speed.timeS(), speed.rpm(), from, middle + 1).slope();
    double second = Line.through(speed.timeS(), speed.rpm(), middle, to).slope();
    double spanS = speed.timeS()[to - 1] - speed.timeS()[from];
    double halfNoise = noise * Math.sqrt(96.0 / (to - from)) / spanS;
    double bend = Math.max(0, Math.abs(first - second) - halfNoise);
    double whole = -Line.through(speed.timeS(), speed.rpm(), from, to).slope();
    // A shaft let go falls fastest at once and eases off, within the window more than after it.
    int later = Math.min(speed.size(), 2 * to - from - 1);
    if (later - to >= 2) {
      double eased = whole + Line.through(speed.timeS(), speed.rpm(), to - 1, later).slope();
      bend = Math.max(bend, 0.8 * eased * Math.max(0, 1 - windowS / spanS));
    }
    for (int k = Math.max(0, from - 1); k < Math.min(speed.size() - 1, to); k++) {
      double tookS = speed.timeS()[k + 1] - speed.timeS()[k];
      double steep = (speed.rpm()[k] - speed.rpm()[k + 1]) / tookS;
      // Below the definition's tenth of a second noise would be all there is.
      if (tookS > 0.5 * windowS) {
        bend = Math.max(bend, steep - whole - 2 * Math.sqrt(2) * noise / tookS);
      }
    }
    return bend;
  }
}
