package rampwright.analysis.figure;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.GZIPInputStream;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;

/**
 * Reads the shared data in place; the real readers are another module's and have their own tests.
 */
final class SharedData {
  private SharedData() {}

  /** The shared folder, where it is there. */
  static Optional<Path> folder(String name) {
    for (Path at = Path.of("").toAbsolutePath(); at != null; at = at.getParent()) {
      Path shared = at.resolve("shared").resolve(name);
      if (Files.isDirectory(shared)) {
        return Optional.of(shared);
      }
    }
    return Optional.empty();
  }

  static Trace trace(Path file) throws IOException {
    InputStream raw = Files.newInputStream(file);
    InputStream in = file.toString().endsWith(".gz") ? new GZIPInputStream(raw) : raw;
    try (BufferedReader reader =
        new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      String header = reader.readLine();
      while (header.startsWith("#")) {
        header = reader.readLine();
      }
      boolean semicolon = header.contains(";");
      String[] names = header.split(semicolon ? ";" : ",");
      List<double[]> rows = new ArrayList<>();
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        String[] cells = line.split(semicolon ? ";" : ",", -1);
        double[] row = new double[names.length];
        for (int i = 0; i < row.length; i++) {
          String cell = semicolon ? cells[i].replace(',', '.') : cells[i];
          row[i] = cell.isEmpty() ? Double.NaN : Double.parseDouble(cell);
        }
        rows.add(row);
      }
      Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
      for (int c = 1; c < names.length; c++) {
        double[] values = new double[rows.size()];
        double factor = names[c].contains("kA") ? 1000 : 1;
        for (int i = 0; i < values.length; i++) {
          values[i] = rows.get(i)[c] * factor;
        }
        channels.put(channel(names[c]), Samples.owning(values));
      }
      double[] t = new double[rows.size()];
      for (int i = 0; i < t.length; i++) {
        t[i] = rows.get(i)[0];
      }
      double step = (t[t.length - 1] - t[0]) / (t.length - 1);
      boolean even = true;
      for (int i = 0; i < t.length && even; i++) {
        even = Math.abs(t[0] + i * step - t[i]) < 2e-6;
      }
      return new Trace(
          even ? TimeBase.even(t[0], step, t.length) : TimeBase.listed(Samples.owning(t)),
          channels,
          null,
          Provenance.computed(file.getFileName().toString()));
    }
  }

  private static ChannelName channel(String header) {
    String key =
        header
            .replaceAll("Strom L(\\d).*", "i$1")
            .replaceAll("U L(\\d)-L(\\d).*", "v$1$2")
            .replaceAll("_.*", "");
    return ChannelName.ofKey(key).orElseThrow();
  }

  /**
   * Numbers of an asset sheet by key; the first of a repeated key counts (motor before starter).
   */
  static Map<String, Double> numbers(Path toml) throws IOException {
    Map<String, Double> numbers = new HashMap<>();
    Pattern line = Pattern.compile("^(\\w+) = (-?[0-9.]+)$");
    String section = "";
    for (String text : Files.readAllLines(toml)) {
      if (text.startsWith("[")) {
        section = text;
      }
      Matcher m = line.matcher(text.trim());
      if (m.matches()) {
        numbers.put(section + m.group(1), Double.parseDouble(m.group(2)));
      }
    }
    return numbers;
  }

  static MotorContext motor(Path toml) throws IOException {
    Map<String, Double> n = numbers(toml);
    Double motorJ = n.get("[motor]inertia_kgm2");
    Double loadJ = n.get("[load]inertia_kgm2");
    return new MotorContext(
        n.get("[motor]rated_current_A"),
        n.get("[motor]rated_speed_rpm"),
        n.get("[motor]rated_frequency_Hz"),
        n.get("[motor]rated_voltage_V"),
        n.get("[supply]voltage_V"),
        n.get("[motor]locked_rotor_current_ratio"),
        n.get("[motor]locked_rotor_time_cold_s"),
        n.get("[motor]locked_rotor_time_hot_s"),
        null,
        motorJ != null && loadJ != null ? Double.valueOf(motorJ + loadJ) : null,
        null,
        null,
        null,
        null,
        false,
        0);
  }

  /** Top-level numbers, nulls (as NaN), booleans (as 0 and 1) and lists of a flat JSON object. */
  static Map<String, double[]> truth(Path json) throws IOException {
    Map<String, double[]> truth = new HashMap<>();
    String text = Files.readString(json);
    Matcher m =
        Pattern.compile("\"(\\w+)\":\\s*(\\[[^\\]]*\\]|null|true|false|-?[0-9.eE+-]+)")
            .matcher(text);
    while (m.find()) {
      String value = m.group(2);
      if (value.startsWith("[")) {
        String[] parts = value.substring(1, value.length() - 1).trim().split(",");
        double[] list = new double[parts.length];
        try {
          for (int i = 0; i < parts.length; i++) {
            list[i] = Double.parseDouble(parts[i].trim());
          }
        } catch (NumberFormatException notNumbers) {
          continue;
        }
        truth.put(m.group(1), list);
      } else {
        truth.put(
            m.group(1),
            new double[] {
              switch (value) {
                case "null" -> Double.NaN;
                case "true" -> 1;
                case "false" -> 0;
                default -> Double.parseDouble(value);
              }
            });
      }
    }
    return truth;
  }
}
