package rampwright.app.trend;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;

/**
 * Starts of one asset in order of time, by column: what its figures have in common. An asset has
 * many figures, and a fleet many assets; kept once, most of their work is done once.
 */
public final class StartSeries {
  private final List<Instant> at;
  private final List<String> settings;
  private final List<Boolean> counts;
  private final double[] voltageBeforeV;
  private final long[] atMillis;

  private StartSeries(
      List<Instant> at, List<String> settings, List<Boolean> counts, double[] voltageBeforeV) {
    this.at = at;
    this.settings = settings;
    this.counts = counts;
    this.voltageBeforeV = voltageBeforeV;
    this.atMillis = at.stream().mapToLong(Instant::toEpochMilli).toArray();
  }

  /**
   * Of columns of the same length.
   *
   * @param at when each was made, rising
   * @param settings any label that changes when the settings do
   * @param counts false for a start that is kept and shown but not representative
   * @param voltageBeforeV the supply's voltage before each; NaN where it was not recorded
   */
  public static StartSeries of(
      List<Instant> at, List<String> settings, List<Boolean> counts, double[] voltageBeforeV) {
    return new StartSeries(
        List.copyOf(at), List.copyOf(settings), List.copyOf(counts), voltageBeforeV.clone());
  }

  /**
   * These starts with a figure.
   *
   * @param values one each, in the figure's own unit; NaN where it could not be had. Not copied:
   *     whoever makes them lets go of them
   */
  public List<LoggedStart> with(double[] values) {
    return new FigureStarts(this, values);
  }

  int size() {
    return atMillis.length;
  }

  List<Instant> at() {
    return at;
  }

  Instant at(int i) {
    return at.get(i);
  }

  long atMillis(int i) {
    return atMillis[i];
  }

  String settings(int i) {
    return settings.get(i);
  }

  boolean counts(int i) {
    return counts.get(i);
  }

  double voltageBeforeV(int i) {
    return voltageBeforeV[i];
  }

  /** Some of them, in order. */
  StartSeries only(int... index) {
    double[] voltages = new double[index.length];
    Instant[] times = new Instant[index.length];
    String[] labels = new String[index.length];
    Boolean[] counted = new Boolean[index.length];
    for (int i = 0; i < index.length; i++) {
      times[i] = at.get(index[i]);
      labels[i] = settings.get(index[i]);
      counted[i] = counts.get(index[i]);
      voltages[i] = voltageBeforeV[index[i]];
    }
    return new StartSeries(List.of(times), List.of(labels), List.of(counted), voltages);
  }

  /** Whether conditions were the same: the same instants and voltages. */
  boolean isLike(StartSeries other) {
    return this == other
        || (Arrays.equals(atMillis, other.atMillis)
            && Arrays.equals(voltageBeforeV, other.voltageBeforeV)
            && at.equals(other.at));
  }
}
