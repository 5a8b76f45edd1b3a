package rampwright.acquisition.record;

import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.Locale;
import java.util.StringJoiner;
import java.util.zip.CRC32;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.DeviceEvent;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.map.ChannelMap;
import rampwright.acquisition.map.MapChannel;

/**
 * One line of a journal: fields behind tabs, and at the end {@code *} and the CRC-32 of what stands
 * before it, so that a line that was half written is known for it.
 */
sealed interface JournalLine {
  /** Version of the form. */
  int VERSION = 1;

  /** First line: that it is a journal. */
  record Head(int version) implements JournalLine {}

  /** A device: its number, name and the channels in order, by key. */
  record Device(int number, String name, String map, String channels) implements JournalLine {}

  /** What the monotonic clock was when the wall clock was something. */
  record Clock(long atNs, Instant utc) implements JournalLine {}

  /** A reading or a fault. */
  record Event(DeviceEvent event) implements JournalLine {}

  /** The trial's begin. */
  record Begin(long atNs, String why) implements JournalLine {}

  /** The trial's end. */
  record End(long atNs, String why) implements JournalLine {}

  /** The line, with its line feed. */
  default byte[] bytes() {
    StringJoiner fields = new StringJoiner("\t");
    if (this instanceof Head head) {
      fields.add("journal").add("" + head.version());
    } else if (this instanceof Device device) {
      fields.add("device").add("" + device.number()).add(escaped(device.name()));
      fields.add(escaped(device.map())).add(device.channels());
    } else if (this instanceof Clock clock) {
      fields.add("clock").add("" + clock.atNs()).add(clock.utc().toString());
    } else if (this instanceof Begin begin) {
      fields.add("begin").add("" + begin.atNs()).add(escaped(begin.why()));
    } else if (this instanceof End end) {
      fields.add("end").add("" + end.atNs()).add(escaped(end.why()));
    } else if (this instanceof Event event) {
      event(fields, event.event());
    }
    byte[] text = fields.toString().getBytes(StandardCharsets.UTF_8);
    byte[] check =
        String.format(Locale.ROOT, "*%08x\n", crc(text, text.length))
            .getBytes(StandardCharsets.US_ASCII);
    byte[] line = new byte[text.length + check.length];
    System.arraycopy(text, 0, line, 0, text.length);
    System.arraycopy(check, 0, line, text.length, check.length);
    return line;
  }

  private static void event(StringJoiner fields, DeviceEvent event) {
    if (event instanceof DeviceEvent.Reading reading) {
      fields.add("reading").add("" + reading.device()).add("" + reading.block());
      fields.add("" + reading.atNs()).add("" + reading.roundTripNs()).add("" + reading.lateNs());
      fields.add("" + reading.tries());
      StringJoiner channels = new StringJoiner(",");
      StringJoiner values = new StringJoiner(",");
      for (int i = 0; i < reading.channels().length; i++) {
        channels.add("" + reading.channels()[i]);
        values.add(Double.isNaN(reading.values()[i]) ? "" : "" + reading.values()[i]);
      }
      fields.add(channels.toString()).add(values.toString()).add(escaped(reading.raw()));
    } else if (event instanceof DeviceEvent.Fault fault) {
      fields.add("fault").add("" + fault.device()).add("" + fault.atNs());
      fields.add(fault.kind().name()).add("" + fault.tries()).add(escaped(fault.text()));
    } else if (event instanceof DeviceEvent.AskedAgain again) {
      fields.add("again").add("" + again.device()).add("" + again.atNs());
      fields.add(escaped(again.text()));
    } else {
      fields.add("ended").add("" + event.device()).add("" + event.atNs());
    }
  }

  /** The line of that text without line feed; null when it is not whole or not understood. */
  static @Nullable JournalLine parse(byte[] line, int count) {
    int star = count - 9;
    if (star < 1 || line[star] != '*') {
      return null;
    }
    String check = new String(line, star + 1, 8, StandardCharsets.US_ASCII);
    if (!check.equals(String.format(Locale.ROOT, "%08x", crc(line, star)))) {
      return null;
    }
    String[] f = new String(line, 0, star, StandardCharsets.UTF_8).split("\t", -1);
    try {
      return switch (f[0]) {
        case "journal" -> new Head(Integer.parseInt(f[1]));
        case "device" -> new Device(Integer.parseInt(f[1]), unescaped(f[2]), unescaped(f[3]), f[4]);
        case "clock" -> new Clock(Long.parseLong(f[1]), Instant.parse(f[2]));
        case "begin" -> new Begin(Long.parseLong(f[1]), unescaped(f[2]));
        case "end" -> new End(Long.parseLong(f[1]), unescaped(f[2]));
        case "reading" -> new Event(reading(f));
        case "fault" ->
            new Event(
                new DeviceEvent.Fault(
                    Integer.parseInt(f[1]),
                    Long.parseLong(f[2]),
                    FaultKind.valueOf(f[3]),
                    Integer.parseInt(f[4]),
                    unescaped(f[5])));
        case "again" ->
            new Event(
                new DeviceEvent.AskedAgain(
                    Integer.parseInt(f[1]), Long.parseLong(f[2]), unescaped(f[3])));
        case "ended" ->
            new Event(new DeviceEvent.Ended(Integer.parseInt(f[1]), Long.parseLong(f[2])));
        default -> null;
      };
    } catch (IllegalArgumentException | IndexOutOfBoundsException | DateTimeException e) {
      return null;
    }
  }

  private static DeviceEvent.Reading reading(String[] f) {
    String[] numbers = f[7].split(",", -1);
    String[] written = f[8].split(",", -1);
    int[] channels = new int[numbers.length];
    double[] values = new double[numbers.length];
    for (int i = 0; i < channels.length; i++) {
      channels[i] = Integer.parseInt(numbers[i]);
      values[i] = written[i].isEmpty() ? Double.NaN : Double.parseDouble(written[i]);
    }
    return new DeviceEvent.Reading(
        Integer.parseInt(f[1]),
        Integer.parseInt(f[2]),
        Long.parseLong(f[3]),
        Long.parseLong(f[4]),
        Long.parseLong(f[5]),
        Integer.parseInt(f[6]),
        channels,
        values,
        unescaped(f[9]));
  }

  /** A device's line. */
  static Device device(int number, ChannelMap map) {
    StringJoiner channels = new StringJoiner(",");
    for (MapChannel channel : map.channels()) {
      channels.add(channel.name().key());
    }
    String file = map.file() == null ? "" : map.file().toString();
    return new Device(number, map.name(), file, channels.toString());
  }

  private static long crc(byte[] bytes, int count) {
    CRC32 crc = new CRC32();
    crc.update(bytes, 0, count);
    return crc.getValue();
  }

  /** Text without controls: they are written as {@code %XX}. */
  private static String escaped(String text) {
    StringBuilder safe = new StringBuilder(text.length());
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c < ' ' || c == '%' || (c >= 0x7f && c < 0xa0) || Character.isSurrogate(c)) {
        safe.append(String.format(Locale.ROOT, "%%%04X", (int) c));
      } else {
        safe.append(c);
      }
    }
    return safe.toString();
  }

  private static String unescaped(String text) {
    StringBuilder plain = new StringBuilder(text.length());
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '%') {
        plain.append((char) Integer.parseInt(text.substring(i + 1, i + 5), 16));
        i += 4;
      } else {
        plain.append(c);
      }
    }
    return plain.toString();
  }
}
