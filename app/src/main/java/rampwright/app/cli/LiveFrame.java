package rampwright.app.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.record.LiveView;
import rampwright.analysis.trace.ChannelName;
import rampwright.app.wording.ValueText;

/**
 * What a recording looks like at an instant, as lines of at most {@value #WIDTH} characters and no
 * more than the terminal has: state, big figures, a bar for each current, speed, devices, disk,
 * keys. What does not fit goes in this order: the end of bars, big figures that stand elsewhere
 * too, empty lines, all big figures. Colour is not used; state is a word in reverse.
 */
final class LiveFrame {
  static final int WIDTH = 79;

  /** What stands beside a bar: its name, the value and its share of the rated one. */
  private static final int BESIDE_BAR = 31;

  private static final int LEAST_BAR = 8;

  /** Big figures of four digits, and the gap after them. */
  private static final int BIG = 24;

  private static final TerminalSize USUAL = new TerminalSize(WIDTH + 1, 50);

  /** Of rated current; the bar's end. A start's limit is seldom above. */
  private static final double BAR_RATIO = 6;

  private final String asset;
  private final double ratedA;
  private final double ratedRpm;

  LiveFrame(String asset, double ratedA, double ratedRpm) {
    this.asset = asset;
    this.ratedA = ratedA;
    this.ratedRpm = ratedRpm;
  }

  List<String> lines(LiveView view) {
    return lines(view, USUAL);
  }

  List<String> lines(LiveView view, TerminalSize size) {
    int width = Math.min(WIDTH, size.columns());
    List<String> big = big(view, width);
    List<String> lines = all(view, width, big);
    if (lines.size() > size.rows()) {
      lines.removeIf(String::isEmpty);
    }
    if (lines.size() > size.rows()) {
      lines.removeAll(big.subList(0, BigDigits.HEIGHT));
    }
    while (lines.size() > Math.max(2, size.rows())) {
      // The last line says what can be done.
      lines.remove(lines.size() - 2);
    }
    lines.replaceAll(line -> fit(SafeText.of(line), width));
    // The state in reverse video; everything else has been made safe above.
    String head = lines.get(0);
    int end = Math.max(0, Math.min(head.length() - 1, view.phase().key().length() + 1));
    lines.set(0, "\u001b[7m" + head.substring(0, end + 1) + "\u001b[0m" + head.substring(end + 1));
    return lines;
  }

  private List<String> all(LiveView view, int width, List<String> big) {
    List<String> lines = new ArrayList<>();
    lines.add(headline(view, width));
    lines.add(view.waitingFor().isEmpty() ? "" : " waiting for " + view.waitingFor());
    lines.add("");
    lines.addAll(big);
    lines.add("");
    int bar = Math.max(LEAST_BAR, width - BESIDE_BAR);
    for (ChannelName name : ChannelName.CURRENTS) {
      Double value = view.latest().get(name);
      if (value != null) {
        lines.add(
            bar(name.phase(), value / ratedA / BAR_RATIO, 1 / BAR_RATIO, amperes(value), bar));
      }
    }
    Double speed = view.latest().get(ChannelName.SPEED);
    if (speed != null) {
      lines.add(bar("n", speed / ratedRpm / 1.1, 1 / 1.1, rpm(speed), bar));
    }
    lines.add("");
    rest(lines, view.latest());
    for (LiveView.DeviceState device : view.devices()) {
      lines.add(device(device));
    }
    String trouble = view.trouble();
    lines.add(
        trouble == null
            ? "   disk      on disk within 250 ms"
            : " ! DISK      kept in memory: " + trouble);
    lines.add("");
    lines.add(
        view.phase() == LiveView.Phase.ARMED
            ? " b Enter: begin now    Ctrl-C: give up"
            : " e Enter or Ctrl-C: end and keep");
    return lines;
  }

  private String headline(LiveView view, int width) {
    String state = " " + view.phase().key().toUpperCase(Locale.ROOT) + " ";
    String time = clock(view.elapsedS());
    int room = Math.max(0, width - state.length() - time.length() - 3);
    String name = asset.length() > room ? asset.substring(0, room) : asset;
    String left = state + "  " + name;
    return left + " ".repeat(Math.max(1, width - left.length() - time.length())) + time;
  }

  /** A big figure and what stands under it. */
  private record Big(String digits, String under) {}

  private List<String> big(LiveView view, int width) {
    boolean recording = view.phase() != LiveView.Phase.ARMED;
    Double speed = view.latest().get(ChannelName.SPEED);
    List<Big> figures = new ArrayList<>();
    figures.add(
        new Big(
            Double.isNaN(view.currentA())
                ? "---"
                : String.format(Locale.ROOT, "%.0f", view.currentA()),
            "A" + peak(view)));
    if (speed != null) {
      figures.add(
          new Big(speed.isNaN() ? "---" : String.format(Locale.ROOT, "%.0f", speed), "rpm"));
    }
    if (recording) {
      figures.add(new Big(String.format(Locale.ROOT, "%.1f", view.elapsedS()), "s"));
    }
    int fit = Math.max(1, Math.min(figures.size(), width / BIG));
    List<String> lines = new ArrayList<>();
    for (int row = 0; row < BigDigits.HEIGHT; row++) {
      StringBuilder line = new StringBuilder("  ");
      for (Big figure : figures.subList(0, fit)) {
        line.append(BigDigits.lines(pad(figure.digits(), 4))[row]).append("     ");
      }
      lines.add(line.toString());
    }
    StringBuilder under = new StringBuilder("  ");
    for (int i = 0; i < fit; i++) {
      String text = figures.get(i).under();
      int next = 2 + (i + 1) * BIG;
      under.append(text).append(" ".repeat(Math.max(1, next - under.length())));
    }
    lines.add(under.toString());
    return lines;
  }

  private String peak(LiveView view) {
    return Double.isNaN(view.peakCurrentA())
        ? ""
        : String.format(
            Locale.ROOT,
            ", peak %.0f = %.2f In",
            view.peakCurrentA(),
            view.peakCurrentA() / ratedA);
  }

  private static void rest(List<String> lines, Map<ChannelName, Double> latest) {
    StringBuilder text = new StringBuilder();
    latest.forEach(
        (name, value) -> {
          if (!ChannelName.CURRENTS.contains(name) && name != ChannelName.SPEED) {
            text.append("   ").append(name.key()).append(' ');
            text.append(
                Double.isNaN(value)
                    ? "no reading"
                    : ValueText.value(value, null) + " " + name.quantity().unit());
          }
        });
    if (!text.isEmpty()) {
      lines.add(text.toString());
    }
  }

  private static String device(LiveView.DeviceState device) {
    String rate =
        String.format(Locale.ROOT, "%.1f of %.4g a second", device.hz(), device.wantedHz());
    String name = device.name().length() > 16 ? device.name().substring(0, 16) : device.name();
    String state =
        device.fault().isEmpty()
            ? "   " + name + "  " + rate
            : " ! " + name.toUpperCase(Locale.ROOT) + "  " + device.fault();
    return device.faults() == 0 || !device.fault().isEmpty()
        ? state
        : state + ", " + device.faults() + " not had";
  }

  /**
   * A bar with a mark at the rated value.
   *
   * @param share of the bar's length
   * @param mark where the rated value is, share of the bar's length
   * @param length of the bar, characters
   */
  private static String bar(String name, double share, double mark, String value, int length) {
    int filled =
        Double.isNaN(share) ? 0 : (int) Math.round(Math.max(0, Math.min(1, share)) * length);
    int at = (int) Math.round(mark * length);
    StringBuilder bar = new StringBuilder();
    for (int i = 0; i < length; i++) {
      bar.append(i == at ? '|' : i < filled ? '\u2588' : '\u00b7');
    }
    String over = share > 1 ? ">" : " ";
    return String.format(Locale.ROOT, "  %-3s%s%s %s", name, bar, over, value);
  }

  private String amperes(double value) {
    return Double.isNaN(value)
        ? "no reading"
        : String.format(Locale.ROOT, "%7.1f A  %.2f In", value, value / ratedA);
  }

  private static String rpm(double value) {
    return Double.isNaN(value) ? "no reading" : String.format(Locale.ROOT, "%7.0f rpm", value);
  }

  private static String clock(double seconds) {
    long tenths = Math.round(Math.max(0, seconds) * 10);
    return String.format(Locale.ROOT, "%d:%02d.%d ", tenths / 600, tenths / 10 % 60, tenths % 10);
  }

  private static String pad(String text, int width) {
    return " ".repeat(Math.max(0, width - text.length())) + text;
  }

  private static String fit(String line, int width) {
    String text = line.stripTrailing();
    return text.length() > width ? text.substring(0, width - 1) + "\u2026" : text;
  }

  /** One line for where nobody watches a picture. */
  static String plain(LiveView view, @Nullable String before) {
    StringBuilder text = new StringBuilder();
    text.append(view.phase().key());
    text.append(String.format(Locale.ROOT, " %.1f s", view.elapsedS()));
    if (!view.waitingFor().isEmpty()) {
      text.append(", waiting for ").append(view.waitingFor());
    }
    if (!Double.isNaN(view.currentA())) {
      text.append(String.format(Locale.ROOT, ", %.1f A", view.currentA()));
    }
    Double speed = view.latest().get(ChannelName.SPEED);
    if (speed != null) {
      text.append(String.format(Locale.ROOT, ", %.0f rpm", speed));
    }
    for (LiveView.DeviceState device : view.devices()) {
      if (!device.fault().isEmpty()) {
        text.append("; ").append(device.name()).append(": ").append(device.fault());
      }
    }
    if (view.trouble() != null) {
      text.append("; kept in memory: ").append(view.trouble());
    }
    String line = text.toString();
    return line.equals(before) ? "" : line;
  }
}
