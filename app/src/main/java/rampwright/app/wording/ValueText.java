package rampwright.app.wording;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.jspecify.annotations.Nullable;

/** Numbers as people read them: as many digits as the uncertainty allows. */
public final class ValueText {
  private static final int DIGITS_WITHOUT_UNCERTAINTY = 4;
  private static final int MOST_DIGITS = 7;

  private ValueText() {}

  /**
   * A value rounded to the place of its uncertainty's second digit (JCGM 100, 7.2.6), to four
   * digits where there is none. Numbers stay plain, without exponent, from 1e-4 to 1e9.
   */
  public static String value(double value, @Nullable Double uncertainty) {
    BigDecimal exact = BigDecimal.valueOf(value);
    if (value == 0) {
      return "0";
    }
    int scale;
    if (uncertainty != null && uncertainty > 0) {
      BigDecimal two = twoDigits(uncertainty);
      int most = MOST_DIGITS - 1 - exponent(exact);
      scale = Math.min(two.scale(), most);
    } else {
      scale = DIGITS_WITHOUT_UNCERTAINTY - 1 - exponent(exact);
    }
    BigDecimal rounded = exact.setScale(scale, RoundingMode.HALF_EVEN);
    if (rounded.signum() != 0 && (Math.abs(value) >= 1e9 || Math.abs(value) < 1e-4)) {
      return rounded.toString().replace("E+", "e").replace('E', 'e');
    }
    String plain = rounded.toPlainString();
    return grouped(uncertainty == null && plain.contains(".") ? trimmed(plain) : plain);
  }

  /** An uncertainty with two digits; a dash where it cannot be told. */
  public static String uncertainty(@Nullable Double uncertainty) {
    if (uncertainty == null) {
      return "-";
    }
    return uncertainty == 0 ? "0" : grouped(twoDigits(uncertainty).toPlainString());
  }

  /** A time on the trace's time base, to the millisecond. */
  public static String timeS(double timeS) {
    return BigDecimal.valueOf(timeS).setScale(3, RoundingMode.HALF_EVEN).toPlainString();
  }

  /** A percentage with three digits. */
  public static String percent(double value) {
    return value == 0 ? "0" : trimmed(plain(value, 3));
  }

  /** Five digits and more before the point are parted by threes (SI brochure, 5.4.4). */
  public static String grouped(String plain) {
    int point = plain.indexOf('.');
    int end = point < 0 ? plain.length() : point;
    int begin = plain.startsWith("-") ? 1 : 0;
    if (end - begin < 5) {
      return plain;
    }
    StringBuilder text = new StringBuilder(plain);
    for (int at = end - 3; at > begin; at -= 3) {
      text.insert(at, ' ');
    }
    return text.toString();
  }

  /** A stretch of time as people say it, rounded up to whole seconds. */
  public static String duration(double lastsS) {
    if (!Double.isFinite(lastsS)) {
      return "endless";
    }
    long s = (long) Math.ceil(lastsS - 1e-6);
    if (s < 60) {
      return s + " s";
    }
    if (s < 3600) {
      return s / 60 + " min" + (s % 60 == 0 ? "" : " " + s % 60 + " s");
    }
    long minutes = (s + 59) / 60;
    return minutes / 60 + " h" + (minutes % 60 == 0 ? "" : " " + minutes % 60 + " min");
  }

  private static String plain(double value, int digits) {
    BigDecimal exact = BigDecimal.valueOf(value);
    return exact
        .setScale(Math.max(0, digits - 1 - exponent(exact)), RoundingMode.HALF_EVEN)
        .toPlainString();
  }

  private static BigDecimal twoDigits(double uncertainty) {
    return new BigDecimal(uncertainty, new MathContext(2, RoundingMode.HALF_EVEN));
  }

  private static int exponent(BigDecimal value) {
    return value.precision() - value.scale() - 1;
  }

  private static String trimmed(String plain) {
    if (!plain.contains(".")) {
      return plain;
    }
    String cut = plain.replaceAll("0+$", "");
    return cut.endsWith(".") ? cut.substring(0, cut.length() - 1) : cut;
  }
}
