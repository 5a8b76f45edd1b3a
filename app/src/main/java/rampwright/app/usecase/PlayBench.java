package rampwright.app.usecase;

import java.io.IOException;
import java.net.BindException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.bench.BenchFault;
import rampwright.acquisition.bench.BenchMap;
import rampwright.acquisition.bench.BenchMotor;
import rampwright.acquisition.bench.BenchRegisters;
import rampwright.acquisition.bench.FaultDice;
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
   * What a person wants.
   *
   * @param folder asset folder
   * @param settings what is set on the starter; null for {@code settings.toml} beside the asset,
   *     else the last trial's that say enough
   * @param tcpPort of 127.0.0.1; 0 = any that is free
   * @param mapOut where the channel map goes
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
    Bench bench =
        new Bench(
            new Bench.Parts(motor, registers, dice, server), asset.asset(), noted, file, wanted);
    try {
      String map = BenchMap.tcp(server.port(), wanted.pace());
      AtomicFile.write(wanted.mapOut(), map.getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      bench.close();
      throw InputProblem.of(e, wanted.mapOut());
    }
    return bench;
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
