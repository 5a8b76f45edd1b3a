package rampwright.acquisition.file;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import rampwright.analysis.quantity.Quantity;
import rampwright.analysis.trace.ChannelName;

/**
 * Analog channels that may be a channel of a trace, by unit and phase, and how to speak of them.
 */
final class ComtradeCandidates {
  private static final int MOST_LISTED = 40;
  private static final Pattern NOT_A_PHASE =
      Pattern.compile(
          "(?i)(3\\s?)?I?[_ ]?([N0GE]|res.*|neutral.*|earth.*|ground.*|diff.*)"
              + "|.*(neutral|earth|ground|residual|sequence|differential).*");

  private ComtradeCandidates() {}

  /**
   * Candidates for each channel of a trace that is not taken yet.
   *
   * @param claimed analog channels somebody named
   * @param taken channels of the trace somebody named
   */
  static Map<ChannelName, List<Integer>> of(
      ComtradeConfig config, Set<Integer> claimed, Set<ChannelName> taken) {
    Map<ChannelName, List<Integer>> all = new EnumMap<>(ChannelName.class);
    List<Integer> currentsWithoutPhase = new ArrayList<>();
    Set<Integer> digits = new TreeSet<>();
    for (int i = 0; i < config.analogs().size(); i++) {
      ComtradeAnalog channel = config.analogs().get(i);
      Optional<ComtradeUnit> unit = ComtradeUnit.of(channel.unit());
      if (unit.isEmpty() || claimed.contains(i)) {
        continue;
      }
      Optional<ComtradePhase> phase = ComtradePhase.of(channel);
      phase.filter(ComtradePhase::byDigit).ifPresent(p -> digits.add(p.number()));
      if (phase.isEmpty()
          && unit.get().kind() == Quantity.CURRENT
          && channel.phase().isBlank()
          && !NOT_A_PHASE.matcher(channel.id().strip()).matches()) {
        currentsWithoutPhase.add(i);
      }
      Optional<ChannelName> name = name(unit.get().kind(), phase);
      if (name.isPresent() && !taken.contains(name.get())) {
        all.computeIfAbsent(name.get(), key -> new ArrayList<>()).add(i);
      }
    }
    if (digits.contains(2) && !digits.contains(3)) {
      // I1 and I2 without I3 may as well be positive and negative sequence.
      all.values()
          .forEach(
              list ->
                  list.removeIf(
                      i ->
                          ComtradePhase.of(config.analogs().get(i))
                              .filter(ComtradePhase::byDigit)
                              .isPresent()));
      all.values().removeIf(List::isEmpty);
    }
    boolean noCurrent =
        ChannelName.CURRENTS.stream().noneMatch(c -> all.containsKey(c) || taken.contains(c));
    if (noCurrent && currentsWithoutPhase.size() == 1) {
      all.put(ChannelName.I1, currentsWithoutPhase);
    }
    return all;
  }

  private static Optional<ChannelName> name(Quantity kind, Optional<ComtradePhase> phase) {
    return switch (kind) {
      case CURRENT ->
          phase.filter(p -> !p.line()).map(p -> ChannelName.CURRENTS.get(p.number() - 1));
      case PHASE_VOLTAGE, LINE_VOLTAGE ->
          phase.map(
              p ->
                  (p.line() ? ChannelName.LINE_VOLTAGES : ChannelName.PHASE_VOLTAGES)
                      .get(p.number() - 1));
      case SPEED -> Optional.of(ChannelName.SPEED);
      case TORQUE -> Optional.of(ChannelName.TORQUE);
      case POWER -> phase.isPresent() ? Optional.empty() : Optional.of(ChannelName.POWER);
      case PRESSURE -> Optional.of(ChannelName.PRESSURE);
      case RUN -> Optional.empty();
    };
  }

  static List<Integer> all(Map<ChannelName, List<Integer>> candidates, Quantity quantity) {
    return candidates.entrySet().stream()
        .filter(entry -> entry.getKey().quantity() == quantity)
        .flatMap(entry -> entry.getValue().stream())
        .sorted()
        .toList();
  }

  /** Says what is ambiguous, names the candidates and shows a table that would decide it. */
  static String ambiguity(
      ComtradeConfig config, Map<ChannelName, List<Integer>> candidates, Set<Quantity> doubtful) {
    StringBuilder text = new StringBuilder("more than one candidate for ");
    text.append(
        doubtful.stream().map(ComtradeCandidates::word).collect(Collectors.joining(" and ")));
    for (Map.Entry<ChannelName, List<Integer>> entry : candidates.entrySet()) {
      if (doubtful.contains(entry.getKey().quantity())) {
        text.append("; ")
            .append(entry.getKey().key())
            .append(": ")
            .append(list(config, entry.getValue()));
      }
    }
    text.append(". Say which belong to the motor in a [columns] table, for example\n[columns]\n");
    for (Map.Entry<ChannelName, List<Integer>> entry : candidates.entrySet()) {
      text.append(example(entry.getKey(), entry.getValue().get(0)));
    }
    return text.toString();
  }

  /** Says that no current was found, names the analog channels and shows a table. */
  static String noCurrent(ComtradeConfig config) {
    if (config.analogs().isEmpty()) {
      return "has no analog channel, so no current; a trace needs at least one current";
    }
    List<Integer> all = Stream.iterate(0, i -> i + 1).limit(config.analogs().size()).toList();
    return "no channel is plainly a phase current (unit A or kA, and phase A, B, C, L1, L2, L3, R,"
        + " S, T, 1, 2 or 3). Analog channels: "
        + list(config, all)
        + ". Say which is one in a [columns] table, for example\n[columns]\n"
        + example(ChannelName.I1, 0)
        + "(with unit = \"A\" or scale = ... where the file's unit is not one of current)";
  }

  private static String example(ChannelName channel, int index) {
    return channel.key() + " = { index = " + (index + 1) + " }\n";
  }

  /** Channels by number, name and what else tells them apart. */
  static String list(ComtradeConfig config, List<Integer> indices) {
    List<Integer> wanted = indices;
    if (wanted.isEmpty()) {
      wanted = Stream.iterate(0, i -> i + 1).limit(config.analogs().size()).toList();
    }
    String text =
        wanted.stream()
            .limit(MOST_LISTED)
            .map(
                i -> {
                  ComtradeAnalog channel = config.analogs().get(i);
                  return (i + 1)
                      + " \""
                      + channel.id()
                      + "\""
                      + (channel.circuit().isEmpty() ? "" : " of " + channel.circuit())
                      + (channel.unit().isEmpty() ? "" : " [" + channel.unit() + "]");
                })
            .collect(Collectors.joining(", "));
    return wanted.size() > MOST_LISTED
        ? text + " and " + (wanted.size() - MOST_LISTED) + " more"
        : text;
  }

  /** Line naming the analog channels nobody uses; empty when there are none. */
  static Optional<String> leftOut(ComtradeConfig config, Set<Integer> used) {
    List<Integer> left = new ArrayList<>();
    for (int i = 0; i < config.analogs().size(); i++) {
      if (!used.contains(i)) {
        left.add(i);
      }
    }
    return left.isEmpty()
        ? Optional.empty()
        : Optional.of("left out: analog " + list(config, Collections.unmodifiableList(left)));
  }

  static String word(Quantity quantity) {
    return switch (quantity) {
      case CURRENT -> "currents";
      case LINE_VOLTAGE -> "line-to-line voltages";
      case PHASE_VOLTAGE -> "phase voltages";
      case SPEED -> "speed";
      case TORQUE -> "torque";
      case POWER -> "power";
      case RUN -> "run";
      case PRESSURE -> "pressure";
    };
  }

  static String keys() {
    return Stream.of(ChannelName.values()).map(ChannelName::key).collect(Collectors.joining(", "));
  }
}
