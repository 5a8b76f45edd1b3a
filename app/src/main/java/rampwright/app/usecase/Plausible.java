package rampwright.app.usecase;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import rampwright.acquisition.map.ChannelSource;
import rampwright.acquisition.map.MapChannel;
import rampwright.acquisition.map.RegisterForm;
import rampwright.analysis.quantity.Quantity;

/**
 * Whether a value can be what a map says it is, and which order of words and bytes would make it
 * so. The limits are wide: they tell a misread register from a reading, not a good motor from a bad
 * one (common practice, no source).
 */
final class Plausible {
  private static final double SMALLEST = 1e-6;

  private Plausible() {}

  static boolean is(Quantity quantity, double value) {
    double most =
        switch (quantity) {
          case CURRENT -> 50_000;
          case LINE_VOLTAGE, PHASE_VOLTAGE -> 50_000;
          case SPEED -> 50_000;
          case TORQUE -> 1e7;
          case POWER -> 1e9;
          case RUN -> 1;
          case PRESSURE -> 2_000;
        };
    double size = Math.abs(value);
    return Double.isFinite(value) && size <= most && (size == 0 || size > SMALLEST);
  }

  /** What to say of a value; empty when it may be right. */
  static String remark(MapChannel channel, int[] words, double value) {
    if (Double.isNaN(value)) {
      return "no reading";
    }
    Quantity quantity = channel.name().quantity();
    if (is(quantity, value)) {
      return "";
    }
    List<String> better = new ArrayList<>();
    if (channel.source() instanceof ChannelSource.Registers at && !at.isBit()) {
      for (boolean word : new boolean[] {true, false}) {
        for (boolean bytes : new boolean[] {true, false}) {
          RegisterForm other = new RegisterForm(at.form().type(), word, bytes);
          double would = channel.value(other.decode(words));
          boolean differs = at.form().type().words() > 1 || word == at.form().highWordFirst();
          if (differs && !other.equals(at.form()) && is(quantity, would)) {
            better.add(
                String.format(
                    Locale.ROOT,
                    "word_order = \"%s\"%s would make it %.6g %s",
                    word ? "high first" : "low first",
                    bytes ? "" : ", byte_order = \"low first\"",
                    would,
                    quantity.unit()));
          }
        }
      }
    }
    return "absurd; "
        + (better.isEmpty()
            ? "look at address, type and scale on line " + channel.line() + " of the map"
            : String.join("; or ", better));
  }
}
