package rampwright.app.cli;

import java.util.Locale;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import rampwright.app.trend.Course;
import rampwright.app.trend.FigureTrend;

/** The course of a figure as a word: blocks, or plain signs where the terminal has none. */
final class SparkText {
  private static final String BLOCKS = "\u2581\u2582\u2583\u2584\u2585\u2586\u2587\u2588";
  private static final String PLAIN = "_.-=*#";
  private static final int SPANS = 12;

  /** A course that moves by less than this share of its value is drawn flat, in the middle. */
  private static final double FLAT = 0.02;

  private final String signs;

  private SparkText(String signs) {
    this.signs = signs;
  }

  /** Blocks where the environment speaks of UTF-8 and the terminal is no dumb one. */
  static SparkText of(boolean plain, UnaryOperator<@Nullable String> environment) {
    String charset = "";
    for (String name : new String[] {"LC_ALL", "LC_CTYPE", "LANG"}) {
      String value = environment.apply(name);
      if (charset.isEmpty() && value != null) {
        charset = value.toLowerCase(Locale.ROOT);
      }
    }
    boolean utf8 = charset.contains("utf-8") || charset.contains("utf8");
    boolean dumb = "dumb".equals(environment.apply("TERM"));
    return new SparkText(plain || dumb || !utf8 ? PLAIN : BLOCKS);
  }

  String of(FigureTrend figure) {
    double[] course = Course.of(figure, SPANS);
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (double value : course) {
      low = Double.isNaN(value) ? low : Math.min(low, value);
      high = Double.isNaN(value) ? high : Math.max(high, value);
    }
    StringBuilder text = new StringBuilder();
    boolean flat = !(high - low > FLAT * Math.max(Math.abs(high), Math.abs(low)));
    for (double value : course) {
      if (Double.isNaN(value)) {
        text.append(' ');
      } else {
        double share = flat ? 0.5 : (value - low) / (high - low);
        text.append(signs.charAt((int) Math.min(signs.length() - 1.0, share * signs.length())));
      }
    }
    return text.toString().stripTrailing();
  }
}
