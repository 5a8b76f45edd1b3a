package rampwright.app.ready;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import rampwright.analysis.fit.AssetFit;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.AssetFiles;
import rampwright.app.asset.Examples;
import rampwright.app.asset.MachineSheet;
import rampwright.app.asset.TrialFiles;
import rampwright.app.fixture.SharedData;

class ReadinessTest {
  private static final StarterSettings GOOD =
      new StarterSettings(3.5, ControlMode.TORQUE_RAMP, 8, 20, 40, 0, 0, StopMode.SOFT, 20, 12);

  private static AssetFile asset(String from, String to) throws Exception {
    assertThat(Examples.ASSET).contains(from);
    return AssetFiles.parse(Path.of("asset.toml"), Examples.ASSET.replace(from, to));
  }

  private static Readiness ready(AssetFile asset, @Nullable StarterSettings settings)
      throws Exception {
    return ready(asset, settings, List.of());
  }

  private static Readiness ready(
      AssetFile asset, @Nullable StarterSettings settings, List<Double> volts) throws Exception {
    return Readiness.of(
        new Readiness.Question(
            asset,
            AssetFit.fit(MachineSheet.data(asset.asset()), List.of()),
            0,
            settings,
            "first.toml",
            volts));
  }

  private static ReadyLine line(Readiness readiness, String check) {
    return readiness.lines().stream()
        .filter(line -> line.check().equals(check))
        .findFirst()
        .orElseThrow(() -> new AssertionError(check + " in " + readiness.lines()));
  }

  private static ReadyLine.State state(String from, String to, String check) throws Exception {
    return line(ready(asset(from, to), null), check).state();
  }

  @Test
  void aSoundSheetHoldsNothing() throws Exception {
    Readiness readiness = ready(asset("north hall", "north hall"), GOOD);
    assertThat(readiness.isHeld()).as(readiness.lines().toString()).isFalse();
    assertThat(readiness.lines()).allSatisfy(line -> assertThat(line.source()).isNotBlank());
    assertThat(line(readiness, "settings start the load").state()).isEqualTo(ReadyLine.State.OK);
    // The sheet's own numbers by hand: 90 kW / (sqrt 3 x 400 V x 0.87 x 0.948) = 157.5 A.
    assertThat(line(readiness, "nameplate current").text()).contains("take 158 A");
    // 7.2 x sqrt 3 x 400 x 160 / 90 kW = 8.87 kVA per kW, 6.61 per hp: H.
    assertThat(line(readiness, "locked-rotor current").text()).contains("8.87", "code letter H");
    // 2 x 640 / 1100 = 1.16 s; 1000 x 1100 x 1.6 = 17.6 bar.
    assertThat(line(readiness, "soft stop").text()).contains("1.16 s", "17.6 bar");
    assertThat(readiness.startsPerHour()).isLessThanOrEqualTo(6);
    assertThat(readiness.restS()).isGreaterThanOrEqualTo(330);
  }

  @Test
  void whatIsWrongOnTheSheetIsHeldOrLookedAt() throws Exception {
    assertThat(state("rated_current_A = 160.0", "rated_current_A = 120.0", "nameplate current"))
        .isEqualTo(ReadyLine.State.LOOK);
    assertThat(state("rated_current_A = 160.0", "rated_current_A = 92.0", "nameplate current"))
        .as("star for delta")
        .isEqualTo(ReadyLine.State.HOLD);
    assertThat(state("hot_s = 12.0", "hot_s = 40.0", "locked-rotor times"))
        .isEqualTo(ReadyLine.State.HOLD);
    assertThat(state("rated_current_A = 170.0", "rated_current_A = 140.0", "starter current"))
        .isEqualTo(ReadyLine.State.HOLD);
    assertThat(state("wiring = \"in line\"", "wiring = \"inside delta\"", "wiring"))
        .isEqualTo(ReadyLine.State.LOOK);
    assertThat(state("3.5-30:330", "3.5-30:50-6", "rating index")).isEqualTo(ReadyLine.State.LOOK);
    assertThat(state("trip_class = \"20\"", "trip_class = \"15\"", "trip class"))
        .isEqualTo(ReadyLine.State.LOOK);
    assertThat(state("voltage_V = 400.0\nfault", "voltage_V = 350.0\nfault", "supply voltage"))
        .isEqualTo(ReadyLine.State.HOLD);
    assertThat(state("locked_rotor_torque_ratio = 2.1\n", "", "locked-rotor torque"))
        .isEqualTo(ReadyLine.State.LOOK);
    assertThat(state("check_valve = true", "check_valve = false", "no check valve"))
        .isEqualTo(ReadyLine.State.LOOK);
  }

  @Test
  void settingsThatCannotStartItAreHeld() throws Exception {
    StarterSettings weak =
        new StarterSettings(1.5, ControlMode.TORQUE_RAMP, 8, 20, 40, 0, 0, StopMode.COAST, 20, 12);
    Readiness readiness = ready(asset("north hall", "north hall"), weak);
    assertThat(line(readiness, "settings start the load").state()).isEqualTo(ReadyLine.State.HOLD);
    assertThat(line(readiness, "torque margin").state()).isEqualTo(ReadyLine.State.HOLD);
    assertThat(line(readiness, "soft stop").text()).contains("set is a coast");
    assertThat(readiness.isHeld()).isTrue();
  }

  /**
   * A breakaway pulse swings the load past what the ramp can hold: the drawn margin goes below zero
   * where the reckoned one does, though at that speed it was above zero on the way up.
   */
  @Test
  void theDrawnMarginIsTheReckonedOneWhereARunSlows() throws Exception {
    StarterSettings pulse =
        new StarterSettings(
            4.5, ControlMode.VOLTAGE_RAMP, 20, 20, 40, 85, 0.4, StopMode.COAST, 20, 12);
    AssetFile asset = asset("kind = \"quadratic\"", "kind = \"constant\"");
    RunUp run = RunUp.of(AssetFit.fit(MachineSheet.data(asset.asset()), List.of()), 400, pulse);
    double[] least = run.range(RunUp::leastMargin);
    double drawn =
        Arrays.stream(run.course().marginPct())
            .skip(1)
            .filter(Double::isFinite)
            .min()
            .orElse(Double.NaN);
    assertThat(100 * least[0]).isNegative();
    assertThat(drawn).isNegative();
    // Of each speed the unlucky twentieth is drawn, of each machine its least is told: never above.
    assertThat(drawn).isGreaterThanOrEqualTo(100 * least[0] - 1e-9);
  }

  @Test
  void aStarterTooSmallForTheStartIsHeld() throws Exception {
    Readiness readiness = ready(asset("3.5-30:330", "3.5-2:330"), GOOD);
    assertThat(line(readiness, "starter duty").state()).isEqualTo(ReadyLine.State.HOLD);
    Readiness fast = ready(asset("trip_class = \"20\"", "trip_class = \"5\""), GOOD);
    assertThat(line(fast, "trip class against the start").state()).isNotEqualTo(ReadyLine.State.OK);
  }

  @Test
  void unbalanceComesFromTheLastTrial() throws Exception {
    AssetFile asset = asset("north hall", "north hall");
    assertThat(line(ready(asset, null, List.of(400.0, 401.0, 400.0)), "voltage unbalance").state())
        .isEqualTo(ReadyLine.State.OK);
    assertThat(line(ready(asset, null, List.of(400.0, 370.0, 400.0)), "voltage unbalance").state())
        .isEqualTo(ReadyLine.State.HOLD);
  }

  @Test
  void whatIsNotKnownIsSaidWithWhatHangsOnIt() throws Exception {
    Readiness readiness = ready(asset("inertia_kgm2 = 2.0\n", ""), GOOD);
    ReadyLine line = line(readiness, "unknown: load inertia");
    assertThat(line.text()).contains("of the spread of the start time");
    assertThat(readiness.lines()).noneMatch(l -> l.check().equals("unknown: load power"));
  }

  @Test
  void withoutSettingsTheRulesStillStand() throws Exception {
    Readiness readiness = ready(asset("north hall", "north hall"), null);
    assertThat(line(readiness, "settings").state()).isEqualTo(ReadyLine.State.LOOK);
    assertThat(readiness.startsPerHour()).isCloseTo(6, within(1e-9));
    assertThat(readiness.course()).isNull();
  }

  /**
   * The practice assets with the settings of their first trials, before any trial: none that came
   * to full speed is held by any line, none whose starter gave up is called ok.
   */
  @Test
  void itHoldsNoStartThatSucceedsAndClearsNoneThatFails() throws Exception {
    Path practice = SharedData.folder("practice");
    List<Path> assets;
    try (Stream<Path> all = Files.list(practice)) {
      assets = all.filter(p -> Files.isDirectory(p.resolve("trials"))).sorted().toList();
    }
    int failed = 0;
    for (Path folder : assets) {
      Path trial;
      try (Stream<Path> trials = Files.list(folder.resolve("trials"))) {
        trial = trials.sorted().findFirst().orElseThrow();
      }
      AssetFile asset = AssetFiles.read(folder.resolve("asset.toml"));
      StarterSettings settings =
          MachineSheet.settings(
              TrialFiles.read(trial.resolve("settings.toml")).settings(), asset.asset());
      boolean completed =
          Files.readString(trial.resolve("truth.json")).contains("\"completed\": true");
      Readiness readiness = ready(asset, settings);
      if (completed) {
        assertThat(readiness.isHeld()).as(folder + ": " + readiness.lines()).isFalse();
      } else {
        failed++;
        assertThat(line(readiness, "settings start the load").state())
            .as(folder.toString())
            .isNotEqualTo(ReadyLine.State.OK);
      }
    }
    assertThat(failed).isEqualTo(3);
    assertThat(assets).hasSizeGreaterThan(10);
  }

  /**
   * Locked-rotor times nobody gave are a guess: too much of them is a look, of given ones a hold.
   */
  @Test
  void whatIsGuessedDoesNotHold() throws Exception {
    StarterSettings slow =
        new StarterSettings(2.6, ControlMode.TORQUE_RAMP, 40, 20, 40, 0, 0, StopMode.SOFT, 20, 12);
    String times = "locked_rotor_time_hot_s = 12.0\nlocked_rotor_time_cold_s = 25.0";
    AssetFile given = asset(times, "locked_rotor_time_hot_s = 0.5\nlocked_rotor_time_cold_s = 0.6");
    assertThat(line(ready(given, slow), "motor heat").state()).isEqualTo(ReadyLine.State.HOLD);
    assertThat(line(ready(given, slow), "starts in a session").state())
        .isEqualTo(ReadyLine.State.HOLD);
    AssetFile heavy =
        AssetFiles.parse(
            Path.of("asset.toml"),
            Examples.ASSET.replace(times, "").replace("inertia_kgm2 = 2.0", "inertia_kgm2 = 42.0"));
    ReadyLine line = line(ready(heavy, slow), "motor heat");
    assertThat(line.state()).as(line.text()).isEqualTo(ReadyLine.State.LOOK);
    assertThat(line.text()).contains("may be more than the motor has", "ask him");
    assertThat(ready(heavy, slow).isHeld()).isFalse();
  }
}
