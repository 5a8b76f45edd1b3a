package rampwright.app.usecase;

import java.io.IOException;
import java.net.BindException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.bench.BenchFault;
import rampwright.acquisition.bench.BenchMap;
import rampwright.acquisition.bench.BenchMotor;
import rampwright.acquisition.bench.BenchRegisters;
import rampwright.acquisition.bench.FaultDice;
import rampwright.acquisition.bench.SerialBench;
import rampwright.acquisition.bench.TcpBench;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.file.AtomicFile;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.analysis.fit.AssetData;
import rampwright.analysis.fit.AssetFit;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.StarterSettings;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.AssetFolders;
import rampwright.app.asset.MachineSheet;
import rampwright.app.asset.TrialFile;
import rampwright.app.asset.TrialFiles;
import rampwright.app.asset.TrialSettings;

/** Plays an asset's motor as a device on the loopback. */
public final class PlayBench {
  private final Timekeeper time;

  public PlayBench(Timekeeper time) {
    this.time = time;
  }

  /**
   * A pair of pseudo-terminals.
   *
   * @param own where the bench speaks
   * @param other its other end, where the recorder listens
   */
  public record Terminals(Path own, Path other) {}

  /**
   * What a person wants.
   *
   * @param folder asset folder
   * @param settings what is set on the starter; null for {@code settings.toml} beside the asset,
   *     else the last trial's that say enough
   * @param tcpPort of 127.0.0.1; 0 = any that is free
   * @param mapOut where the channel map goes
   * @param rtu pseudo-terminals to answer on as a Modbus RTU device; null for none
   * @param lines pseudo-terminals to print lines on; null for none
   * @param baud of both
   * @param pace seconds of the motor a second of the clock
   * @param noise standard deviation of a reading, of the reading
   * @param seed of noise and faults
   * @param fault what goes wrong with answers
   * @param faultRate share of answers that do
   */
  public record Request(
      Path folder,
      @Nullable Path settings,
      int tcpPort,
      Path mapOut,
      @Nullable Terminals rtu,
      @Nullable Terminals lines,
      int baud,
      double pace,
      double noise,
      long seed,
      BenchFault fault,
      double faultRate) {}

  /**
   * Builds the motor and begins to serve it.
   *
   * @throws UsageProblem when there are no settings to start with
   * @throws InputProblem when a file is at fault or the sheet makes no machine
   * @throws DeviceProblem when the port cannot be had
   */
  public Bench open(Request wanted) throws InputProblem, UsageProblem, DeviceProblem {
    AssetFile asset = RecordTrial.asset(wanted.folder());
    Path file = settingsFile(wanted, asset);
    TrialSettings noted = noted(file);
    StarterSettings settings = settings(noted, asset, file);
    MachineModel model = model(asset);
    BenchMotor motor = new BenchMotor(model, settings, time, wanted.pace());
    FaultDice dice = new FaultDice(wanted.seed() + 1);
    dice.set(wanted.fault(), wanted.faultRate());
    BenchRegisters registers = new BenchRegisters(motor, wanted.noise(), wanted.seed());
    TcpBench server = serve(wanted.tcpPort(), registers, dice);
    Map<Path, String> maps = new LinkedHashMap<>();
    maps.put(wanted.mapOut(), BenchMap.tcp(server.port(), wanted.pace()));
    List<SerialBench> serials = new ArrayList<>();
    Bench bench =
        new Bench(
            new Bench.Parts(motor, registers, dice, server, serials),
            asset.asset(),
            noted,
            file,
            maps.keySet());
    boolean opened = false;
    try {
      serials(wanted, registers, dice, maps, serials);
      for (Map.Entry<Path, String> map : maps.entrySet()) {
        write(map.getKey(), map.getValue());
      }
      opened = true;
    } finally {
      if (!opened) {
        bench.close();
      }
    }
    return bench;
  }

  private static void write(Path map, String text) throws InputProblem {
    try {
      AtomicFile.write(map, text.getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw InputProblem.of(e, map);
    }
  }

  private static void serials(
      Request wanted,
      BenchRegisters registers,
      FaultDice dice,
      Map<Path, String> maps,
      List<SerialBench> opened)
      throws DeviceProblem {
    Terminals rtu = wanted.rtu();
    Terminals lines = wanted.lines();
    int baud = wanted.baud();
    Path at = Path.of("");
    try {
      if (rtu != null) {
        at = rtu.own();
        opened.add(SerialBench.rtu(at, baud, registers, dice));
        maps.put(
            beside(wanted.mapOut(), "rtu-"),
            BenchMap.rtu(rtu.other().toString(), baud, wanted.pace()));
      }
      if (lines != null) {
        at = lines.own();
        double hz = BenchMap.lineHz(baud, wanted.pace());
        opened.add(SerialBench.lines(at, baud, hz, registers, dice));
        maps.put(
            beside(wanted.mapOut(), "lines-"),
            BenchMap.lines(lines.other().toString(), baud, wanted.pace()));
      }
    } catch (NoSuchFileException e) {
      throw new DeviceProblem(at + ": there is no such pseudo-terminal; make a pair with socat");
    } catch (IOException e) {
      throw new DeviceProblem(at + ": " + e.getMessage());
    }
  }

  private static Path beside(Path map, String before) {
    return map.resolveSibling(before + map.getFileName());
  }

  private static TcpBench serve(int port, BenchRegisters registers, FaultDice dice)
      throws DeviceProblem {
    try {
      return new TcpBench(port, registers, dice);
    } catch (BindException e) {
      throw new DeviceProblem(
          "127.0.0.1:"
              + port
              + " cannot be had: another program listens there, or it is not allowed; choose"
              + " another with --tcp-port, or 0 for any that is free");
    } catch (IOException e) {
      throw new DeviceProblem("127.0.0.1:" + port + " cannot be had: " + e.getMessage());
    }
  }

  private static MachineModel model(AssetFile asset) throws InputProblem {
    try {
      AssetData data = MachineSheet.data(asset.asset());
      return AssetFit.fit(data, List.of()).bestModel(data.supplyVoltageV());
    } catch (IllegalArgumentException e) {
      throw new InputProblem(asset.path() + ": " + e.getMessage());
    }
  }

  static StarterSettings settings(TrialSettings noted, AssetFile asset, Path file)
      throws InputProblem, UsageProblem {
    StarterSettings settings;
    try {
      settings = MachineSheet.settings(noted, asset.asset());
    } catch (IllegalArgumentException e) {
      throw new InputProblem(file + ": " + e.getMessage());
    }
    if (settings == null) {
      throw new UsageProblem(
          file
              + ": too little to start with; give control, current_limit_ratio, ramp_up_s, and"
              + " initial_torque_pct or initial_voltage_pct");
    }
    return settings;
  }

  private static TrialSettings noted(Path file) throws InputProblem {
    try {
      TrialFile trial = TrialFiles.read(file);
      return trial.settings();
    } catch (IOException e) {
      throw InputProblem.of(e, file);
    } catch (TomlProblemsException e) {
      throw InputProblem.of(e);
    }
  }

  private static Path settingsFile(Request wanted, AssetFile asset)
      throws InputProblem, UsageProblem {
    Path chosen = wanted.settings();
    if (chosen != null) {
      return chosen;
    }
    Path beside = wanted.folder().resolve(AssetFolders.SETTINGS);
    if (Files.isRegularFile(beside)) {
      return beside;
    }
    for (Path file : trialSettings(wanted.folder().resolve(AssetFolders.TRIALS))) {
      if (isEnough(file, asset)) {
        return file;
      }
    }
    throw new UsageProblem(
        "what is set on the starter is not known: give --settings FILE, or keep it in " + beside);
  }

  /** Settings files of the trials, the newest first: trial folders are named by their date. */
  private static List<Path> trialSettings(Path trials) throws InputProblem {
    if (!Files.isDirectory(trials)) {
      return List.of();
    }
    try (Stream<Path> folders = Files.list(trials)) {
      return folders
          .map(folder -> folder.resolve(AssetFolders.SETTINGS))
          .filter(Files::isRegularFile)
          .sorted(Comparator.reverseOrder())
          .toList();
    } catch (IOException e) {
      throw InputProblem.of(e, trials);
    }
  }

  /** A trial recorded without anybody saying what was set has settings that say nothing. */
  private static boolean isEnough(Path file, AssetFile asset) {
    try {
      return MachineSheet.settings(TrialFiles.read(file).settings(), asset.asset()) != null;
    } catch (IOException | TomlProblemsException | IllegalArgumentException e) {
      return false;
    }
  }
}
