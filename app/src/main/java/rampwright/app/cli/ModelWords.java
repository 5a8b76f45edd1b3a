package rampwright.app.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import rampwright.app.advice.Advice;

/** What a fitted model holds, for people who need not know its parameters. */
final class ModelWords {
  private static final String CIRCUIT = "part of the motor's circuit";

  private static final Map<String, String> OF_PARAMETER =
      Map.ofEntries(
          Map.entry("inertia_kgm2", "inertia"),
          Map.entry("load_torque", "load torque at full speed"),
          Map.entry("load_least_torque", "least load torque"),
          Map.entry("breakaway_torque", "breakaway torque"),
          Map.entry("load_exponent", "how the load grows with speed"),
          Map.entry("breakaway_width", "how soon breakaway is over"),
          Map.entry("supply_impedance_ohm", "supply impedance"),
          Map.entry("supply_x_over_r", "X/R of the supply"),
          Map.entry("r1", CIRCUIT),
          Map.entry("x1", CIRCUIT),
          Map.entry("xm", CIRCUIT),
          Map.entry("ra", CIRCUIT),
          Map.entry("xa", CIRCUIT),
          Map.entry("rb", CIRCUIT),
          Map.entry("xb", CIRCUIT),
          Map.entry("torque_gain", "gain of the starter's torque estimate"),
          Map.entry("torque_offset", "offset of the starter's torque estimate"),
          Map.entry("limit_gain", "gain of the starter's current limit"),
          Map.entry("harmonic_share", "harmonics of the limited current"),
          Map.entry("gap_share", "gaps of the limited current"),
          Map.entry("loss_torque", "losses in the starter's torque estimate"),
          Map.entry("torque_slope", "lean of the starter's torque estimate with speed"),
          Map.entry("voltage_bend", "bend of the starter's voltage"),
          Map.entry("static_head_share", "static head"),
          Map.entry("water_inertia_s", "inertia of the water column"),
          Map.entry("flow_torque_share", "share of torque that goes with flow"));

  private ModelWords() {}

  /** The parameters left at what was assumed before any trial. */
  static String assumed(Advice.Model model) {
    List<String> words = new ArrayList<>();
    for (String name : model.assumed()) {
      words.add(OF_PARAMETER.getOrDefault(plain(name), plain(name)));
    }
    return words.stream().distinct().collect(Collectors.joining(", "));
  }

  /** What the trials did tell, with its numbers. */
  static String found(Advice.Model model) {
    Set<String> assumed =
        model.assumed().stream().map(ModelWords::plain).collect(Collectors.toSet());
    Map<String, Double> p = model.parameters();
    List<String> words = new ArrayList<>();
    if (!assumed.contains("inertia_kgm2")) {
      words.add(
          number("inertia %.3g kg m2", p.get("inertia_kgm2"))
              + number(" (give or take %.0f %%)", p.get("inertia_sigma_pct")));
    }
    if (!assumed.contains("load_torque")) {
      words.add(number("load %.0f %% of rated torque at full speed", p.get("load_torque_pct")));
    }
    if (!assumed.contains("breakaway_torque")) {
      words.add(number("breakaway %.0f %%", p.get("breakaway_torque_pct")));
    }
    if (!assumed.contains("supply_impedance_ohm")) {
      words.add(number("supply of %.3g MVA", p.get("supply_fault_level_MVA")));
    }
    words.removeIf(String::isEmpty);
    return words.isEmpty() ? "little beyond the plate" : String.join(", ", words);
  }

  private static String number(String format, @Nullable Double value) {
    return value == null ? "" : String.format(Locale.ROOT, format, value);
  }

  private static String plain(String name) {
    return name.startsWith("ln ") ? name.substring(3) : name;
  }
}
