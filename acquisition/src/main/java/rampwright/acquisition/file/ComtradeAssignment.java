package rampwright.acquisition.file;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Quantity;
import rampwright.analysis.trace.ChannelName;

/**
 * Which channels of a COMTRADE record are which channels of a trace: first those a person named,
 * then those whose unit and phase leave no doubt. Where there is doubt it is an error, or, once a
 * person has named the currents, a warning.
 */
final class ComtradeAssignment {
  private final String name;
  private final ComtradeConfig config;
  private final ReadOptions options;
  private final Map<ChannelName, ComtradeField> fields = new EnumMap<>(ChannelName.class);
  private final Map<ChannelName, ComtradeAnalog> sources = new EnumMap<>(ChannelName.class);
  private final List<String> understood = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();
  private final Set<Integer> claimed = new HashSet<>();

  private ComtradeAssignment(String name, ComtradeConfig config, ReadOptions options) {
    this.name = name;
    this.config = config;
    this.options = options;
  }

  static ComtradeAssignment of(String name, ComtradeConfig config, ReadOptions options)
      throws TraceFileException {
    ComtradeAssignment assignment = new ComtradeAssignment(name, config, options);
    assignment.takeNamed();
    assignment.guess();
    assignment.takeRunByName();
    assignment.requireCurrent();
    return assignment;
  }

  /** Where each channel of the trace comes from. */
  Map<ChannelName, ComtradeField> fields() {
    return fields;
  }

  /** The analog channel behind each channel of the trace; none for those from status channels. */
  Map<ChannelName, ComtradeAnalog> sources() {
    return sources;
  }

  /** How each channel was read, one line each. */
  List<String> understood() {
    return understood;
  }

  List<String> warnings() {
    return warnings;
  }

  private void takeNamed() throws TraceFileException {
    for (Map.Entry<String, ColumnRule> entry :
        new TreeMap<>(options.columns().rules()).entrySet()) {
      if (entry.getKey().equals(ColumnMapping.TIME)) {
        warnings.add(
            name
                + ": [columns] names a time column; a COMTRADE record carries its own time, the"
                + " entry is not used");
        continue;
      }
      ChannelName channel =
          ChannelName.ofKey(entry.getKey())
              .orElseThrow(
                  () ->
                      new TraceFileException(
                          name,
                          "[columns] names a channel \""
                              + entry.getKey()
                              + "\" that there is not; channels are "
                              + ComtradeCandidates.keys()));
      ColumnRule rule = entry.getValue();
      if (channel == ChannelName.RUN && takeStatus(rule)) {
        continue;
      }
      int index = find(channel, rule);
      claimed.add(index);
      assign(channel, index, rule);
    }
  }

  /** The run command from a status channel; index counts the status channels then. */
  private boolean takeStatus(ColumnRule rule) throws TraceFileException {
    int found = -1;
    Integer index = rule.index();
    if (index != null) {
      if (index < 1 || index > config.statuses().size()) {
        throw new TraceFileException(
            name,
            "[columns] run: there is no status channel "
                + index
                + "; the record has "
                + config.statuses().size()
                + ", counted from 1");
      }
      found = index - 1;
    } else {
      List<Integer> same = new ArrayList<>();
      for (int i = 0; i < config.statuses().size(); i++) {
        if (config.statuses().get(i).id().equalsIgnoreCase(wanted(rule))) {
          same.add(i + 1);
        }
      }
      if (same.size() > 1) {
        throw new TraceFileException(
            name,
            "[columns] run: status channels "
                + same
                + " are all named \""
                + rule.name()
                + "\"; give index = one of them");
      }
      if (same.isEmpty()) {
        return false;
      }
      found = same.get(0) - 1;
    }
    putStatus(found, orElse(rule.scale(), 1), orElse(rule.offset(), 0), "as named in [columns]");
    return true;
  }

  /** A single status channel called run is one; any other name leaves it open what it tells. */
  private void takeRunByName() {
    int found = -1;
    for (int i = 0; i < config.statuses().size(); i++) {
      if (config.statuses().get(i).id().strip().equalsIgnoreCase(ChannelName.RUN.key())) {
        if (found >= 0) {
          return;
        }
        found = i;
      }
    }
    if (found >= 0 && !fields.containsKey(ChannelName.RUN)) {
      putStatus(found, 1, 0, "by its name");
    }
  }

  private void putStatus(int found, double scale, double offset, String how) {
    fields.put(ChannelName.RUN, ComtradeField.status(found, scale, offset));
    understood.add(
        "run <- status " + (found + 1) + " \"" + config.statuses().get(found).id() + "\" " + how);
  }

  private static double orElse(@Nullable Double value, double otherwise) {
    return value == null ? otherwise : value;
  }

  private static String wanted(ColumnRule rule) {
    String wanted = rule.name();
    return wanted == null ? "" : wanted.strip();
  }

  private int find(ChannelName channel, ColumnRule rule) throws TraceFileException {
    List<ComtradeAnalog> analogs = config.analogs();
    Integer index = rule.index();
    if (index != null) {
      if (index < 1 || index > analogs.size()) {
        throw new TraceFileException(
            name,
            "[columns] "
                + channel.key()
                + ": there is no analog channel "
                + index
                + "; the record has "
                + analogs.size()
                + ", counted from 1");
      }
      return index - 1;
    }
    List<Integer> same = new ArrayList<>();
    for (int i = 0; i < analogs.size(); i++) {
      if (analogs.get(i).id().equalsIgnoreCase(wanted(rule))) {
        same.add(i);
      }
    }
    if (same.size() == 1) {
      return same.get(0);
    }
    throw new TraceFileException(
        name,
        "[columns] "
            + channel.key()
            + ": "
            + (same.isEmpty() ? "no" : "more than one")
            + " channel is named \""
            + rule.name()
            + "\"; give its index. Analog channels: "
            + ComtradeCandidates.list(config, same));
  }

  private void assign(ChannelName channel, int index, ColumnRule rule) throws TraceFileException {
    ComtradeAnalog source = config.analogs().get(index);
    Double scale = rule.scale();
    if (scale != null) {
      double offset = orElse(rule.offset(), 0);
      fields.put(channel, ComtradeField.analog(index, source, scale, offset));
      sources.put(channel, source);
      understood.add(
          described(channel, index)
              + ", value x "
              + ComtradeUnit.plain(scale)
              + " + "
              + ComtradeUnit.plain(offset)
              + " as named in [columns]; no transformer ratio applied");
      return;
    }
    String text = rule.unit() == null ? source.unit() : rule.unit();
    Optional<ComtradeUnit> unit = ComtradeUnit.of(text == null ? "" : text);
    if (channel == ChannelName.RUN && unit.isEmpty()) {
      fields.put(channel, ComtradeField.analog(index, source, 1, orElse(rule.offset(), 0)));
      understood.add(described(channel, index) + " as named in [columns]");
      return;
    }
    if (unit.isEmpty() || !unit.get().fits(channel.quantity())) {
      throw new TraceFileException(
          name,
          "[columns] "
              + channel.key()
              + ": analog channel "
              + (index + 1)
              + " \""
              + source.id()
              + "\" is in \""
              + text
              + "\", which is no unit of "
              + channel.key()
              + " ("
              + channel.quantity().unit()
              + "); give unit, or scale and offset");
    }
    put(channel, index, unit.get(), orElse(rule.offset(), 0), " as named in [columns]");
  }

  private void put(ChannelName channel, int index, ComtradeUnit unit, double offset, String because)
      throws TraceFileException {
    ComtradeAnalog source = config.analogs().get(index);
    String side = "";
    double ratio = 1;
    if (channel.quantity() == Quantity.CURRENT || unit.kind() == Quantity.PHASE_VOLTAGE) {
      ratio = ratio(source, index);
      side = side(source, ratio);
    }
    fields.put(channel, ComtradeField.analog(index, source, unit.factor() * ratio, offset));
    sources.put(channel, source);
    understood.add(
        described(channel, index)
            + (unit.factor() == 1
                ? ""
                : " x " + ComtradeUnit.plain(unit.factor()) + " to " + channel.quantity().unit())
            + side
            + because);
  }

  /** Factor from the side the file's values are on to the side wanted. */
  private double ratio(ComtradeAnalog source, int index) throws TraceFileException {
    boolean isSecondary = source.side() == ComtradeAnalog.Side.SECONDARY;
    if (source.side() == ComtradeAnalog.Side.UNSTATED || isSecondary == options.secondaryValues()) {
      return 1;
    }
    double ratio = source.ratio();
    if (Double.isNaN(ratio)) {
      throw new TraceFileException(
          name,
          "analog channel "
              + (index + 1)
              + " \""
              + source.id()
              + "\" holds "
              + (isSecondary ? "secondary" : "primary")
              + " values and no usable transformer ratio ("
              + source.primary()
              + " : "
              + source.secondary()
              + "); correct the configuration, give a scale in [columns], or take "
              + (isSecondary ? "secondary" : "primary")
              + " values");
    }
    return isSecondary ? ratio : 1 / ratio;
  }

  private String side(ComtradeAnalog source, double ratio) {
    if (source.side() == ComtradeAnalog.Side.UNSTATED) {
      return ", as written (the file does not say whether primary or secondary)";
    }
    String side = options.secondaryValues() ? ", secondary value" : ", primary value";
    return ratio == 1 ? side : side + " = value x " + ComtradeUnit.plain(ratio);
  }

  private String described(ChannelName channel, int index) {
    ComtradeAnalog source = config.analogs().get(index);
    return channel.key()
        + " <- analog "
        + (index + 1)
        + " \""
        + source.id()
        + "\""
        + (source.phase().isEmpty() ? "" : " phase " + source.phase())
        + (source.unit().isEmpty() ? "" : " [" + source.unit() + "]");
  }

  /** Channels nobody named: those with one candidate are taken, doubt is told. */
  private void guess() throws TraceFileException {
    Map<ChannelName, List<Integer>> candidates =
        ComtradeCandidates.of(config, claimed, fields.keySet());
    Set<Quantity> doubtful = EnumSet.noneOf(Quantity.class);
    candidates.forEach(
        (channel, indices) -> {
          if (indices.size() > 1) {
            doubtful.add(channel.quantity());
          }
        });
    boolean currentsNamed = ChannelName.CURRENTS.stream().anyMatch(fields::containsKey);
    if (!doubtful.isEmpty() && !currentsNamed) {
      throw new TraceFileException(
          name, ComtradeCandidates.ambiguity(config, candidates, doubtful));
    }
    for (Quantity quantity : doubtful) {
      warnings.add(
          name
              + ": more than one candidate for "
              + ComtradeCandidates.word(quantity)
              + ", none taken ("
              + ComtradeCandidates.list(config, ComtradeCandidates.all(candidates, quantity))
              + "); name those that belong to the motor in [columns]");
    }
    Map<ChannelName, Integer> taken = new LinkedHashMap<>();
    candidates.forEach(
        (channel, indices) -> {
          if (!indices.isEmpty() && !doubtful.contains(channel.quantity())) {
            taken.put(channel, indices.get(0));
          }
        });
    for (Map.Entry<ChannelName, Integer> entry : taken.entrySet()) {
      int index = entry.getValue();
      ComtradeUnit unit = ComtradeUnit.of(config.analogs().get(index).unit()).orElseThrow();
      put(entry.getKey(), index, unit, 0, "");
      claimed.add(index);
    }
    ComtradeCandidates.leftOut(config, claimed).ifPresent(understood::add);
  }

  private void requireCurrent() throws TraceFileException {
    if (ChannelName.CURRENTS.stream().noneMatch(fields::containsKey)) {
      throw new TraceFileException(name, ComtradeCandidates.noCurrent(config));
    }
  }
}
