package rampwright.app.asset;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.ColumnMapping;
import rampwright.acquisition.file.ColumnRule;
import rampwright.acquisition.toml.NumberKey;
import rampwright.acquisition.toml.TomlSection;
import rampwright.analysis.trace.ChannelName;

/** The {@code [columns]} section: a person's word on the columns of a foreign file. */
final class ColumnsSection {
  private static final NumberKey INDEX =
      new NumberKey("index", "", 1, 10_000, "the column's number, counted from 1", "");
  private static final NumberKey SCALE =
      new NumberKey("scale", "", -1e12, 1e12, "value x scale + offset, in the channel's unit", "");
  private static final NumberKey OFFSET =
      new NumberKey("offset", "", -1e12, 1e12, "value x scale + offset, in the channel's unit", "");
  private static final NumberKey RATE =
      new NumberKey(
          "rate_Hz", "Hz", 1e-3, 1e9, "rows per second where no column tells the time", "");

  private ColumnsSection() {}

  static ColumnMapping read(TomlSection in) {
    List<String> allowed = new ArrayList<>();
    allowed.add(ColumnMapping.TIME);
    Arrays.stream(ChannelName.values()).map(ChannelName::key).forEach(allowed::add);
    Map<String, ColumnRule> rules = new LinkedHashMap<>();
    Double rateHz = null;
    for (String key : allowed) {
      TomlSection section = in.section(key);
      if (section == null) {
        continue;
      }
      if (key.equals(ColumnMapping.TIME) && section.has(RATE.name())) {
        rateHz = rate(in, section);
        continue;
      }
      ColumnRule rule = rule(in, section, key);
      if (rule != null) {
        rules.put(key, rule);
      }
    }
    in.finish(allowed);
    return new ColumnMapping(rules, rateHz);
  }

  private static @Nullable Double rate(TomlSection columns, TomlSection in) {
    Double rateHz = in.number(RATE);
    if (in.has("name") || in.has("index")) {
      columns.problem(
          ColumnMapping.TIME,
          "time: a column and rate_Hz are both given; the time is one of the two, take one out");
    }
    in.finish(List.of("rate_Hz", "name", "index"));
    return rateHz;
  }

  private static @Nullable ColumnRule rule(TomlSection columns, TomlSection in, String key) {
    String name = in.text("name");
    Double index = in.number(INDEX);
    String unit = in.text("unit");
    Double scale = in.number(SCALE);
    Double offset = in.number(OFFSET);
    in.finish();
    if (scale != null && scale == 0) {
      columns.problem(key, key + ": scale = 0 makes every value the same; give the factor");
    }
    if (index != null && index != Math.rint(index)) {
      columns.problem(key, key + ": index must be a whole number, counted from 1");
    }
    if ((name == null) == (index == null)) {
      columns.problem(
          key, key + ": a column is given by name or by index, one of the two; mend it");
      return null;
    }
    return new ColumnRule(name, index == null ? null : index.intValue(), unit, scale, offset);
  }
}
