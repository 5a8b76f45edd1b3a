package rampwright.acquisition.map;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.ChannelUnit;
import rampwright.acquisition.toml.TomlSection;
import rampwright.analysis.quantity.Quantity;
import rampwright.analysis.trace.ChannelName;

/** One {@code [[channel]]} of a channel map. */
final class ChannelSection {
  private ChannelSection() {}

  static MapChannel read(TomlSection in, @Nullable Link link, List<PollGroup> polls) {
    ChannelName name = in.word("name", MapFiles.words(ChannelName.values(), ChannelName::key));
    if (name == null) {
      in.missing(
          "name",
          "one of "
              + String.join(
                  ", ", Arrays.stream(ChannelName.values()).map(ChannelName::key).toList()));
      name = ChannelName.I1;
    }
    ChannelSource source = source(in, link, name);
    double scale = MapFiles.orElse(in.number(MapKeys.SCALE), 1);
    if (scale == 0) {
      in.problem(
          "scale", "scale = 0 makes every reading the same; leave it out or write the factor");
    }
    double offset = MapFiles.orElse(in.number(MapKeys.OFFSET), 0);
    String unit = in.text("unit");
    double toUnit = toUnit(in, name, unit);
    String poll = in.text("poll");
    if (poll != null && polls.stream().noneMatch(group -> group.name().equals(poll))) {
      in.problem(
          "poll",
          "poll = \"" + poll + "\" is no [[poll]] of this map; add it with its" + " poll_hz");
    } else if (poll != null && !(source instanceof ChannelSource.Registers)) {
      in.problem("poll", "poll groups are for registers; lines come when they come");
    }
    String note = in.text("note");
    in.finish();
    return new MapChannel(
        name,
        source,
        scale == 0 ? 1 : scale,
        offset,
        unit == null ? name.quantity().unit() : unit,
        toUnit,
        poll == null ? "" : poll,
        note == null ? "" : note,
        in.line());
  }

  private static double toUnit(TomlSection in, ChannelName name, @Nullable String unit) {
    if (unit == null) {
      if (name.quantity() != Quantity.RUN) {
        in.missing(
            "unit",
            "the unit of register x scale + offset, for example \""
                + name.quantity().unit()
                + "\"");
      }
      return 1;
    }
    OptionalDouble factor = ChannelUnit.factor(name.quantity(), unit);
    if (factor.isEmpty()) {
      in.problem(
          "unit",
          "unit = \""
              + unit
              + "\" is no unit of "
              + name.key()
              + (name.quantity() == Quantity.RUN
                  ? "; run is 0 or 1 and has none; take it out"
                  : "; write \"" + name.quantity().unit() + "\" or a multiple of it"));
    }
    return factor.orElse(1);
  }

  private static ChannelSource source(TomlSection in, @Nullable Link link, ChannelName name) {
    if (link instanceof Link.Lines lines) {
      return line(in, lines.form(), name);
    }
    if (link instanceof Link.Replay) {
      return new ChannelSource.Column();
    }
    return registers(in);
  }

  private static ChannelSource line(TomlSection in, LineForm form, ChannelName name) {
    Double none = in.number(MapKeys.NO_READING);
    Pattern pattern = form.pattern();
    if (pattern != null) {
      // Group names cannot be asked for before Java 20.
      if (!pattern.pattern().contains("(?<" + name.key() + ">")) {
        in.problem(
            "name",
            "the pattern has no group (?<"
                + name.key()
                + ">...); name the group like the"
                + " channel");
      }
      return new ChannelSource.Group(none);
    }
    Double field = in.number(MapKeys.FIELD);
    if (field == null && form.separator() != null) {
      in.missing("field", MapKeys.FIELD.meaning());
    }
    return new ChannelSource.Field(field == null ? 1 : (int) Math.rint(field), none);
  }

  private static ChannelSource registers(TomlSection in) {
    int function = (int) Math.rint(in.requiredNumber(MapKeys.FUNCTION));
    double address = in.requiredNumber(MapKeys.ADDRESS);
    if (address != Math.rint(address)) {
      in.problem("address", "address = " + address + " is not a whole number");
    }
    boolean bit = function <= 2;
    RegisterType type = in.word("type", MapFiles.words(RegisterType.values(), RegisterType::key));
    if (type == null) {
      if (!bit) {
        in.missing("type", "one of u16, i16, u32, i32, f32, f64, bit");
      }
      type = bit ? RegisterType.BIT : RegisterType.U16;
    } else if (bit && type != RegisterType.BIT) {
      in.problem("type", "function " + function + " reads bits; write type = \"bit\"");
      type = RegisterType.BIT;
    }
    RegisterForm form = new RegisterForm(type, first(in, "word_order"), first(in, "byte_order"));
    if (address + type.words() > 65536) {
      in.problem(
          "address",
          "address = "
              + (int) address
              + " with "
              + type.words()
              + " registers runs over the last one, 65535");
    }
    Double none = in.number(MapKeys.NO_READING);
    Long noneBits = null;
    if (none != null) {
      int[] words = form.encode(none);
      // A negative raw number of an unsigned register is its two's complement.
      boolean complement = !type.isFloat() && none < 0;
      noneBits = complement ? bitsOf(none.longValue(), type) : Long.valueOf(form.bits(words));
      if (!type.isFloat() && !complement && form.decode(words) != none) {
        in.problem("no_reading", "no_reading = " + none + " does not fit into " + type.key());
      }
    }
    return new ChannelSource.Registers(function, (int) address, form, noneBits);
  }

  private static long bitsOf(long value, RegisterType type) {
    return type.words() == 1 ? value & 0xffffL : value & 0xffff_ffffL;
  }

  private static boolean first(TomlSection in, String key) {
    Map<String, Boolean> words = new LinkedHashMap<>();
    words.put("high first", true);
    words.put("low first", false);
    Boolean high = in.word(key, words);
    return high == null || high;
  }
}
