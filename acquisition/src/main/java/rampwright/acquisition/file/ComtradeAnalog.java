package rampwright.acquisition.file;

/**
 * An analog channel as its configuration line describes it. Value = a x + b, in {@code unit}.
 *
 * @param number the channel's own number
 * @param id its name
 * @param phase phase as written: "A", "L1", "" when not told
 * @param circuit circuit component being monitored; often the name of the bay
 * @param unit unit as written
 * @param a factor from stored number to value
 * @param b offset, in {@code unit}
 * @param skewS time from the record's instant to this channel's sample, s
 * @param min smallest stored number there can be; NaN when not told
 * @param max largest stored number there can be; NaN when not told
 * @param primary primary side of the instrument transformer's ratio; NaN when not told
 * @param secondary its secondary side; NaN when not told
 * @param side which side of the transformer a x + b is on
 */
public record ComtradeAnalog(
    int number,
    String id,
    String phase,
    String circuit,
    String unit,
    double a,
    double b,
    double skewS,
    double min,
    double max,
    double primary,
    double secondary,
    Side side) {

  /** Which side of an instrument transformer a value is on. */
  public enum Side {
    PRIMARY,
    SECONDARY,
    /** The file does not tell; files of the 1991 edition never do. */
    UNSTATED
  }

  /** Primary over secondary; NaN when the file gives no usable ratio. */
  public double ratio() {
    double ratio = primary / secondary;
    return ratio > 0 && Double.isFinite(ratio) ? ratio : Double.NaN;
  }
}
