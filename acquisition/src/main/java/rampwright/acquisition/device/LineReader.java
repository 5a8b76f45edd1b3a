package rampwright.acquisition.device;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.ChannelSource;
import rampwright.acquisition.map.LineForm;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.MapChannel;

/** An instrument's lines to values. */
public final class LineReader {
  /** A pattern that takes longer on 512 characters has run wild. */
  private static final int MOST_STEPS = 200_000;

  private static final int LONGEST_NUMBER = 40;

  private final ChannelMap map;
  private final LineForm form;

  /** A reader for the lines of a map. */
  public LineReader(ChannelMap map, Link.Lines link) {
    this.map = map;
    this.form = link.form();
  }

  /**
   * The values of a line, in the order of the map's channels; NaN for "no reading".
   *
   * @throws DeviceFault when it is no line of this instrument
   */
  public double[] values(String line) throws DeviceFault {
    List<MapChannel> channels = map.channels();
    double[] values = new double[channels.size()];
    Pattern pattern = form.pattern();
    String separator = form.separator();
    if (pattern != null) {
      Matcher matcher = pattern.matcher(new Budget(line));
      boolean found;
      try {
        found = matcher.find();
      } catch (StackOverflowError | Budget.Spent e) {
        throw new DeviceFault(
            FaultKind.GARBAGE, "the pattern runs wild on " + quoted(line) + "; simplify it");
      }
      if (!found) {
        throw new DeviceFault(FaultKind.GARBAGE, "the pattern does not fit " + quoted(line));
      }
      for (int i = 0; i < values.length; i++) {
        values[i] = number(channels.get(i), matcher.group(channels.get(i).name().key()), line);
      }
      return values;
    }
    String[] fields =
        separator == null ? new String[] {line} : line.split(Pattern.quote(separator), -1);
    for (int i = 0; i < values.length; i++) {
      ChannelSource.Field field = (ChannelSource.Field) channels.get(i).source();
      if (field.index() > fields.length) {
        throw new DeviceFault(
            FaultKind.GARBAGE,
            "line has "
                + fields.length
                + " fields, field "
                + field.index()
                + " is wanted: "
                + quoted(line));
      }
      values[i] = number(channels.get(i), fields[field.index() - 1], line);
    }
    return values;
  }

  private double number(MapChannel channel, @Nullable String written, String line)
      throws DeviceFault {
    if (written == null) {
      return Double.NaN;
    }
    String text = written.strip();
    if (form.decimalComma()) {
      text = text.replace(',', '.');
    }
    double raw;
    try {
      if (text.length() > LONGEST_NUMBER || !text.matches("[+-]?[0-9. eE+-]*[0-9.]")) {
        throw new NumberFormatException(text);
      }
      raw = Double.parseDouble(text);
    } catch (NumberFormatException e) {
      throw new DeviceFault(
          FaultKind.GARBAGE, channel.name().key() + " is no number in " + quoted(line), e);
    }
    Double none =
        channel.source() instanceof ChannelSource.Field field
            ? field.noReading()
            : channel.source() instanceof ChannelSource.Group group ? group.noReading() : null;
    double value = channel.value(raw);
    return (none != null && none == raw) || !Double.isFinite(value) ? Double.NaN : value;
  }

  /** Part of a line for a message, fit to be shown anywhere. */
  static String quoted(String line) {
    StringBuilder text = new StringBuilder("\"");
    for (int i = 0; i < Math.min(line.length(), 40); i++) {
      char c = line.charAt(i);
      text.append(c >= ' ' && c < 0x7f ? c : '?');
    }
    return text.append(line.length() > 40 ? "...\"" : "\"").toString();
  }

  /** A text that can be looked at so many times. */
  private static final class Budget implements CharSequence {
    /** Too many looks. */
    static final class Spent extends RuntimeException {
      private static final long serialVersionUID = 1L;

      Spent() {
        super("spent", null, false, false);
      }
    }

    private final String text;
    private int left = MOST_STEPS;

    Budget(String text) {
      this.text = text;
    }

    @Override
    public int length() {
      return text.length();
    }

    @Override
    public char charAt(int index) {
      if (--left < 0) {
        throw new Spent();
      }
      return text.charAt(index);
    }

    @Override
    public CharSequence subSequence(int start, int end) {
      return text.substring(start, end);
    }

    @Override
    public String toString() {
      return text;
    }
  }
}
