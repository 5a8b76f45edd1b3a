package rampwright.app.asset;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.acquisition.toml.Problem;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.analysis.figure.MotorContext;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Limit;

class AssetFilesTest {
  private static final Path NAME = Path.of("asset.toml");

  @TempDir private Path folder;

  private static AssetFile parse(String text) throws TomlProblemsException {
    return AssetFiles.parse(NAME, text);
  }

  private static String problems(String text) {
    TomlProblemsException e = catchThrowableOfType(TomlProblemsException.class, () -> parse(text));
    assertThat(e).as("no problem was found").isNotNull();
    return String.valueOf(e.getMessage());
  }

  @Test
  void aCompleteFileIsReadWhole() throws Exception {
    AssetFile file = parse(Examples.ASSET);
    Asset asset = file.asset();
    assertThat(file.warnings()).isEmpty();
    assertThat(asset.id()).isEqualTo("BP-2");
    assertThat(asset.motor().ratedSpeedRpm()).isEqualTo(1482);
    assertThat(asset.motor().startsPerHour()).isEqualTo(6.0);
    assertThat(asset.starter()).isNotNull();
    assertThat(asset.starter().ratingIndex()).isEqualTo("AC-53b: 3.5-30:330");
    assertThat(asset.starter().ranges())
        .isEqualTo(
            Map.of(
                "current_limit_ratio", new SettingRange(1.5, 5, 0.1),
                "ramp_up_s", new SettingRange(1, 60, 0.5)));
    assertThat(asset.envelope().limits())
        .containsExactly(
            new Limit(FigureKey.PEAK_CURRENT_RATIO, null, 3.5),
            new Limit(FigureKey.START_TIME, 4.0, 12.0),
            new Limit(FigureKey.STOP_TIME, 6.0, 20.0));
    assertThat(asset.envelope().corridors()).hasSize(1);
    assertThat(asset.envelope().corridors().get(0).upper().at(11, true))
        .isCloseTo(2.4, within(1e-12));
  }

  @Test
  void theAnalysisGetsTheInertiaOfMotorAndLoad() throws Exception {
    MotorContext motor = parse(Examples.ASSET).asset().context();
    assertThat(motor.totalInertiaKgM2()).isEqualTo(3.4);
    assertThat(motor.ratedCurrentA()).isEqualTo(160);
    assertThat(motor.supplyVoltageV()).isEqualTo(400);
    assertThat(motor.pipeLengthM()).isEqualTo(640);
    assertThat(
            parse(Examples.assetWith("inertia_kgm2 = 2.0", ""))
                .asset()
                .context()
                .totalInertiaKgM2())
        .as("half an inertia is none")
        .isNull();
  }

  @Test
  void currentsMeasuredInsideTheDeltaReferToTheWinding() throws Exception {
    AssetFile file =
        parse(
            Examples.assetWith(
                "wiring = \"in line\"", "wiring = \"inside delta\"\nmeasured = \"inside delta\""));
    assertThat(file.asset().context().ratedCurrentA()).isCloseTo(160 / Math.sqrt(3), within(1e-9));
    assertThat(file.warnings()).anyMatch(line -> line.contains("taken as winding currents"));
    AssetFile inLine =
        parse(Examples.assetWith("wiring = \"in line\"", "wiring = \"inside delta\""));
    assertThat(inLine.asset().context().ratedCurrentA()).isEqualTo(160);
    assertThat(inLine.warnings()).anyMatch(line -> line.contains("taken as line currents"));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "power_factor = 0.87|power_factor = 1482|power_factor = 1482 is outside 0.3 to 1",
        "power_factor = 0.87|power_factor = 87|percent belongs divided by 100",
        "efficiency_pct = 94.8|efficiency_pct = 0.948|belongs times 100",
        "rated_power_kW = 90.0|rated_power_kW = 90000|in W belongs divided by 1000",
        "rated_voltage_V = 400.0|rated_voltage_V = 0.4|in kV belongs times 1000",
        "locked_rotor_current_ratio = 7.2|locked_rotor_current_ratio = 1152|amperes",
        "locked_rotor_torque_ratio = 2.1|locked_rotor_torque_ratio = 210|percent",
        "kind = \"quadratic\"|kind = \"quadratik\"|did you mean quadratic?",
        "wiring = \"in line\"|wiring = \"inline\"|did you mean in line?",
        "rated_speed_rpm = 1482.0|rated_speed = 1482.0|did you mean rated_speed_rpm?",
        "peak_current_ratio|peak_curent_ratio|did you mean peak_current_ratio?",
        "peak_current_ratio = { max = 3.5 }|peak_current_ratio = 3.5|is not a table",
        "peak_current_ratio = { max = 3.5 }|peak_current_ratio = { max = 560 }|neither amperes",
        "peak_current_ratio = { max = 3.5 }|peak_current_ratio = { most = 3.5 }|has neither min",
        "start_time_s = { min = 4.0, max = 12.0 }|start_time_s = { min = 12, max = 4 }|swap them",
        "channel = \"current_ratio\"|channel = \"currents\"|allowed: \"current_ratio\"",
        "upper = [[0, 3.6], [10, 3.6], [12, 1.2]]|upper = [[0, 3.6]]|needs at least two",
        "upper = [[0, 3.6], [10, 3.6], [12, 1.2]]|upper = [[5, 1], [3, 1]]|goes back in time",
        "upper = [[0, 3.6], [10, 3.6], [12, 1.2]]||upper is missing",
        "voltage_V = 400.0\\nfault|fault|voltage_V is missing",
        "fault_level_MVA = 12.0|fault_level_MVA = 12.0\\ntransformer_kVA = 400|keep one of the two",
        "fault_level_MVA = 12.0|transformer_kVA = 400|transformer_impedance_pct is missing",
        "max = 5.0, step = 0.1|max = 5.0, step = 0|step = 0 is outside",
        "ramp_up_s = { min = 1, max = 60|ramp_up_s = { min = 60, max = 1|min is above max",
        "ramp_up_s = { min|ramp_ups_s = { min|did you mean ramp_up_s?",
        "check_valve = true|check_valve = \"yes\"|neither true nor false",
        "static_head_m = 32.0|static_head_m = 32.0\\ntotal_head_m = 30.0|less than static_head_m",
        "id = \"BP-2\"|id = \"  \"|id is blank",
        "[load]|[laod]|did you mean load?"
      })
  void aWrongEntryIsNamedWithItsRemedy(String text, String other, String message) {
    String replacement = other == null ? "" : other.replace("\\n", "\n");
    String found = problems(Examples.assetWith(text.replace("\\n", "\n"), replacement));
    assertThat(found).contains(message).startsWith("asset.toml line ");
  }

  @Test
  void allProblemsComeAtOnceEachWithItsLine() {
    TomlProblemsException e =
        catchThrowableOfType(
            TomlProblemsException.class,
            () ->
                parse(
                    Examples.ASSET
                        .replace("power_factor = 0.87", "power_factor = 1482")
                        .replace("kind = \"quadratic\"", "kind = 4")
                        .replace("[pipe]", "[pipes]")));
    String[] lines = Examples.ASSET.split("\n");
    assertThat(e.problems()).hasSize(3);
    for (Problem problem : e.problems()) {
      String line = lines[problem.line() - 1];
      assertThat(problem.text()).contains(line.replaceAll("[^a-z_].*", ""));
    }
  }

  @Test
  void aFileWithoutMotorOrAssetSaysBoth() {
    assertThat(problems("[load]\nkind = \"linear\"\n"))
        .contains("[asset] is missing")
        .contains("[motor] is missing");
    assertThat(problems("")).contains("[asset] is missing").contains("[motor] is missing");
    assertThat(problems("motor = 3\nasset = []\n"))
        .contains("motor = 3 is not a table")
        .contains("asset = a list is not a table");
  }

  @Test
  void horsepowerServesInsteadOfKilowatts() throws Exception {
    // 120.7 hp x 0.7456999 kW (NIST SP 811, B.8) = 90.00598 kW.
    Asset asset =
        parse(Examples.assetWith("rated_power_kW = 90.0", "rated_power_hp = 120.7")).asset();
    assertThat(asset.motor().ratedPowerKw()).isCloseTo(90.00598, within(5e-6));
    assertThat(
            problems(
                Examples.assetWith(
                    "rated_power_kW = 90.0", "rated_power_kW = 90.0\nrated_power_hp = 120.7")))
        .contains("keep one");
    assertThat(problems(Examples.assetWith("rated_power_kW = 90.0", "")))
        .contains("rated_power_kW is missing")
        .contains("rated_power_hp serves as well");
  }

  @Test
  void wattsForKilowattsAreCaughtByTheCurrentEvenWithinTheRange() {
    String small =
        Examples.ASSET
            .replace("rated_power_kW = 90.0", "rated_power_kW = 5500")
            .replace("rated_current_A = 160.0", "rated_current_A = 11");
    assertThat(problems(small)).contains("take 9625.3 A, the plate says 11 A").contains("W for kW");
  }

  // I = P / (sqrt(3) U pf eff) = 90,000 / (1.73205 x 400 x 0.87 x 0.948) = 157.5 A, by hand.
  @Test
  void aPlateWhoseCurrentIsNotThatOfItsPowerIsNotOfOneMotor() throws Exception {
    assertThat(parse(Examples.ASSET).asset().motor().currentOfPowerA())
        .isCloseTo(157.5, within(0.05));
    assertThat(parse(Examples.ASSET).asset().motor().isPlateOfOneMotor()).isTrue();
    Asset odd =
        parse(Examples.assetWith("rated_current_A = 160.0", "rated_current_A = 210.0")).asset();
    assertThat(odd.motor().isPlateOfOneMotor()).isFalse();
  }

  @Test
  void aPlateThatIsOddIsReadWithAWarning() throws Exception {
    assertThat(parse(Examples.assetWith("rated_voltage_V = 400.0", "rated_voltage_V = 690.0")))
        .extracting(AssetFile::warnings)
        .asString()
        .contains("star or delta")
        .contains("supply voltage 400 V is 58 %");
    assertThat(parse(Examples.assetWith("rated_frequency_Hz = 50.0", "rated_frequency_Hz = 60.0")))
        .extracting(AssetFile::warnings)
        .asString()
        .contains("is a slip of 17.7 % below 1800 rpm (4 poles)");
    assertThat(
            parse(
                Examples.assetWith(
                    "locked_rotor_time_hot_s = 12.0", "locked_rotor_time_hot_s = 30.0")))
        .extracting(AssetFile::warnings)
        .asString()
        .contains("are they swapped?");
  }

  @Test
  void aSpeedNoMotorCanReachIsRefused() {
    assertThat(problems(Examples.assetWith("rated_speed_rpm = 1482.0", "rated_speed_rpm = 3000")))
        .contains("is not below 3000 rpm, the highest synchronous speed at 50 Hz");
  }

  @Test
  void theNameplateAloneIsEnough() throws Exception {
    String shortFile =
        Examples.ASSET
            .substring(0, Examples.ASSET.indexOf("locked_rotor_current_ratio"))
            .replace("name = \"Booster pump 2\"\n", "");
    Asset asset = parse(shortFile).asset();
    assertThat(asset.name()).isEqualTo("BP-2");
    assertThat(asset.starter()).isNull();
    assertThat(asset.envelope().isEmpty()).isTrue();
  }

  @Test
  void whatIsWrittenReadsBackTheSame() throws Exception {
    Asset asset = parse(Examples.ASSET).asset();
    Path file = folder.resolve("asset.toml");
    AssetFiles.write(file, asset);
    assertThat(AssetFiles.read(file).asset()).isEqualTo(asset);
    try (Stream<Path> left = Files.list(folder)) {
      assertThat(left).containsExactly(file);
    }
  }

  @Test
  void voltagesOfTheBusbarNeedTheCableFromThere() throws Exception {
    String cable =
        "fault_level_MVA = 12.0\ncable_length_m = 80\ncable_resistance_ohm_per_km = 0.2\n";
    String busbar = Examples.assetWith("fault_level_MVA = 12.0", cable + "measured = \"busbar\"");
    Asset asset = parse(busbar).asset();
    assertThat(MachineSheet.measuresAtBusbar(asset)).isTrue();
    // 80 m of 0.2 ohm/km stand behind the place of measuring, 12 MVA at 400 V before it
    assertThat(MachineSheet.data(asset).cable().resistanceOhm()).isCloseTo(0.016, within(1e-12));
    assertThat(asset.context().cableOhm()).isCloseTo(0.016, within(1e-12));
    assertThat(MachineSheet.data(asset).supplyImpedanceOhm())
        .isCloseTo(400.0 * 400 / 12e6, within(1e-12));
    Path file = folder.resolve("asset.toml");
    AssetFiles.write(file, asset);
    assertThat(AssetFiles.read(file).asset()).isEqualTo(asset);

    Asset starter =
        parse(Examples.assetWith("fault_level_MVA = 12.0", cable + "measured = \"starter\""))
            .asset();
    assertThat(MachineSheet.measuresAtBusbar(starter)).isFalse();
    assertThat(starter)
        .isEqualTo(parse(Examples.assetWith("fault_level_MVA = 12.0", cable)).asset());
    assertThat(starter.context().cableOhm()).isZero();
    assertThat(MachineSheet.data(starter).cable().resistanceOhm()).isZero();

    assertThat(
            problems(
                Examples.assetWith(
                    "fault_level_MVA = 12.0", "fault_level_MVA = 12.0\nmeasured = \"busbar\"")))
        .contains("needs the cable from there to the starter: give cable_length_m");
    assertThat(
            problems(
                Examples.assetWith("fault_level_MVA = 12.0", cable + "measured = \"transformer\"")))
        .contains("starter")
        .contains("busbar");
  }

  @Test
  void aFailedWriteLeavesTheOldFile() throws Exception {
    Path file = folder.resolve("asset.toml");
    Files.createDirectory(file);
    Files.createFile(file.resolve("in the way"));
    Asset asset = parse(Examples.ASSET).asset();
    assertThatThrownBy(() -> AssetFiles.write(file, asset)).isInstanceOf(IOException.class);
    try (Stream<Path> left = Files.list(folder)) {
      assertThat(left).as("no half file is left").containsExactly(file);
    }
  }
}
