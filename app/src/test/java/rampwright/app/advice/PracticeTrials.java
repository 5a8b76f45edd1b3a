package rampwright.app.advice;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.AssetData;
import rampwright.analysis.fit.ObservationBuilder;
import rampwright.analysis.fit.TrialObservation;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.LoadKind;
import rampwright.analysis.machine.Nameplate;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.analysis.machine.Wiring;

/** Reads the practice assets, read in place; canonical files only. */
final class PracticeTrials {
  private PracticeTrials() {}

  /** An asset with its envelope and trials. */
  record Asset(
      String id,
      AssetData data,
      Map<String, double[]> envelope,
      List<TrialObservation> trials,
      List<Map<String, Double>> truths) {}

  /** Folder of the practice data, or null when it is not there. */
  static @Nullable Path folder() {
    Path at = Path.of("").toAbsolutePath();
    while (at != null) {
      Path candidate = at.resolve("shared").resolve("practice");
      if (Files.isDirectory(candidate)) {
        return candidate;
      }
      at = at.getParent();
    }
    return null;
  }

  /** The assets that have several trials of RMS readings. */
  static List<Asset> assets(Path folder) {
    try (Stream<Path> list = Files.list(folder)) {
      List<Asset> out = new ArrayList<>();
      for (Path each : list.sorted().toList()) {
        if (Files.isDirectory(each) && !each.getFileName().toString().startsWith("wave")) {
          out.add(asset(each));
        }
      }
      return out;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Asset asset(Path folder) throws IOException {
    Map<String, String> toml = toml(folder.resolve("asset.toml"));
    Nameplate plate =
        new Nameplate(
            1000 * number(toml, "motor.rated_power_kW"),
            number(toml, "motor.rated_voltage_V"),
            number(toml, "motor.rated_current_A"),
            number(toml, "motor.rated_frequency_Hz"),
            number(toml, "motor.rated_speed_rpm"),
            number(toml, "motor.power_factor"),
            number(toml, "motor.efficiency_pct") / 100,
            maybe(toml, "motor.locked_rotor_current_ratio"),
            maybe(toml, "motor.locked_rotor_torque_ratio"),
            maybe(toml, "motor.breakdown_torque_ratio"),
            maybe(toml, "motor.inertia_kgm2"));
    double supply = number(toml, "supply.voltage_V");
    Double fault = maybe(toml, "supply.fault_level_MVA");
    LoadKind kind = LoadKind.QUADRATIC;
    for (LoadKind each : LoadKind.values()) {
      if (each.key().equals(toml.get("load.kind"))) {
        kind = each;
      }
    }
    AssetData data =
        new AssetData(
            plate,
            kind,
            maybe(toml, "load.inertia_kgm2"),
            null,
            null,
            supply,
            fault == null ? null : supply * supply / (fault * 1e6),
            Wiring.IN_LINE);
    Map<String, double[]> envelope = new HashMap<>();
    for (Map.Entry<String, String> entry : toml.entrySet()) {
      if (entry.getKey().startsWith("envelope.")) {
        envelope.put(
            entry.getKey().substring(9),
            new double[] {bound(entry.getValue(), "min"), bound(entry.getValue(), "max")});
      }
    }
    List<TrialObservation> trials = new ArrayList<>();
    List<Map<String, Double>> truths = new ArrayList<>();
    try (Stream<Path> list = Files.list(folder.resolve("trials"))) {
      for (Path trial : list.sorted().toList()) {
        trials.add(observation(trial, plate.ratedCurrentA()));
        truths.add(truth(trial.resolve("truth.json")));
      }
    }
    return new Asset(folder.getFileName().toString(), data, envelope, trials, truths);
  }

  private static double bound(String text, String key) {
    Matcher matcher = Pattern.compile(key + "\\s*=\\s*([-0-9.eE]+)").matcher(text);
    return matcher.find() ? Double.parseDouble(matcher.group(1)) : Double.NaN;
  }

  private static Map<String, Double> truth(Path file) throws IOException {
    Map<String, Double> out = new HashMap<>();
    Matcher matcher =
        Pattern.compile("\"(\\w+)\"\\s*:\\s*(-?[0-9][-+0-9.eE]*)").matcher(Files.readString(file));
    while (matcher.find()) {
      out.put(matcher.group(1), Double.parseDouble(matcher.group(2)));
    }
    return out;
  }

  private static double number(Map<String, String> toml, String key) {
    return Double.parseDouble(toml.get(key));
  }

  private static @Nullable Double maybe(Map<String, String> toml, String key) {
    String text = toml.get(key);
    return text == null ? null : Double.valueOf(text);
  }

  private static Map<String, String> toml(Path file) throws IOException {
    Map<String, String> out = new HashMap<>();
    String section = "";
    for (String line : Files.readAllLines(file)) {
      if (line.startsWith("[")) {
        section = line.replaceAll("[\\[\\]]", "") + ".";
      } else if (line.contains("=")) {
        int at = line.indexOf('=');
        out.put(
            section + line.substring(0, at).strip(),
            line.substring(at + 1).strip().replace("\"", ""));
      }
    }
    return out;
  }

  private static TrialObservation observation(Path folder, double ratedA) throws IOException {
    Map<String, String> s = toml(folder.resolve("settings.toml"));
    StarterSettings settings =
        new StarterSettings(
            number(s, "current_limit_ratio"),
            "torque ramp".equals(s.get("control"))
                ? ControlMode.TORQUE_RAMP
                : ControlMode.VOLTAGE_RAMP,
            number(s, "ramp_up_s"),
            number(s, "initial_torque_pct"),
            number(s, "initial_voltage_pct"),
            number(s, "pulse_voltage_pct"),
            number(s, "pulse_s"),
            "soft".equals(s.get("stop")) ? StopMode.SOFT : StopMode.COAST,
            number(s, "release_torque_pct"),
            number(s, "ramp_down_s"));
    List<String> lines = Files.readAllLines(folder.resolve("trace.csv"));
    String[] names = lines.get(0).split(",", -1);
    int rows = lines.size() - 1;
    double[][] columns = new double[names.length][rows];
    for (int k = 0; k < rows; k++) {
      String[] cells = lines.get(k + 1).split(",", -1);
      for (int c = 0; c < names.length; c++) {
        columns[c][k] =
            c < cells.length && !cells[c].isBlank() ? Double.parseDouble(cells[c]) : Double.NaN;
      }
    }
    boolean speed = Arrays.asList(names).contains("speed_rpm");
    return new ObservationBuilder(settings, ratedA)
        .readings(
            columns[0],
            new double[][] {columns[1], columns[2], columns[3]},
            new double[][] {columns[4], columns[5], columns[6]},
            speed ? columns[7] : null)
        .build();
  }
}
