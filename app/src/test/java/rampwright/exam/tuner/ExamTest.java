package rampwright.exam.tuner;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.exam.plant.Limits;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.QuasiSteadyPlant.Conduct;
import rampwright.exam.plant.Setting;
import rampwright.exam.plant.TrueFigures;

class ExamTest {
  private static final List<ExamCase> QUESTIONS =
      List.of(new CaseMaker(4).achievable(0), new CaseMaker(4).achievable(1));

  @Test
  void anAchievableQuestionIsMetByItsBestSettingsAndMissedByTheFirst() {
    for (ExamCase question : QUESTIONS) {
      TrueFigures first =
          question.asset().figures(question.first(), question.asset().day(1), Conduct.WHOLE);
      assertThat(question.limits().met(first)).isFalse();
      // other days than those the question was made with
      int met = 0;
      for (int day = 0; day < 10; day++) {
        TrueFigures f =
            question
                .asset()
                .figures(question.best(), question.asset().day(3000 + day), Conduct.WHOLE);
        met += question.limits().met(f) ? 1 : 0;
      }
      assertThat(met).as(question.asset().sheet().id()).isGreaterThanOrEqualTo(7);
    }
  }

  @Test
  void questionsAreTheSameForTheSameSeed() {
    ExamCase one = QUESTIONS.get(1);
    ExamCase two = new CaseMaker(4).achievable(1);
    assertThat(one.limits()).isEqualTo(two.limits());
    assertThat(one.first()).isEqualTo(two.first());
    assertThat(one.asset().sheet()).isEqualTo(two.asset().sheet());
  }

  @Test
  void theFolderHoldsTheTrialsWithoutTheirTruth(@TempDir Path folder) throws Exception {
    ExamCase question = QUESTIONS.get(1);
    List<Exam.Answer> answers =
        new Exam(2, folder).sit(List.of(question), asked -> new RuleOfThumb());
    Exam.Answer answer = answers.get(0);
    assertThat(answer.steps()).isNotEmpty();
    Path asset = folder.resolve("rule-of-thumb").resolve(question.asset().sheet().id());
    assertThat(asset.resolve("asset.toml")).content().contains("[envelope]", "[motor]");
    Path trials = asset.resolve("trials");
    try (var files = Files.walk(trials)) {
      assertThat(files.filter(Files::isRegularFile).map(p -> p.getFileName().toString()))
          .contains("trace.csv", "settings.toml")
          .doesNotContain("truth.json");
    }
    assertThat(trials.resolve("20260102T080000Z").resolve("trace.csv")).exists();
  }

  @Test
  void theSettingsBestKnownAreMetSoon(@TempDir Path folder) {
    List<Exam.Answer> answers = new Exam(5, folder).sit(QUESTIONS, Exam.bestKnown());
    assertThat(ExamReport.metWithin(answers, 5)).isEqualTo(1);
    assertThat(ExamReport.line("best", answers)).contains("100.0");
    assertThat(ExamReport.calibration(answers)).contains("stated 0.9");
  }

  @Test
  void theProductsAnswerIsUnderstood() {
    PlantSettings present = PlantSettings.plain(true);
    Adviser.Told told =
        new Adviser.Told(
            new Limits(java.util.Map.of()), List.of(new Adviser.Seen(present, firstFigures())), 1);
    Adviser.Proposal proposal =
        ProcessAdviser.parse(
            """
            {"status": "change", "settings": {"control": "voltage ramp", "ramp_up_s": 4.5,
             "current_limit_ratio": 3.3}, "chance_all_met": 0.83, "binding": []}
            """,
            told);
    assertThat(proposal.status()).isEqualTo("change");
    assertThat(proposal.chance()).isEqualTo(0.83);
    assertThat(proposal.settings().torqueRamp()).isFalse();
    assertThat(proposal.settings().get(Setting.RAMP_UP)).isEqualTo(4.5);
    assertThat(proposal.settings().get(Setting.CURRENT_LIMIT)).isEqualTo(3.3);
    assertThat(proposal.settings().get(Setting.RAMP_DOWN))
        .isEqualTo(present.get(Setting.RAMP_DOWN));
    assertThat(ProcessAdviser.parse("{\"status\": \"keep\", \"chance_all_met\": null}", told))
        .extracting(Adviser.Proposal::chance)
        .isEqualTo(Double.NaN);
    assertThatThrownBy(() -> ProcessAdviser.parse("{}", told))
        .isInstanceOf(AdviserFailedException.class);
    assertThatThrownBy(() -> ProcessAdviser.parse("sorry", told))
        .isInstanceOf(AdviserFailedException.class);
  }

  @Test
  void aProductThatCannotBeRunIsAFailureWithItsWords(@TempDir Path folder) {
    Adviser.Told told =
        new Adviser.Told(
            new Limits(java.util.Map.of()),
            List.of(new Adviser.Seen(PlantSettings.plain(true), firstFigures())),
            1);
    Adviser absent = new ProcessAdviser(folder.resolve("absent.jar"));
    assertThatThrownBy(() -> absent.next(folder, told))
        .isInstanceOf(AdviserFailedException.class)
        .hasMessageContaining("absent.jar");
    List<Exam.Answer> answers = new Exam(1, folder).sit(List.of(QUESTIONS.get(0)), asked -> absent);
    assertThat(answers.get(0).steps()).hasSize(1);
    assertThat(answers.get(0).steps().get(0).status()).isEqualTo("failed");
    assertThat(answers.get(0).steps().get(0).failure()).contains("absent.jar");
  }

  private static TrueFigures firstFigures() {
    ExamCase question = QUESTIONS.get(0);
    return question.asset().figures(question.first(), question.asset().day(1), Conduct.START_ONLY);
  }
}
