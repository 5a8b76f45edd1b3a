package rampwright.app.usecase;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
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

  /** An order of words and of the bytes in them. */
  record Order(boolean highWordFirst, boolean highByteFirst) {
    static final List<Order> ALL =
        List.of(
            new Order(true, true),
            new Order(true, false),
            new Order(false, true),
            new Order(false, false));

    static Order of(RegisterForm form) {
      return new Order(form.highWordFirst(), form.highByteFirst());
    }

    private double value(MapChannel channel, RegisterForm form, int[] words) {
      return channel.value(
          new RegisterForm(form.type(), highWordFirst, highByteFirst).decode(words));
    }

    private String text() {
      return String.format(
          Locale.ROOT,
          "word_order = \"%s\"%s",
          highWordFirst ? "high first" : "low first",
          highByteFirst ? "" : ", byte_order = \"low first\"");
    }
  }

  /** A channel with the words it was read from. */
  record Found(MapChannel channel, int[] words, double value) {}

  /**
   * The one order that makes every channel of a device what it can be, where the map's own do not;
   * null where there is none, or more than one. Devices seldom mix orders.
   */
  static @Nullable Order agreed(List<Found> all) {
    boolean right =
        all.stream()
            .allMatch(
                one ->
                    Double.isNaN(one.value()) || is(one.channel().name().quantity(), one.value()));
    List<Order> fit = Order.ALL.stream().filter(order -> suits(order, all)).toList();
    return right || fit.size() != 1 ? null : fit.get(0);
  }

  private static boolean suits(Order order, List<Found> all) {
    for (Found one : all) {
      RegisterForm form = form(one.channel());
      if (form == null || Double.isNaN(one.value())) {
        continue;
      }
      Quantity quantity = one.channel().name().quantity();
      double value = order.value(one.channel(), form, one.words());
      boolean negative =
          value < 0
              && (quantity == Quantity.CURRENT
                  || quantity == Quantity.LINE_VOLTAGE
                  || quantity == Quantity.PHASE_VOLTAGE);
      if (negative || !is(quantity, value)) {
        return false;
      }
    }
    return true;
  }

  private static @Nullable RegisterForm form(MapChannel channel) {
    return channel.source() instanceof ChannelSource.Registers at && !at.isBit() ? at.form() : null;
  }

  /**
   * What to say of a value; empty when it may be right.
   *
   * @param agreed the order that suits all channels of the device; null when none is known
   */
  static String remark(Found found, @Nullable Order agreed) {
    MapChannel channel = found.channel();
    double value = found.value();
    if (Double.isNaN(value)) {
      return "no reading";
    }
    Quantity quantity = channel.name().quantity();
    RegisterForm form = form(channel);
    boolean may = is(quantity, value);
    if (form == null || (may && (agreed == null || agreed.equals(Order.of(form))))) {
      return may ? "" : lookAt(channel);
    }
    List<String> better = new ArrayList<>();
    for (Order order : agreed == null ? Order.ALL : List.of(agreed)) {
      double would = order.value(channel, form, found.words());
      boolean differs = form.type().words() > 1 || order.highWordFirst() == form.highWordFirst();
      if (differs && !order.equals(Order.of(form)) && is(quantity, would)) {
        better.add(
            String.format(
                Locale.ROOT, "%s would make it %.6g %s", order.text(), would, quantity.unit()));
      }
    }
    if (better.isEmpty()) {
      return may ? "" : lookAt(channel);
    }
    return (may ? "" : "absurd; ")
        + String.join("; or ", better)
        + (agreed == null ? "" : ", and suits every channel");
  }

  private static String lookAt(MapChannel channel) {
    return "absurd; look at address, type and scale on line " + channel.line() + " of the map";
  }
}
