package rampwright.app.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import rampwright.analysis.figure.Outcome;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.TraceFigures;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.TraceKind;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.AssetFiles;
import rampwright.app.asset.Examples;
import rampwright.app.asset.TrialFile;
import rampwright.app.asset.TrialFiles;
import rampwright.app.envelope.FigureKey;
import rampwright.app.envelope.Judge;
import rampwright.app.envelope.Verdict;
import rampwright.app.fixture.MadeUp;
import rampwright.app.result.Batch;
import rampwright.app.result.Comparison;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TraceFacts;
import rampwright.app.result.TrialResult;
import rampwright.app.usecase.ResultSchema;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

class ResultJsonTest {
  private static JsonNode parsed(String json) throws Exception {
    assertThat(ResultSchemaValidator.problems(json)).as(json).isEmpty();
    return new ObjectMapper().readTree(json);
  }

  private static TrialResult plain(TraceFigures figures) {
    return new TrialResult(
        "trace.csv",
        TraceFacts.of(MadeUp.trace()),
        null,
        TrialFile.NONE,
        figures,
        List.of(),
        "1.2.3",
        List.of());
  }

  private static TrialResult judged() throws Exception {
    AssetFile asset = AssetFiles.parse(Path.of("x/asset.toml"), Examples.ASSET);
    StartRecord start =
        MadeUp.start(
            Map.of("peak_current_ratio", 3.0, "start_time_s", 13.0), Map.of("stop_time_s", 8.0));
    Verdict verdict =
        Judge.judge(asset.asset().envelope(), start, MadeUp.track(), asset.asset().context());
    return new TrialResult(
        "trace.csv",
        TraceFacts.of(MadeUp.trace()),
        asset,
        TrialFiles.parse("settings.toml", Examples.SETTINGS),
        MadeUp.figures(start),
        List.of(verdict),
        "1.2.3",
        List.of());
  }

  @Test
  void aBareTraceHasTheAgreedShape() throws Exception {
    StartRecord start = MadeUp.start(Map.of("start_time_s", 8.0, "i2t_ratio_s", Double.NaN), null);
    JsonNode json = parsed(ResultJson.trial(plain(MadeUp.figures(start))));
    assertThat(json.at("/trace/kind").asString()).isEqualTo("rms");
    assertThat(json.at("/trace/rate_hz").asDouble()).isEqualTo(50);
    assertThat(json.at("/trace/sha256").asString()).isEqualTo("ab".repeat(32));
    assertThat(json.at("/tool/version").asString()).isEqualTo("1.2.3");
    assertThat(json.at("/starts/0/outcome").asString()).isEqualTo("completed");
    assertThat(json.at("/starts/0/instants/inception_s").asDouble()).isEqualTo(2);
    assertThat(json.at("/starts/0/instants/breakaway_s").isNull()).isTrue();
    assertThat(json.at("/starts/0/instants/settled_s").isNull())
        .as("an instant nobody gave is null, not left out")
        .isTrue();
    assertThat(json.at("/starts/0/instant_details/inception_s/uncertainty").asDouble())
        .isEqualTo(0.0058);
    assertThat(json.at("/starts/0/instant_details/breakaway_s/why").asString())
        .isEqualTo("no speed channel");
    JsonNode figure = json.at("/starts/0/figures/start_time_s");
    assertThat(figure.propertyNames())
        .containsExactly("value", "unit", "uncertainty", "from_s", "to_s", "rule");
    JsonNode missing = json.at("/starts/0/figures/i2t_ratio_s");
    assertThat(missing.get("value").isNull()).isTrue();
    assertThat(missing.get("why").asString()).isEqualTo("made to be missing");
    assertThat(json.at("/starts/0/stop").isNull()).isTrue();
    assertThat(json.at("/starts/0/verdict").isNull()).isTrue();
    assertThat(json.at("/findings/0/code").asString()).isEqualTo("late-breakaway");
    assertThat(json.has("verdict")).isFalse();
  }

  @Test
  void phasesPartsAndHarmonicsKeepTheirShape() throws Exception {
    Map<String, Measured> figures = new LinkedHashMap<>();
    figures.put(
        "peak_current_A",
        Measured.of(512.3, "A", null, 2, 10, "largest one-cycle RMS")
            .withPhases("L2", Map.of("L1", 510.0, "L2", 512.3)));
    figures.put(
        "thd_pct", Measured.of(8, "%", 0.5, 2, 10, "median").withParts(Map.of("largest", 30.0)));
    TraceFigures whole =
        new TraceFigures(
            TraceKind.WAVEFORM,
            "",
            5000,
            49.98,
            20,
            List.of(
                Map.of(
                    5, new TraceFigures.HarmonicShare(11, 25),
                    7, new TraceFigures.HarmonicShare(4, Double.NaN))),
            List.of(new StartRecord(Outcome.COMPLETED, Map.of(), figures, null)),
            List.of());
    String text = ResultJson.trial(plain(whole));
    JsonNode json = new ObjectMapper().readTree(text);
    assertThat(json.at("/starts/0/figures/peak_current_A/phase").asString()).isEqualTo("L2");
    assertThat(json.at("/starts/0/figures/peak_current_A/phases/L1").asDouble()).isEqualTo(510);
    assertThat(json.at("/starts/0/figures/peak_current_A/uncertainty").isNull()).isTrue();
    assertThat(json.at("/starts/0/figures/thd_pct/parts/largest").asDouble()).isEqualTo(30);
    assertThat(json.at("/starts/0/figures/harmonics/5/median").asDouble()).isEqualTo(11);
    assertThat(json.at("/starts/0/figures/harmonics/7/largest").isNull())
        .as("a number that is none is null, never NaN")
        .isTrue();
    assertThat(ResultSchemaValidator.problems(text))
        .as("the schema wants a harmonic's numbers")
        .isNotEmpty();
  }

  @Test
  void aVerdictCarriesLimitsCorridorsAndMargins() throws Exception {
    TrialResult result = judged();
    JsonNode json = parsed(ResultJson.batch(new Batch(List.of(result), true), true));
    JsonNode verdict = json.get("verdict");
    assertThat(verdict.get("met").asBoolean()).isFalse();
    JsonNode start = verdict.at("/limits/1");
    assertThat(start.propertyNames())
        .containsExactly("figure", "min", "max", "value", "met", "margin_pct", "why");
    assertThat(start.get("figure").asString()).isEqualTo("start_time_s");
    assertThat(start.get("margin_pct").asDouble()).isCloseTo(-100.0 / 12, within(1e-9));
    assertThat(verdict.at("/limits/0/min").isNull()).isTrue();
    assertThat(verdict.at("/corridors/0/upper/2/1").asDouble()).isEqualTo(1.2);
    assertThat(json.at("/starts/0/verdict")).isEqualTo(verdict);
    assertThat(json.at("/settings/control").asString()).isEqualTo("torque ramp");
    assertThat(json.at("/trial/representative").asBoolean()).isFalse();
    assertThat(json.at("/trial/corrected/full_speed_s").asDouble()).isEqualTo(12.4);
    assertThat(json.at("/noted_by_hand/figures/start_time_s/value").asDouble()).isEqualTo(11.5);
  }

  @Test
  void manyTrialsListResultsErrorsAndNotesByHand() throws Exception {
    TrialResult result = judged();
    TrialFile trial = result.trial();
    assertThat(trial.seen()).isNotNull();
    JsonNode json =
        parsed(
            ResultJson.batch(
                new Batch(
                    List.of(
                        result,
                        new FailedTrial("bad.csv", "bad.csv line 3: is empty"),
                        new NotedTrial("settings.toml", null, trial, trial.seen(), null)),
                    false),
                false));
    assertThat(json.get("results")).hasSize(3);
    assertThat(json.at("/results/0/result/starts")).hasSize(1);
    assertThat(json.at("/results/1/error").asString()).isEqualTo("bad.csv line 3: is empty");
    assertThat(json.at("/results/2/noted/noted_by_hand/outcome").asString()).isEqualTo("completed");
    assertThat(json.at("/results/2/noted").has("starts")).isFalse();
  }

  @Test
  void oneTraceThatFailedIsAnError() throws Exception {
    JsonNode json =
        parsed(ResultJson.batch(new Batch(List.of(new FailedTrial("a", "a: no")), true), false));
    assertThat(json.get("error").asString()).isEqualTo("a: no");
  }

  @Test
  void aComparisonListsDifferences() throws Exception {
    TrialResult a =
        plain(
            MadeUp.figures(MadeUp.start(Map.of("start_time_s", 8.0), Map.of("stop_time_s", 8.0))));
    TrialResult b =
        plain(
            MadeUp.figures(
                MadeUp.start(Map.of("start_time_s", 8.5), Map.of("stop_time_s", Double.NaN))));
    JsonNode json = parsed(ResultJson.comparison(Comparison.of(a, b)));
    assertThat(json.at("/differences/0/difference").asDouble()).isEqualTo(0.5);
    assertThat(json.at("/differences/0/beyond_uncertainty").asBoolean()).isTrue();
    assertThat(json.at("/differences/1/difference").isNull()).isTrue();
    assertThat(json.at("/differences/1/why").asString()).isEqualTo("second: made to be missing");
    assertThat(json.get("results")).hasSize(2);
  }

  @Test
  void otherAnswersAreInTheSchemaToo() throws Exception {
    parsed(ResultJson.error("quote \" and \u001b"));
    parsed(ResultJson.files(List.of("a.csv")));
    parsed(ResultJson.script("complete"));
  }

  @Test
  void theSchemaRefusesWhatIsNotAgreed() {
    assertThat(ResultSchemaValidator.problems("{\"trace\": {}}")).isNotEmpty();
    assertThat(ResultSchemaValidator.problems("[]")).isNotEmpty();
    String good = ResultJson.trial(plain(MadeUp.figures()));
    assertThat(ResultSchemaValidator.problems(good)).isEmpty();
    assertThat(ResultSchemaValidator.problems(good.replace("\"rms\"", "\"peak\""))).isNotEmpty();
    assertThat(ResultSchemaValidator.problems(good.replace("\"findings\"", "\"remarks\"")))
        .isNotEmpty();
  }

  @Test
  void theSchemaNamesEveryFigure() throws Exception {
    JsonNode schema = new ObjectMapper().readTree(new ResultSchema().run());
    for (FigureKey key : FigureKey.values()) {
      String part = key.part().key();
      assertThat(schema.at("/$defs/" + part + "/properties/figures/properties").has(key.key()))
          .as(key.key())
          .isTrue();
    }
  }
}
