package rampwright.acquisition.map;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.regex.PatternSyntaxException;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;
import rampwright.acquisition.toml.TomlFile;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.acquisition.toml.TomlSection;

/** Reads channel maps ({@code *.map.toml}); every problem is named with its line. */
public final class MapFiles {
  private static final int USUAL_TCP_PORT = 502;
  private static final int USUAL_BAUD = 19200;
  private static final int USUAL_TIMEOUT_MS = 300;
  private static final int LONGEST_PATTERN = 400;

  private MapFiles() {}

  /**
   * A channel map.
   *
   * @throws TomlProblemsException with every problem of the file
   */
  public static ChannelMap read(Path path) throws IOException, TomlProblemsException {
    return read(TomlFile.read(path), path);
  }

  /** The same from a text; {@code name} stands for the file in messages. */
  public static ChannelMap parse(String name, String text) throws TomlProblemsException {
    return read(TomlFile.parse(name, text), null);
  }

  private static ChannelMap read(TomlFile file, @Nullable Path path) throws TomlProblemsException {
    TomlSection root = file.root();
    TomlSection device = root.requiredSection("device", "how the device is reached");
    List<PollGroup> polls = new ArrayList<>();
    Link link = null;
    String name = "device";
    int unit = 1;
    int timeoutMs = USUAL_TIMEOUT_MS;
    int bridge = 0;
    if (device != null) {
      name = device.requiredText("name", "what people call it");
      if (name.length() > 60) {
        device.problem("name", "name is longer than 60 characters; shorten it");
      }
      link = link(device);
      boolean modbus = link instanceof Link.Tcp || link instanceof Link.Rtu;
      if (modbus) {
        unit = whole(device, MapKeys.UNIT, 1);
        bridge = whole(device, MapKeys.BRIDGE, 0);
        timeoutMs = whole(device, MapKeys.TIMEOUT_MS, USUAL_TIMEOUT_MS);
      } else if (link instanceof Link.Lines) {
        // Lines come when the instrument likes; silence is judged by the rate it should have.
        timeoutMs = whole(device, MapKeys.TIMEOUT_MS, 2000);
      }
      polls.add(new PollGroup("", device.requiredNumber(MapKeys.POLL_HZ)));
      device.finish();
    }
    polls.addAll(pollGroups(root));
    List<MapChannel> channels = new ArrayList<>();
    Map<String, Integer> lineOf = new LinkedHashMap<>();
    for (TomlSection section : root.sections("channel")) {
      MapChannel channel = ChannelSection.read(section, link, polls);
      Integer earlier = lineOf.putIfAbsent(channel.name().key(), section.line());
      if (earlier != null) {
        section.problem(
            "name",
            "name = \""
                + channel.name().key()
                + "\" is there already on line "
                + earlier
                + "; a channel comes from one place; take one out");
      }
      channels.add(channel);
    }
    if (channels.isEmpty()) {
      root.missing("channel", "a [[channel]] for each quantity the device tells");
    }
    root.finish();
    file.finish();
    if (link == null || polls.isEmpty()) {
      throw new IllegalStateException(file.name() + ": read without device or problem");
    }
    return new ChannelMap(path, name, link, unit, timeoutMs, bridge, polls, channels);
  }

  private static List<PollGroup> pollGroups(TomlSection root) {
    List<PollGroup> groups = new ArrayList<>();
    for (TomlSection section : root.sections("poll")) {
      String name = section.requiredText("name", "what channels call it in poll = \"...\"");
      groups.add(new PollGroup(name, section.requiredNumber(MapKeys.POLL_HZ)));
      section.finish();
    }
    return groups;
  }

  private static @Nullable Link link(TomlSection device) {
    Map<String, String> kinds = new LinkedHashMap<>();
    List.of("tcp", "rtu", "lines", "replay").forEach(kind -> kinds.put(kind, kind));
    String kind = device.word("link", kinds);
    if (kind == null) {
      device.missing("link", "\"tcp\", \"rtu\", \"lines\" or \"replay\"");
      return null;
    }
    return switch (kind) {
      case "tcp" ->
          new Link.Tcp(
              device.requiredText("host", "name or address of the device"),
              whole(device, MapKeys.TCP_PORT, USUAL_TCP_PORT));
      case "rtu" -> new Link.Rtu(serial(device));
      case "lines" -> new Link.Lines(serial(device), lineForm(device));
      default ->
          new Link.Replay(
              device.requiredText("file", "the trace file to play again"),
              orElse(device.number(MapKeys.SPEED), 1));
    };
  }

  private static SerialSettings serial(TomlSection device) {
    String port = device.requiredText("serial_port", "the port, for example \"/dev/ttyS0\"");
    SerialSettings.Parity parity =
        device.word("parity", words(SerialSettings.Parity.values(), SerialSettings.Parity::key));
    boolean rtu = "rtu".equals(device.text("link"));
    SerialSettings.Parity usual =
        // Even is the default of Modbus over serial line V1.02, 2.5.1; printers have none.
        rtu ? SerialSettings.Parity.EVEN : SerialSettings.Parity.NONE;
    int dataBits = whole(device, MapKeys.DATA_BITS, 8);
    if (rtu && dataBits != 8) {
      device.problem("data_bits", "data_bits = " + dataBits + "; Modbus RTU needs 8");
    }
    return new SerialSettings(
        port,
        whole(device, MapKeys.BAUD, USUAL_BAUD),
        dataBits,
        parity == null ? usual : parity,
        whole(device, MapKeys.STOP_BITS, 1));
  }

  private static LineForm lineForm(TomlSection device) {
    String separator = device.text("separator");
    String written = device.text("pattern");
    Pattern pattern = null;
    if (separator == null && written == null) {
      device.missing("separator", "what stands between fields, or pattern for lines without");
    } else if (separator != null && written != null) {
      device.problem("pattern", "separator and pattern exclude each other; keep one");
    } else if (separator != null && separator.isEmpty()) {
      device.problem("separator", "separator is empty; write what stands between fields");
    }
    if (written != null) {
      pattern = pattern(device, written);
    }
    String terminator = device.text("terminator");
    if (terminator != null && !List.of("\n", "\r", "\r\n").contains(terminator)) {
      device.problem("terminator", "terminator is not one of \"\\n\", \"\\r\", \"\\r\\n\"");
    }
    Map<String, Boolean> decimals = new LinkedHashMap<>();
    decimals.put(".", false);
    decimals.put(",", true);
    Boolean comma = device.word("decimal", decimals);
    if (Boolean.TRUE.equals(comma) && ",".equals(separator)) {
      device.problem("decimal", "a comma cannot be both decimal sign and separator");
    }
    return new LineForm(
        separator, pattern, terminator == null ? "\n" : terminator, Boolean.TRUE.equals(comma));
  }

  private static @Nullable Pattern pattern(TomlSection device, String written) {
    if (written.length() > LONGEST_PATTERN) {
      device.problem("pattern", "pattern is longer than " + LONGEST_PATTERN + " characters");
      return null;
    }
    try {
      return Pattern.compile(written);
    } catch (PatternSyntaxException e) {
      device.problem(
          "pattern",
          "pattern is no regular expression: "
              + e.getDescription()
              + " at character "
              + (e.getIndex() + 1)
              + "; mend it, named groups are written (?<i1>...)");
      return null;
    }
  }

  static int whole(TomlSection in, NumberKey key, int usual) {
    Double value = in.number(key);
    if (value == null) {
      return usual;
    }
    if (value != Math.rint(value)) {
      in.problem(key.name(), key.name() + " = " + value + " is not a whole number");
    }
    return (int) Math.rint(value);
  }

  static double orElse(@Nullable Double value, double usual) {
    return value == null ? usual : value;
  }

  static <T> Map<String, T> words(T[] values, java.util.function.Function<T, String> key) {
    Map<String, T> words = new LinkedHashMap<>();
    for (T value : values) {
      words.put(key.apply(value), value);
    }
    return words;
  }
}
