package rampwright.exam.plant;

import java.util.Locale;
import java.util.Random;

/**
 * The meter between the plant and its trace: gain errors, noise, quantisation, jitter and lost
 * readings.
 *
 * @param rateHz readings a second
 * @param gains of i1 i2 i3 v12 v23 v31; not to be written to
 * @param noise standard deviation of a reading, share of it
 * @param floorA noise of a current at rest
 * @param stepA resolution of a current
 * @param stepV resolution of a voltage
 * @param stepRpm resolution of the speed; NaN: there is no speed channel
 * @param jitter standard deviation of a reading's time, share of the interval
 * @param lost share of the readings that are lost
 */
@SuppressWarnings("ArrayRecordComponent")
public record TrueMeter(
    double rateHz,
    double[] gains,
    double noise,
    double floorA,
    double stepA,
    double stepV,
    double stepRpm,
    double jitter,
    double lost) {

  public boolean hasSpeed() {
    return !Double.isNaN(stepRpm);
  }

  /** The readings of a run as the text of a trace file. */
  public String read(Run run, TrueSupply supply, String notes, Random random) {
    StringBuilder text = new StringBuilder(notes);
    text.append("time_s,i1_A,i2_A,i3_A,v12_V,v23_V,v31_V");
    text.append(hasSpeed() ? ",speed_rpm\n" : "\n");
    double interval = 1 / rateHz;
    double end = run.timeS(run.size() - 1);
    double last = -1;
    for (int n = 0; n * interval < end; n++) {
      double at = n * interval + interval * jitter * random.nextGaussian();
      at = Math.max(n == 0 ? 0 : last + 0.1 * interval, Math.min(end, at));
      last = at;
      double current = average(run, at, 0);
      double line = average(run, at, 1);
      boolean kept = random.nextDouble() >= lost;
      StringBuilder row = new StringBuilder();
      row.append(String.format(Locale.ROOT, "%.6f", at));
      for (int p = 0; p < 3; p++) {
        double value = current * supply.currentShares()[p] * gains[p];
        value *= 1 + noise * random.nextGaussian();
        value = Math.abs(value + floorA * random.nextGaussian());
        row.append(',').append(stepped(value, stepA));
      }
      for (int p = 0; p < 3; p++) {
        double value = line * supply.lineShares()[p] * gains[3 + p];
        value *= 1 + 0.5 * noise * random.nextGaussian();
        row.append(',').append(stepped(value, stepV));
      }
      if (hasSpeed()) {
        int index = Math.min(run.size() - 1, (int) Math.rint(at / Run.STEP_S));
        double rpm = run.speedRadPerS(index) * 30 / Math.PI;
        rpm =
            Math.max(0, rpm + (rpm > 0 ? 0.6 * stepRpm + 0.0002 * rpm : 0) * random.nextGaussian());
        row.append(',').append(stepped(rpm, stepRpm));
      }
      if (kept) {
        text.append(row).append('\n');
      }
    }
    return text.toString();
  }

  /** RMS over the meter's averaging time: what has been in the last 20 ms, or 40 ms when slower. */
  private double average(Run run, double at, int which) {
    int last = Math.min(run.size() - 1, (int) Math.floor(at / Run.STEP_S));
    int many = rateHz > 30 ? 2 : 4;
    double sum = 0;
    for (int n = 0; n < many; n++) {
      int index = Math.max(0, last - n);
      double value = which == 0 ? run.currentA(index) : run.lineV(index);
      sum += value * value;
    }
    return Math.sqrt(sum / many);
  }

  private static String stepped(double value, double step) {
    double perUnit = 1 / step;
    double rounded =
        step < 1 ? Math.rint(value * perUnit) / perUnit : Math.rint(value / step) * step;
    return rounded == Math.rint(rounded)
        ? Long.toString((long) rounded)
        : step < 0.1
            ? String.format(Locale.ROOT, "%.2f", rounded)
            : String.format(Locale.ROOT, "%.1f", rounded);
  }
}
