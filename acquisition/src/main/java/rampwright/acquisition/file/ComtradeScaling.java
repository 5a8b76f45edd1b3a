package rampwright.acquisition.file;

import rampwright.analysis.trace.Samples;

/**
 * How a channel's values are stored: stored = round((value - b) / a), or the value less b as a
 * float.
 *
 * @param encoding how they are stored
 * @param a factor
 * @param b offset
 * @param min smallest value
 * @param max largest value
 * @param stepUnit what one stored step stands for, in the channel's unit; at most (max - min) /
 *     65000
 */
record ComtradeScaling(
    ComtradeEncoding encoding, double a, double b, double min, double max, double stepUnit) {
  static final int ASCII_END = 99_998;
  private static final int BINARY_END = 32_767;
  private static final double STEPS = 65_000;

  /** Scaling for a channel; infinite values count as missing. */
  static ComtradeScaling of(ComtradeEncoding encoding, Samples samples) {
    double min = Double.POSITIVE_INFINITY;
    double max = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < samples.size(); i++) {
      double value = samples.at(i);
      if (Double.isFinite(value)) {
        min = Math.min(min, value);
        max = Math.max(max, value);
      }
    }
    if (min > max) {
      return new ComtradeScaling(encoding, 1, 0, 0, 0, 0);
    }
    double middle = min / 2 + max / 2;
    double half = max / 2 - min / 2;
    if (encoding == ComtradeEncoding.FLOAT32) {
      float largest = (float) Math.max(Math.abs(min), Math.abs(max));
      boolean isFine = Math.ulp(largest) <= 2 * half / STEPS || (half == 0 && isFloat(min));
      double offset = isFine && largest < Float.MAX_VALUE / 2 ? 0 : middle;
      double factor = half > Float.MAX_VALUE / 4 ? half : 1;
      float end = (float) (Math.max(Math.abs(min - offset), Math.abs(max - offset)) / factor);
      return new ComtradeScaling(encoding, factor, offset, min, max, Math.ulp(end) * factor);
    }
    double end =
        switch (encoding) {
          case ASCII -> ASCII_END;
          case BINARY -> BINARY_END;
          default -> Integer.MAX_VALUE;
        };
    double factor = half / end;
    // A constant channel, or one that varies by less than a double can scale.
    if (!(factor >= Double.MIN_NORMAL)) {
      return new ComtradeScaling(encoding, 1, middle, min, max, 0);
    }
    return new ComtradeScaling(encoding, factor, middle, min, max, factor);
  }

  private static boolean isFloat(double value) {
    return (float) value == value;
  }

  /** Stored whole number of a value. */
  long stored(double value) {
    return Math.round((value - b) / a);
  }

  /** Stored real number of a value. */
  float real(double value) {
    return (float) ((value - b) / a);
  }

  /** Smallest stored number, for the configuration. */
  String lowest() {
    return switch (encoding) {
      case ASCII -> Integer.toString(-ASCII_END);
      case BINARY -> Integer.toString(-BINARY_END);
      case BINARY32 -> Integer.toString(-Integer.MAX_VALUE);
      case FLOAT32 -> "-3.40282347E+38";
    };
  }

  /** Largest stored number, for the configuration. */
  String highest() {
    return lowest().substring(1);
  }
}
