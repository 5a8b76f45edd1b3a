package rampwright.app.asset;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.acquisition.file.ColumnMapping;
import rampwright.acquisition.file.ColumnRule;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.app.envelope.FigureKey;

class TrialFilesTest {
  @TempDir private Path folder;

  private static String problems(String text) {
    TomlProblemsException e =
        catchThrowableOfType(
            TomlProblemsException.class, () -> TrialFiles.parse("settings.toml", text));
    assertThat(e).as("no problem was found").isNotNull();
    return String.valueOf(e.getMessage());
  }

  @Test
  void aCompleteFileIsReadWhole() throws Exception {
    TrialFile trial = TrialFiles.parse("settings.toml", Examples.SETTINGS);
    assertThat(trial.settings().control()).isEqualTo(TrialSettings.Control.TORQUE_RAMP);
    assertThat(trial.settings().stop()).isEqualTo(TrialSettings.Stop.SOFT);
    assertThat(trial.settings().values())
        .containsEntry("current_limit_ratio", 3.5)
        .containsEntry("ramp_down_s", 10.0)
        .hasSize(8);
    assertThat(trial.notes())
        .isEqualTo(
            new TrialNotes(
                Instant.parse("2026-03-14T09:12:05Z"),
                false,
                "valve was shut",
                Map.of("full_speed_s", 12.4),
                "speed pickup slipped"));
    assertThat(trial.columns())
        .isEqualTo(
            new ColumnMapping(
                Map.of(
                    "time", new ColumnRule("t", null, "s", null, null),
                    "i1", new ColumnRule("Ch 00", null, "V", 23.81, 0.0),
                    "speed", new ColumnRule(null, 3, null, null, null))));
    assertThat(trial.seen())
        .isEqualTo(
            new SeenByHand(
                Map.of(FigureKey.PEAK_CURRENT_RATIO, 3.4, FigureKey.START_TIME, 11.5),
                "completed",
                "clamp meter and watch",
                null));
  }

  @Test
  void anEmptyFileSaysNothing() throws Exception {
    assertThat(TrialFiles.parse("s", "")).isEqualTo(TrialFile.NONE);
  }

  @Test
  void whatIsWrittenReadsBackTheSame() throws Exception {
    TrialFile trial = TrialFiles.parse("settings.toml", Examples.SETTINGS);
    Path file = folder.resolve("settings.toml");
    TrialFiles.write(file, trial);
    assertThat(TrialFiles.read(file)).isEqualTo(trial);
  }

  @Test
  void aLimitInMultiplesOfTheStarterIsKnownBothWays() throws Exception {
    Asset asset = AssetFiles.parse(Path.of("a"), Examples.ASSET).asset();
    TrialSettings settings =
        TrialFiles.parse("s", "current_limit_ratio = 3.2\ncurrent_limit_of = \"starter\"\n")
            .settings();
    assertThat(settings.limitOverMotor(asset.motor(), asset.starter()))
        .isCloseTo(3.2 * 170 / 160, within(1e-12));
    assertThat(settings.limitOverStarter(asset.motor(), asset.starter())).isEqualTo(3.2);
    assertThat(settings.limitOverMotor(asset.motor(), null)).isNull();
    TrialSettings ofMotor = TrialFiles.parse("s", "current_limit_ratio = 3.4\n").settings();
    assertThat(ofMotor.limitOverMotor(asset.motor(), asset.starter())).isEqualTo(3.4);
    assertThat(ofMotor.limitOverStarter(asset.motor(), asset.starter()))
        .isCloseTo(3.4 * 160 / 170, within(1e-12));
  }

  @Test
  void aStarterInsideTheDeltaCarriesTheWindingsCurrent() throws Exception {
    Asset asset =
        AssetFiles.parse(
                Path.of("a"),
                Examples.assetWith("wiring = \"in line\"", "wiring = \"inside delta\""))
            .asset();
    TrialSettings settings =
        TrialFiles.parse("s", "current_limit_ratio = 2\ncurrent_limit_of = \"starter\"\n")
            .settings();
    // Line current of a balanced delta = winding current x sqrt(3).
    assertThat(settings.limitOverMotor(asset.motor(), asset.starter()))
        .isCloseTo(2 * 170 * Math.sqrt(3) / 160, within(1e-12));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "current_limit_ratio = 350|percent by 100",
        "curent_limit_ratio = 3.5|did you mean current_limit_ratio?",
        "current_limit_of = \"starter\"|current_limit_ratio is missing",
        "control = \"ramp\"|allowed: \"torque ramp\", \"voltage ramp\"",
        "stop = \"soft stop\"|allowed: \"soft\", \"coast\"",
        "pulse_s = 300|ms belong divided by 1000",
        "initial_torque_pct = \"20\"|is not a number",
        "[trial]\\nat = \"yesterday\"|for example 2026-03-14T09:12:05Z",
        "[trial]\\nrepresentative = false|needs a reason",
        "[trial]\\ncorrected = { full_speed_s = 3 }|corrected needs a reason",
        "[trial]\\ncorrected = { reason = \"x\" }|names no instant",
        "[trial]\\ncorrected = { full_sped_s = 3, reason = \"x\" }|did you mean full_speed_s?",
        "[columns]\\ni1 = { unit = \"A\" }|by name or by index, one of the two",
        "[columns]\\ni1 = { name = \"a\", index = 2 }|by name or by index, one of the two",
        "[columns]\\ni1 = { name = \"a\", scale = 0 }|makes every value the same",
        "[columns]\\ntime = { rate_Hz = 0 }|is outside 0.001",
        "[columns]\\ntime = { rate_Hz = 5, index = 1 }|the time is one of the two",
        "[columns]\\ni1 = { rate_Hz = 5 }|rate_Hz is not known here",
        "[columns]\\ni1 = { index = 1.5 }|must be a whole number",
        "[columns]\\ni1 = { index = 0 }|counted from 1",
        "[columns]\\nI1 = { index = 1 }|did you mean i1?",
        "[columns]\\ni1 = \"a\"|is not a table",
        "[seen]|outcome is missing",
        "[seen]\\npeak_current = 3|did you mean peak_current_",
        "[seen]\\noutcome = \"fine\"|allowed: \"already running\", \"completed\""
      })
  void aWrongEntryIsNamedWithItsRemedy(String text, String message) {
    assertThat(problems(text.replace("\\n", "\n"))).contains(message);
  }

  @Test
  void aColumnsFileWithoutColumnsIsRefused() throws Exception {
    Path file = folder.resolve("columns.toml");
    Files.writeString(file, "stop = \"soft\"\n");
    assertThat(
            catchThrowableOfType(TomlProblemsException.class, () -> TrialFiles.readColumns(file)))
        .hasMessageContaining("columns is missing");
    Files.writeString(file, "[columns]\ni1 = { index = 2 }\n");
    assertThat(TrialFiles.readColumns(file).rules()).containsOnlyKeys("i1");
  }

  @Test
  void rowsWithoutATimeColumnHaveARate() throws Exception {
    String text = "[columns]\ntime = { rate_Hz = 1000.0 }\ni1 = { index = 2 }\n";
    TrialFile trial = TrialFiles.parse("s", text);
    assertThat(trial.columns().rateHz()).isEqualTo(1000);
    assertThat(TrialFiles.parse("again", TrialText.of(trial))).isEqualTo(trial);
  }
}
