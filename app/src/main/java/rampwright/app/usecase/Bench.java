package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.bench.BenchFault;
import rampwright.acquisition.bench.BenchMotor;
import rampwright.acquisition.bench.BenchRegisters;
import rampwright.acquisition.bench.FaultDice;
import rampwright.acquisition.bench.SerialBench;
import rampwright.acquisition.bench.TcpBench;
import rampwright.acquisition.toml.NumberKey;
import rampwright.analysis.machine.StarterSettings;
import rampwright.app.asset.Asset;
import rampwright.app.asset.MachineSheet;
import rampwright.app.asset.TrialSettings;
import rampwright.app.result.BenchSheet;

/** A motor being played: what it listens to, and what people order. */
public final class Bench implements AutoCloseable {
  /** What is understood, for the help and for what is not. */
  public static final String ORDERS =
      "start, stop, set KEY VALUE, fault none|drop|slow|exception|garbage RATE, quit";

  /** Share of answers that go wrong where no rate is given. */
  public static final double USUAL_RATE = 0.05;

  /** What a bench is made of. */
  record Parts(
      BenchMotor motor,
      BenchRegisters registers,
      FaultDice dice,
      TcpBench server,
      List<SerialBench> serials) {}

  private final Parts parts;
  private final Asset asset;
  private final Path settingsFile;
  private final Set<Path> maps;
  private TrialSettings noted;

  Bench(Parts parts, Asset asset, TrialSettings noted, Path settingsFile, Set<Path> maps) {
    this.parts = parts;
    this.asset = asset;
    this.noted = noted;
    this.settingsFile = settingsFile;
    this.maps = maps;
  }

  /** Where it is found. */
  public BenchSheet sheet() {
    BenchRegisters registers = parts.registers();
    return new BenchSheet(
        asset.name(),
        parts.server().port(),
        TcpBench.UNIT,
        settingsFile,
        List.copyOf(maps),
        registers.currentScale(),
        registers.voltageScale(),
        registers.speedScale());
  }

  /** The motor. */
  public BenchMotor motor() {
    return parts.motor();
  }

  /**
   * Does what was typed, except quit; answers in a line.
   *
   * @param line words between spaces, small letters
   */
  public String order(String line) {
    String[] words = line.strip().split("\\s+", 3);
    return switch (words[0]) {
      case "start" -> start();
      case "stop" -> stop();
      case "set" ->
          words.length < 3
              ? "set needs a key and a value, for example set ramp_up_s 8"
              : set(words[1], words[2]);
      case "fault" ->
          words.length < 2
              ? "fault needs a kind: " + kinds()
              : fault(words[1], words.length < 3 ? "" : words[2]);
      default -> "\"" + words[0] + "\" is not understood; there are " + ORDERS;
    };
  }

  private String start() {
    return parts.motor().start()
        ? "started"
        : "not started: the motor is "
            + parts.motor().state().words()
            + "; it starts from rest only";
  }

  private String stop() {
    BenchMotor.State before = parts.motor().state();
    if (!parts.motor().stop()) {
      return "nothing to stop: the motor is " + before.words();
    }
    return before == BenchMotor.State.RUNNING
        ? "stopping as set"
        : "cut off while starting; it coasts";
  }

  private String fault(String kind, String rate) {
    BenchFault found = kind(kind);
    if (found == null) {
      return "there is no fault \"" + kind + "\"; there are " + kinds();
    }
    double share = rate.isEmpty() ? USUAL_RATE : number(rate);
    if (!(share >= 0 && share <= 1)) {
      return "a rate is 0 to 1, the share of answers that go wrong";
    }
    parts.dice().set(found, share);
    return found == BenchFault.NONE ? "answers are right" : found.key() + ": " + share;
  }

  /** The fault of a word; null when there is none. */
  public static @Nullable BenchFault kind(String word) {
    return Stream.of(BenchFault.values())
        .filter(fault -> fault.key().equals(word))
        .findFirst()
        .orElse(null);
  }

  /** The words for faults. */
  public static String kinds() {
    return Stream.of(BenchFault.values()).map(BenchFault::key).collect(Collectors.joining(", "));
  }

  private static double number(String text) {
    try {
      return Double.parseDouble(text);
    } catch (NumberFormatException e) {
      return Double.NaN;
    }
  }

  private String set(String key, String value) {
    TrialSettings.Control control = noted.control();
    TrialSettings.Stop stop = noted.stop();
    Map<String, Double> numbers = new LinkedHashMap<>(noted.values());
    NumberKey known = TrialSettings.NUMBERS.get(key);
    if (known != null) {
      double number = number(value);
      if (!(number >= known.min() && number <= known.max())) {
        return key + " is a number " + known.range();
      }
      numbers.put(key, number);
    } else if (key.equals("control")) {
      control = word(TrialSettings.Control.values(), TrialSettings.Control::key, value);
      if (control == null) {
        return "control is torque ramp or voltage ramp";
      }
    } else if (key.equals("stop")) {
      stop = word(TrialSettings.Stop.values(), TrialSettings.Stop::key, value);
      if (stop == null) {
        return "stop is soft or coast";
      }
    } else {
      return "there is no setting \""
          + key
          + "\"; there are control, stop, "
          + String.join(", ", TrialSettings.NUMBERS.keySet());
    }
    return use(with(control, stop, numbers), key, value);
  }

  private static <T> @Nullable T word(
      T[] all, java.util.function.Function<T, String> key, String value) {
    String plain = value.replace("\"", "").strip();
    return Stream.of(all).filter(one -> key.apply(one).equals(plain)).findFirst().orElse(null);
  }

  private TrialSettings with(
      TrialSettings.@Nullable Control control,
      TrialSettings.@Nullable Stop stop,
      Map<String, Double> numbers) {
    return new TrialSettings(
        control,
        numbers.get(TrialSettings.CURRENT_LIMIT_RATIO.name()),
        noted.currentLimitOf(),
        numbers.get(TrialSettings.RAMP_UP_S.name()),
        numbers.get(TrialSettings.INITIAL_TORQUE_PCT.name()),
        numbers.get(TrialSettings.INITIAL_VOLTAGE_PCT.name()),
        numbers.get(TrialSettings.PULSE_VOLTAGE_PCT.name()),
        numbers.get(TrialSettings.PULSE_S.name()),
        stop,
        numbers.get(TrialSettings.RELEASE_TORQUE_PCT.name()),
        numbers.get(TrialSettings.RAMP_DOWN_S.name()));
  }

  private String use(TrialSettings changed, String key, String value) {
    StarterSettings settings;
    try {
      settings = MachineSheet.settings(changed, asset);
    } catch (IllegalArgumentException e) {
      return String.valueOf(e.getMessage());
    }
    if (settings == null) {
      return "not set: with that, initial_torque_pct or initial_voltage_pct is missing; set it first";
    }
    noted = changed;
    parts.motor().set(settings);
    return key + " is " + value + " from the next start or stop on";
  }

  /** Stops serving. */
  @Override
  public void close() {
    parts.serials().forEach(SerialBench::close);
    try {
      parts.server().close();
    } catch (IOException e) {
      // It is given up either way; the system takes the port back.
      return;
    }
  }
}
