package rampwright.acquisition.file;

/**
 * A column wanted from COMTRADE data, and how its stored numbers become values: stored x scale +
 * offset.
 *
 * @param kind what it is
 * @param index which analog or status channel, from 0; 0 for the stamp
 * @param min smallest stored number there can be; NaN when not told
 * @param max largest stored number there can be; NaN when not told
 */
record ComtradeField(Kind kind, int index, double scale, double offset, double min, double max) {

  /** Three hundred years; a stamp beyond is damage. */
  private static final double MOST_STAMP_S = 1e10;

  enum Kind {
    STAMP,
    ANALOG,
    STATUS
  }

  static ComtradeField stamp(double unitS) {
    return new ComtradeField(Kind.STAMP, 0, unitS, 0, Double.NaN, Double.NaN);
  }

  static ComtradeField analog(int index, ComtradeAnalog channel, double factor, double offset) {
    return new ComtradeField(
        Kind.ANALOG,
        index,
        channel.a() * factor,
        channel.b() * factor + offset,
        channel.min(),
        channel.max());
  }

  static ComtradeField status(int index, double factor, double offset) {
    return new ComtradeField(Kind.STATUS, index, factor, offset, Double.NaN, Double.NaN);
  }

  /** The value; NaN where it is too large to be one. */
  double value(double stored) {
    double value = stored * scale + offset;
    return Math.abs(value) <= (kind == Kind.STAMP ? MOST_STAMP_S : Double.MAX_VALUE)
        ? value
        : Double.NaN;
  }

  /** True for a number that lies outside the range the channel states. */
  boolean isOutside(double stored) {
    return stored < min || stored > max;
  }
}
