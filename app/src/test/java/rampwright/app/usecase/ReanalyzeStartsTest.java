package rampwright.app.usecase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.analysis.figure.AnalysisOptions;
import rampwright.analysis.figure.AnalyzedTrace;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.figure.SpeedModel;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;
import rampwright.app.fixture.ToyAnalyzer;
import rampwright.app.fixture.ToyDoor;
import rampwright.app.fixture.Workshop;
import rampwright.app.logbook.Imported;
import rampwright.app.logbook.KeptEntry;
import rampwright.app.logbook.LogEntry;
import rampwright.app.logbook.LogFile;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.Origin;
import rampwright.app.logbook.Reanalyzed;

class ReanalyzeStartsTest {
  private static final double LATER_S = 0.5;

  @TempDir private Path folder;
  private final ToyDoor door = new ToyDoor();
  private final LogbookUse logbooks = new LogbookUse(name -> null, () -> Instant.EPOCH);
  private final AnalyzeTraces old = new AnalyzeTraces(door, new ToyAnalyzer(), "1", 1);

  /** The same trace, with full speed dated half a second later. */
  private final AnalyzeTraces redefined =
      new AnalyzeTraces(
          door, (trace, motor, options, model) -> later(trace, motor, options, model), "2", 1);

  private static AnalyzedTrace later(
      Trace trace, MotorContext motor, AnalysisOptions options, SpeedModel model) {
    Map<String, Double> corrected = new HashMap<>(options.corrected());
    corrected.merge("full_speed_s", 10 + LATER_S, (a, b) -> a + LATER_S);
    return new ToyAnalyzer()
        .analyze(
            trace,
            motor,
            new AnalysisOptions(
                corrected, options.correctionReason(), options.thresholds(), options.limit()),
            model);
  }

  private String book() {
    return folder.resolve("l.db").toString();
  }

  private Imported entered(AnalyzeTraces by, InputChoice choice, Path... named) throws Exception {
    return new ImportStarts(by, logbooks).run(List.of(named), choice, book(), Progress.NONE);
  }

  private Reanalyzed again(AnalyzeTraces by) throws Exception {
    return new ReanalyzeStarts(by, logbooks).run(List.of(), book(), Progress.NONE);
  }

  private List<KeptEntry> listed(boolean history) throws Exception {
    return new ListStarts(logbooks).run("BP-2", 10, history, book());
  }

  private static void delete(Path folder) throws Exception {
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    }
  }

  @Test
  void startsAreEnteredAnewByTheNewDefinitionsAndTheOldStay() throws Exception {
    Workshop workshop = new Workshop(folder);
    Path pump = workshop.asset("pump");
    Path corrected = workshop.trial(pump, "20260101T080000Z", 480);
    Files.writeString(
        corrected.resolve("settings.toml"),
        "[trial]\ncorrected = { full_speed_s = 9, reason = \"slip\" }\n");
    workshop.trial(pump, "20260102T080000Z", 490);
    assertThat(entered(old, InputChoice.DEFAULT, pump).added()).isEqualTo(2);
    delete(pump);
    assertThat(again(old)).isEqualTo(new Reanalyzed(0, 0, 0, "1", List.of()));

    assertThat(again(redefined)).isEqualTo(new Reanalyzed(2, 2, 0, "1", List.of()));
    assertThat(listed(false))
        .extracting(kept -> kept.entry().value("start_time_s"))
        .as("the newest version holds; a person's correction is kept")
        .containsExactly(8 + LATER_S, 7 + LATER_S);
    List<KeptEntry> history = listed(true);
    assertThat(history)
        .extracting(kept -> kept.entry().origin().toolVersion())
        .containsExactly("2", "1", "2", "1");
    assertThat(history).extracting(KeptEntry::inForce).containsExactly(true, false, true, false);
    assertThat(history.get(0).replaces()).hasValue(history.get(1).number());

    assertThat(again(redefined).trials()).as("nothing is done twice").isZero();
  }

  @Test
  void figuresThatStayAreLookedAtOnce() throws Exception {
    Workshop workshop = new Workshop(folder);
    Path pump = workshop.asset("pump");
    workshop.trial(pump, "20260101T080000Z", 480);
    entered(old, InputChoice.DEFAULT, pump);
    AnalyzeTraces renamed = new AnalyzeTraces(door, new ToyAnalyzer(), "1.1", 1);
    assertThat(again(renamed)).isEqualTo(new Reanalyzed(1, 0, 1, "1", List.of()));
    assertThat(again(renamed)).isEqualTo(new Reanalyzed(0, 0, 0, "1", List.of()));
    assertThat(listed(true)).hasSize(1);
  }

  @Test
  void startsByDifferentDefinitionsAreSaid() throws Exception {
    Workshop workshop = new Workshop(folder);
    Path pump = workshop.asset("pump");
    workshop.trial(pump, "20260101T080000Z", 480);
    entered(old, InputChoice.DEFAULT, pump);
    assertThat(new TellDefinitions(logbooks).run(List.of("BP-2"), book())).isEmpty();
    try (Logbook book = Logbook.open(book(), name -> null, () -> Instant.EPOCH)) {
      LogEntry now = book.starts("BP-2").get(0);
      book.append(
          List.of(
              new LogEntry(
                  now.asset(),
                  now.at().plusSeconds(86_400),
                  now.settings(),
                  now.outcome(),
                  true,
                  "",
                  "",
                  "",
                  new Origin("made up", "x#1", "0", "0", "ab", List.of()),
                  now.figures())));
    }
    assertThat(new TellDefinitions(logbooks).run(List.of("BP-2"), book()))
        .singleElement()
        .asString()
        .contains("BP-2", "0 (1 starts), 1 (1 starts)", "reanalyze");
  }

  @Test
  void namesInALogbookLeadNowhereElse() throws Exception {
    Path trap = folder.resolve("trap.csv");
    byte[] content = "time_s,i1_A\n0,0\n1,480\n2,0\n".getBytes(StandardCharsets.UTF_8);
    List<LogFile> files =
        List.of(new LogFile("trace.csv", content), new LogFile(trap.toString(), content));
    try (Logbook book = Logbook.open(book(), name -> null, () -> Instant.EPOCH)) {
      book.append(
          List.of(
              new LogEntry(
                  "X-1",
                  Instant.EPOCH,
                  "",
                  "",
                  true,
                  "",
                  "",
                  "",
                  new Origin("made up", "../../" + "up#1", "0", "0", "ab", files),
                  Map.of())));
    }
    Reanalyzed again = again(old);
    assertThat(again.changed()).isZero();
    assertThat(again.problems()).singleElement().asString().contains("X-1");
    assertThat(trap).doesNotExist();
    assertThat(door.asked.get(0).file().toString())
        .contains("rampwright-again")
        .endsWith("trace.csv");
    assertThat(door.asked.get(0).file().normalize()).isEqualTo(door.asked.get(0).file());
  }

  @Test
  void howATraceWasReadIsKeptWithIt() throws Exception {
    Path pump = new Workshop(folder).asset("pump");
    Path loose =
        Workshop.trace(
            Files.createDirectory(folder.resolve("20260101T080000Z")).resolve("logger.csv"), 480);
    Path columns = Files.writeString(folder.resolve("c.toml"), "[columns]\ni1 = { index = 2 }\n");
    InputChoice choice = new InputChoice(pump, null, columns, TraceKind.RMS, true, Map.of());
    assertThat(entered(old, choice, loose).added()).isEqualTo(1);
    again(redefined);
    var asked = door.asked.get(door.asked.size() - 1);
    assertThat(asked.declaredKind()).isEqualTo(TraceKind.RMS);
    assertThat(asked.secondary()).isTrue();
    assertThat(asked.columns()).isEqualTo(door.asked.get(0).columns());
    assertThat(listed(true)).hasSize(2);
  }

  @Test
  void anImportInterruptedGoesOnWithoutAnalysingAgain() throws Exception {
    Workshop workshop = new Workshop(folder);
    Path pump = workshop.asset("pump");
    for (int day = 10; day < 20; day++) {
      workshop.trial(pump, "202601" + day + "T080000Z", 480 + day);
    }
    entered(
        old,
        InputChoice.DEFAULT,
        pump.resolve("trials/20260110T080000Z"),
        pump.resolve("trials/20260111T080000Z"));
    int before = door.asked.size();
    Imported rest = entered(old, InputChoice.DEFAULT, pump);
    assertThat(rest.added()).isEqualTo(8);
    assertThat(rest.known()).isEqualTo(2);
    assertThat(door.asked).hasSize(before + 8);
    Workshop.trace(pump.resolve("trials/20260110T080000Z/trace.csv"), 300);
    assertThat(entered(old, InputChoice.DEFAULT, pump).corrected())
        .as("a changed file is looked at again")
        .isEqualTo(1);
  }

  @Test
  void anUnknownAssetIsNamed() throws Exception {
    assertThatThrownBy(
            () -> new ReanalyzeStarts(old, logbooks).run(List.of("X"), book(), Progress.NONE))
        .isInstanceOf(UsageProblem.class)
        .hasMessageContaining("X: has no starts");
  }
}
