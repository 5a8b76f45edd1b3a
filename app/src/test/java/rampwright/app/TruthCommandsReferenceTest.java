package rampwright.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import rampwright.app.fixture.SharedData;
import rampwright.app.json.ResultSchemaValidator;

/**
 * What the command line says about trials whose truth is known, asset file, settings and envelope
 * read as a person would have them read.
 *
 * <p>Sources: the practice traces, read in place (simulated elsewhere by a plant nobody here
 * wrote); the shipped samples (a plant of the tests that shares nothing with the product's model).
 * Truths are of the plant, without the meter's errors.
 */
class TruthCommandsReferenceTest {
  /**
   * A standard uncertainty covers the truth within twice itself in 95 of 100 cases (JCGM 100,
   * 6.3.3); the share asked for leaves no more than that to the misses.
   */
  private static final double COVERAGE = 2;

  private static final double LEAST_SHARE = 0.95;

  /** A shaft at this share of rated speed runs: the definition of full speed. */
  private static final double AT_SPEED = 0.95;

  /** What a fault of a truth file is called among the findings. */
  private static final Map<String, String> CODE_OF_FAULT =
      Map.of(
          "phaseloss", "phase-missing",
          "thyristor", "one-way-conduction",
          "dip", "supply-dip");

  private static JsonNode analysed(TruthTrials.Trial trial) {
    CommandRun.Answer answer = CommandRun.run(command("analyze", trial));
    assertThat(answer.exit()).as("%s: %s", trial.name(), answer.err()).isIn(0, 3, 4);
    assertThat(ResultSchemaValidator.problems(answer.out())).as(trial.name()).isEmpty();
    JsonNode json = answer.json();
    assertThat(json.path("starts")).as(trial.name()).hasSize(1);
    return json;
  }

  /** One trace named as a file prints its result itself; beside it lies its settings file. */
  private static Object[] command(String verb, TruthTrials.Trial trial) {
    List<Object> words =
        new ArrayList<>(List.of(verb, trial.trace(), "--asset", trial.asset(), "--json"));
    if (verb.equals("analyze")) {
      words.add("--no-keep");
    }
    return words.toArray();
  }

  private static List<TruthTrials.Trial> samples() throws IOException {
    Path samples = Path.of("..", "sample-traces");
    assumeTrue(Files.isDirectory(samples), "sample-traces is not beside the modules");
    return TruthTrials.under(samples);
  }

  private static List<TruthTrials.Trial> practice() throws IOException {
    return TruthTrials.under(SharedData.folder("practice"));
  }

  @Test
  void practiceFiguresAgreeWithTheirTruth() throws IOException {
    agreeWithTruth(practice(), 600, LEAST_SHARE);
  }

  @Test
  void sampleFiguresAgreeWithTheirTruth() throws IOException {
    agreeWithTruth(samples(), 220, LEAST_SHARE);
  }

  private static void agreeWithTruth(List<TruthTrials.Trial> trials, int atLeast, double share) {
    int within = 0;
    List<String> misses = new ArrayList<>();
    for (TruthTrials.Trial trial : trials) {
      for (TruthTrials.Pair pair :
          TruthTrials.pairs(analysed(trial).path("starts").get(0), trial)) {
        if (pair.isWithin(COVERAGE)) {
          within++;
        } else {
          misses.add(trial.name() + " " + pair);
        }
      }
    }
    int all = within + misses.size();
    assertThat(all).as("figures compared").isGreaterThanOrEqualTo(atLeast);
    assertThat((double) within / all).as("%s", misses).isGreaterThanOrEqualTo(share);
  }

  @Test
  void outcomesKindsAndFaultsAreThoseOfTheTruth() throws IOException {
    List<TruthTrials.Trial> all = new ArrayList<>(practice());
    all.addAll(samples());
    for (TruthTrials.Trial trial : all) {
      JsonNode json = analysed(trial);
      String outcome = json.path("starts").get(0).path("outcome").asText();
      assertThat(json.path("trace").path("kind").asText())
          .as(trial.name())
          .isEqualTo(trial.isWaveform() ? "waveform" : "rms");
      assertThat(outcome).as(trial.name()).isEqualTo(outcome(trial));
      List<String> codes = new ArrayList<>();
      json.path("findings").forEach(finding -> codes.add(finding.path("code").asText()));
      CODE_OF_FAULT.forEach(
          (word, code) -> {
            boolean there = trial.faults().stream().anyMatch(fault -> fault.contains(word));
            if (there) {
              assertThat(codes).as("%s %s", trial.name(), trial.faults()).contains(code);
            } else {
              assertThat(codes).as(trial.name()).doesNotContain(code);
            }
          });
    }
  }

  /** The outcome that follows from a truth. */
  private static String outcome(TruthTrials.Trial trial) throws IOException {
    if (trial.is("completed")) {
      return "completed";
    }
    if (trial.is("tripped")) {
      // A starter that gives up waiting for by-pass while the shaft is at speed ends a run.
      return trial.lastSpeedShare() > AT_SPEED ? "completed" : "stalled";
    }
    boolean aborted =
        trial.is("aborted") || trial.faults().stream().anyMatch(f -> f.contains("abort"));
    return aborted ? "aborted" : "cut off";
  }

  /** The truth's own verdict is on the true figures; a value within its uncertainty may tip it. */
  @Test
  void verdictsAreThoseOfTheTruthUnlessAnUncertaintyDecides() throws IOException {
    List<TruthTrials.Trial> all = new ArrayList<>(practice());
    all.addAll(samples());
    int compared = 0;
    for (TruthTrials.Trial trial : all) {
      JsonNode truth = trial.truth().path("envelope_met");
      if (!truth.isBoolean()) {
        continue;
      }
      CommandRun.Answer answer = CommandRun.run(command("compare", trial));
      assertThat(ResultSchemaValidator.problems(answer.out())).as(trial.name()).isEmpty();
      JsonNode verdict = answer.json().path("verdict");
      JsonNode met = verdict.path("met");
      assertThat(answer.exit())
          .as(trial.name())
          .isEqualTo(met.isNull() ? 4 : met.asBoolean() ? 0 : 3);
      if (met.isNull() || isTippedByUncertainty(answer.json())) {
        continue;
      }
      boolean limitsMet = true;
      for (JsonNode limit : verdict.path("limits")) {
        limitsMet &= limit.path("met").asBoolean();
      }
      compared++;
      assertThat(limitsMet).as("%s %s", trial.name(), verdict).isEqualTo(truth.asBoolean());
    }
    // The others are not assessable, or a limit that none other decides lies within reach.
    assertThat(compared).isGreaterThan(30);
  }

  /** A limit missed by more than its uncertainty decides, whatever the others may do. */
  private static boolean isTippedByUncertainty(JsonNode result) {
    boolean within = false;
    for (JsonNode limit : result.path("verdict").path("limits")) {
      boolean open = isWithinReach(result, limit);
      if (!open && limit.path("met").isBoolean() && !limit.path("met").asBoolean()) {
        return false;
      }
      within |= open;
    }
    return within;
  }

  private static boolean isWithinReach(JsonNode result, JsonNode limit) {
    JsonNode start = result.path("starts").get(0);
    String key = limit.path("figure").asText();
    JsonNode figure = start.path("figures").path(key);
    if (figure.isMissingNode()) {
      figure = start.path("stop").path("figures").path(key);
    }
    double reach = COVERAGE * figure.path("uncertainty").asDouble(0);
    for (String side : List.of("min", "max")) {
      if (limit.path(side).isNumber()
          && Math.abs(limit.path("value").asDouble() - limit.path(side).asDouble()) < reach) {
        return true;
      }
    }
    return false;
  }
}
