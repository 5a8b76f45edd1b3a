package rampwright.analysis.figure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * Figures against traces of known truth, read in place (simulated elsewhere by a plant with meters
 * of its own errors, which nobody here wrote).
 *
 * <p>Tolerance: a standard uncertainty covers the truth within twice itself in 95 of 100 cases.
 * Some truths are defined a little differently (dip as a mean of lines, release at the order), so 4
 * in 100 may lie outside; each is listed by {@link PracticeTable}.
 */
class PracticeReferenceTest {
  private static final double MOST_OUTSIDE = 0.04;

  @Test
  void figuresLieWithinTwiceTheirUncertaintyOfTheTruth() throws IOException {
    Path practice = practice();
    int inside = 0;
    List<String> outside = new ArrayList<>();
    for (Path truthFile : truths(practice)) {
      Map<String, double[]> truth = SharedData.truth(truthFile);
      AnalyzedTrace analyzed = PracticeTable.analyze(truthFile);
      assertThat(analyzed.figures().starts()).as(truthFile.toString()).hasSize(1);
      for (PracticeTable.Row row : PracticeTable.rows(analyzed.figures().starts().get(0), truth)) {
        if (row.both()) {
          if (Math.abs(row.timesUncertainty()) <= 2) {
            inside++;
          } else {
            outside.add(truthFile.getParent().getFileName() + " " + row);
          }
        }
      }
    }
    assertThat(inside).isGreaterThan(500);
    assertThat(outside)
        .as("outside twice their uncertainty: %s", outside)
        .hasSizeLessThan((int) (MOST_OUTSIDE * (inside + outside.size())));
  }

  @Test
  void outcomesAreThoseOfTheTruth() throws IOException {
    for (Path truthFile : truths(practice())) {
      Map<String, double[]> truth = SharedData.truth(truthFile);
      Outcome outcome = PracticeTable.analyze(truthFile).figures().starts().get(0).outcome();
      String name = truthFile.getParent().toString();
      if (truth.get("completed")[0] == 1) {
        assertThat(outcome).as(name).isEqualTo(Outcome.COMPLETED);
      } else if (name.contains("aborted")) {
        assertThat(outcome).as(name).isEqualTo(Outcome.ABORTED);
      } else if (!name.contains("mixer-c")) {
        // One start reached full speed without being by-passed in its time; the trace shows a run.
        assertThat(outcome).as(name).isEqualTo(Outcome.STALLED);
      }
    }
  }

  @Test
  void faultsAreFoundAndGoodTracesHaveNone() throws IOException {
    Path practice = practice();
    assertThat(codes(practice, "wave-phase-lost")).contains("phase-missing");
    assertThat(codes(practice, "wave-one-way")).contains("one-way-conduction");
    assertThat(codes(practice, "wave-supply-dip")).contains("supply-dip");
    assertThat(codes(practice, "wave-aborted")).contains("aborted-start");
    Set<String> allowed = Set.of("late-breakaway");
    for (Path truthFile : truths(practice)) {
      Map<String, double[]> truth = SharedData.truth(truthFile);
      boolean good = truth.get("completed")[0] == 1 && !truthFile.toString().contains("dip");
      if (good) {
        assertThat(PracticeTable.analyze(truthFile).figures().findings())
            .as(truthFile.toString())
            .allSatisfy(f -> assertThat(allowed).contains(f.code()));
      }
    }
  }

  private static List<String> codes(Path practice, String folder) throws IOException {
    return PracticeTable.analyze(practice.resolve(folder).resolve("truth.json"))
        .figures()
        .findings()
        .stream()
        .map(Finding::code)
        .toList();
  }

  private static Path practice() {
    Optional<Path> practice = SharedData.folder("practice");
    assumeTrue(practice.isPresent(), "the practice traces are not here");
    return practice.orElseThrow();
  }

  private static List<Path> truths(Path practice) throws IOException {
    try (Stream<Path> walk = Files.walk(practice)) {
      return walk.filter(p -> p.getFileName().toString().equals("truth.json")).sorted().toList();
    }
  }
}
