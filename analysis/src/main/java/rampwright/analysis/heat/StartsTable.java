package rampwright.analysis.heat;

import org.jspecify.annotations.Nullable;

/**
 * Starts an hour, permissible load inertia and rest of general-purpose motors by rating and poles.
 *
 * <p>Formula: allowed starts an hour = min(A, B / Wk2). Symbols: A most starts an hour; B most of
 * starts an hour times load inertia Wk2, lb ft2; C least rest between two starts, s.
 *
 * <p>Valid: designs A and B, 1 to 250 hp, 2 to 6 poles, rated voltage and frequency, load torque
 * with the square of speed and rated at full speed, Wk2 within B. Between two ratings the smaller A
 * and B and the longer C of the two are taken; 8 poles and more take the 6-pole column; above 250
 * hp there is none.
 *
 * <p>Source: NEMA MG 10, table 2-3. Checked by: StartsTableReferenceTest.
 */
public final class StartsTable {
  /** Pound-foot squared in kg m2 (0.45359237 kg x (0.3048 m)^2). */
  public static final double KGM2_PER_LBFT2 = 0.45359237 * 0.3048 * 0.3048;

  /** Mechanical horsepower, W. */
  public static final double WATTS_PER_HP = 745.69987;

  /** hp; then A, B, C for 2, 4 and 6 poles. */
  private static final double[][] ROWS = {
    {1, 15, 1.2, 75, 30, 5.8, 38, 34, 15, 33},
    {1.5, 12.9, 1.8, 76, 25.7, 8.6, 38, 29.1, 23, 34},
    {2, 11.5, 2.4, 77, 23, 11, 39, 26.1, 30, 35},
    {3, 9.9, 3.5, 80, 19.8, 17, 40, 22.4, 44, 36},
    {5, 8.1, 5.7, 83, 16.3, 27, 42, 18.4, 71, 37},
    {7.5, 7.0, 8.3, 88, 13.9, 39, 44, 15.8, 104, 39},
    {10, 6.2, 11, 92, 12.5, 51, 46, 14.2, 137, 41},
    {15, 5.4, 16, 100, 10.7, 75, 50, 12.1, 200, 44},
    {20, 4.8, 21, 110, 9.6, 99, 55, 10.9, 262, 48},
    {25, 4.4, 26, 115, 8.8, 122, 58, 10.0, 324, 51},
    {30, 4.1, 31, 120, 8.2, 144, 60, 9.3, 384, 53},
    {40, 3.7, 40, 130, 7.4, 189, 65, 8.4, 503, 57},
    {50, 3.4, 49, 145, 6.8, 232, 72, 7.7, 620, 64},
    {60, 3.2, 58, 170, 6.3, 275, 85, 7.2, 735, 75},
    {75, 2.9, 71, 180, 5.8, 338, 90, 6.6, 904, 79},
    {100, 2.6, 92, 220, 5.2, 441, 110, 5.9, 1181, 97},
    {125, 2.4, 113, 275, 4.8, 542, 140, 5.4, 1452, 120},
    {150, 2.2, 133, 320, 4.5, 640, 160, 5.1, 1719, 140},
    {200, 2.0, 172, 600, 4.0, 831, 300, 4.5, 2238, 265},
    {250, 1.8, 210, 1000, 3.7, 1017, 500, 4.2, 2744, 440}
  };

  private StartsTable() {}

  /**
   * What the table says of a rating.
   *
   * @param mostPerHour A
   * @param mostInertiaLbFt2PerHour B
   * @param restS C
   */
  public record Row(double mostPerHour, double mostInertiaLbFt2PerHour, double restS) {
    /**
     * Starts an hour with a load.
     *
     * @param loadInertiaLbFt2 of the load alone, at the motor shaft
     */
    public double perHour(double loadInertiaLbFt2) {
      return loadInertiaLbFt2 <= 0
          ? mostPerHour
          : Math.min(mostPerHour, mostInertiaLbFt2PerHour / loadInertiaLbFt2);
    }
  }

  /**
   * The row of a rating.
   *
   * @param hp rated power
   * @param polePairs 1 and more
   * @return null above 250 hp; below 1 hp the row of 1 hp with B in proportion to hp
   */
  public static @Nullable Row row(double hp, int polePairs) {
    int column = 1 + 3 * (Math.min(3, Math.max(1, polePairs)) - 1);
    double[] above = null;
    double[] below = ROWS[0];
    for (double[] row : ROWS) {
      if (row[0] <= hp * (1 + 1e-9)) {
        below = row;
      }
      if (above == null && row[0] >= hp * (1 - 1e-9)) {
        above = row;
      }
    }
    if (above == null) {
      return null;
    }
    double share = Math.min(1, hp / ROWS[0][0]);
    return new Row(
        Math.min(above[column], below[column]),
        share * Math.min(above[column + 1], below[column + 1]),
        Math.max(above[column + 2], below[column + 2]));
  }

  /**
   * Permissible load inertia, lb ft2.
   *
   * <p>Formula: Wk2 = A hp^0.95 / (n / 1000)^2.4 - 0.0685 hp^1.5 / (n / 1000)^1.8; A = 24 for 300
   * to 1800 rpm, 27 for 3600 rpm.
   *
   * <p>Source: NEMA MG 1, 12.54 (from memory; it gives 58 of the 60 entries B of the table to the
   * digits printed, the two others to one unit).
   *
   * @param syncRpm synchronous speed
   */
  public static double permissibleInertiaLbFt2(double hp, double syncRpm) {
    double n = syncRpm / 1000;
    double a = syncRpm > 1800 ? 27 : 24;
    return a * Math.pow(hp, 0.95) / Math.pow(n, 2.4)
        - 0.0685 * Math.pow(hp, 1.5) / Math.pow(n, 1.8);
  }

  /**
   * Load inertia two cold starts or one hot start are made for, kg m2.
   *
   * <p>Formula: J = 0.04 P^0.9 p^2.5; P rated power, kW; p pole pairs; load torque with the square
   * of speed, rated at full speed.
   *
   * <p>Source: IEC 60034-12, design N (from memory).
   */
  public static double designNInertiaKgM2(double ratedKw, int polePairs) {
    return 0.04 * Math.pow(ratedKw, 0.9) * Math.pow(polePairs, 2.5);
  }
}
