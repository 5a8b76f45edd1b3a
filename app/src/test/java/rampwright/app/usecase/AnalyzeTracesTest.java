package rampwright.app.usecase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.analysis.figure.TraceAnalyzer;
import rampwright.analysis.trace.TraceKind;
import rampwright.app.asset.Examples;
import rampwright.app.fixture.ToyAnalyzer;
import rampwright.app.fixture.ToyDoor;
import rampwright.app.fixture.Workshop;
import rampwright.app.json.ResultSchemaValidator;
import rampwright.app.result.Batch;
import rampwright.app.result.Entry;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;

class AnalyzeTracesTest {
  @TempDir private Path folder;
  private final ToyDoor door = new ToyDoor();
  private final AnalyzeTraces analyze = new AnalyzeTraces(door, new ToyAnalyzer(), "1.2.3", 4);
  private Workshop workshop;

  @BeforeEach
  void open() {
    workshop = new Workshop(folder);
  }

  private Batch run(Path... named) throws Exception {
    return analyze.run(List.of(named), InputChoice.DEFAULT, true, Progress.NONE);
  }

  @Test
  void aLooseTraceIsAnalysedWithoutAnAsset() throws Exception {
    Path trace = Workshop.trace(folder.resolve("x.csv"), 100);
    Batch batch = run(trace);
    assertThat(batch.single()).isTrue();
    TrialResult result = batch.results().get(0);
    assertThat(result.asset()).isNull();
    assertThat(result.verdicts()).isEmpty();
    assertThat(result.toolVersion()).isEqualTo("1.2.3");
    assertThat(batch.standing()).isEqualTo(Batch.Standing.DONE);
  }

  @Test
  void anAssetFolderGivesEveryTrialWithItsVerdictAndKeepsTheFigures() throws Exception {
    Path pump = workshop.asset("pump");
    Path good = workshop.trial(pump, "20260101T080000Z", 480);
    Path hot = workshop.trial(pump, "20260102T080000Z", 800);
    Batch batch = run(pump);
    assertThat(batch.single()).isFalse();
    assertThat(batch.results()).hasSize(2);
    assertThat(batch.results().get(0).verdicts().get(0).met()).isTrue();
    assertThat(batch.results().get(1).verdicts().get(0).met()).isFalse();
    assertThat(batch.standing()).isEqualTo(Batch.Standing.MISSED);
    for (Path trial : List.of(good, hot)) {
      String kept = Files.readString(trial.resolve("figures.json"));
      assertThat(ResultSchemaValidator.problems(kept)).isEmpty();
      assertThat(kept).startsWith("{").contains("\"trace\"", "\"sha256\"", "\"1.2.3\"");
    }
  }

  @Test
  void aTraceOfATrialFindsItsAssetAndSettingsButKeepsNothing() throws Exception {
    Path pump = workshop.asset("pump");
    Path trial = workshop.trial(pump, "one", 480);
    Files.writeString(
        trial.resolve("settings.toml"),
        "[trial]\ncorrected = { full_speed_s = 9, reason = \"slip\" }\n"
            + "[columns]\ni1 = { index = 2 }\n");
    TrialResult result = run(trial.resolve("trace.csv")).results().get(0);
    assertThat(result.asset()).isNotNull();
    assertThat(result.figures().starts().get(0).figures().get("start_time_s").value())
        .as("the correction reaches the analysis")
        .isEqualTo(7.0);
    assertThat(door.asked.get(0).columns().rules()).containsKey("i1");
    assertThat(trial.resolve("figures.json")).doesNotExist();
    run(trial);
    assertThat(trial.resolve("figures.json")).exists();
  }

  @Test
  void anImpossibleCorrectionIsRefusedWithTheFileItStandsIn() throws Exception {
    Path pump = workshop.asset("pump");
    Path trial = workshop.trial(pump, "one", 480);
    Files.writeString(
        trial.resolve("settings.toml"),
        "[trial]\ncorrected = { full_speed_s = 9, reason = \"slip\" }\n");
    Batch batch =
        new AnalyzeTraces(door, TraceAnalyzer::analyze, "1.2.3", 4)
            .run(List.of(pump), InputChoice.DEFAULT, true, Progress.NONE);
    assertThat(batch.failures()).hasSize(1);
    assertThat(batch.failures().get(0).error())
        .contains(
            "settings.toml: [trial] corrected full_speed_s = 9.000 s lies outside the record");
  }

  @Test
  void oneBadTrialDoesNotStopTheRest() throws Exception {
    Path pump = workshop.asset("pump");
    workshop.trial(pump, "a", 480);
    Path bad = workshop.trial(pump, "b", 480);
    Files.writeString(bad.resolve("trace.csv"), "time_s,i1_A\n0,zero\n");
    Path twice = workshop.trial(pump, "c", 480);
    Files.writeString(twice.resolve("trace.cff"), "");
    Path settings = workshop.trial(pump, "d", 480);
    Files.writeString(settings.resolve("settings.toml"), "stop = \"sift\"\n");
    Path defect = workshop.trial(pump, "e", 480);
    Files.writeString(defect.resolve("trace.csv"), "defect\n");
    workshop.trial(pump, "f", 400);
    Batch batch = run(pump);
    assertThat(batch.results()).hasSize(2);
    assertThat(batch.failures()).hasSize(4);
    assertThat(batch.failures().get(0).error()).contains("line 2 column 2: 'zero' is no number");
    assertThat(batch.failures().get(1).error()).contains("more than one trace");
    assertThat(batch.failures().get(2).error()).contains("did you mean soft?");
    assertThat(batch.failures().get(3).error()).contains("a defect of this program");
    assertThat(batch.entries()).extracting(Entry::file).isSorted();
    assertThat(batch.standing()).isEqualTo(Batch.Standing.FAILED);
  }

  @Test
  void aTrialNotedByHandIsKeptApart() throws Exception {
    Path pump = workshop.asset("pump");
    Path trial = Files.createDirectories(pump.resolve("trials/one"));
    Files.writeString(trial.resolve("settings.toml"), Examples.SETTINGS);
    Batch batch = run(pump);
    assertThat(batch.results()).isEmpty();
    NotedTrial noted = (NotedTrial) batch.entries().get(0);
    assertThat(noted.seen().outcome()).isEqualTo("completed");
    assertThat(noted.verdict()).isNotNull();
    assertThat(noted.verdict().limits().get(0).met()).isTrue();
    assertThat(batch.standing())
        .as("what was not measured counts for nothing")
        .isEqualTo(Batch.Standing.DONE);
    assertThat(trial.resolve("figures.json")).doesNotExist();
  }

  @Test
  void aTrialWithNeitherTraceNorNoteSaysWhatToAdd() throws Exception {
    Path pump = workshop.asset("pump");
    Path trial = Files.createDirectories(pump.resolve("trials/one"));
    Files.writeString(trial.resolve("settings.toml"), "stop = \"soft\"\n");
    assertThat(run(pump).failures().get(0).error()).contains("add trace.csv, or a [seen] table");
  }

  @Test
  void manyTrialsComeInOrderWhateverFinishesFirst() throws Exception {
    Path pump = workshop.asset("pump");
    for (int i = 0; i < 40; i++) {
      workshop.trial(pump, "t" + (100 + i), 400 + i);
    }
    List<String> done = new ArrayList<>();
    Progress progress =
        new Progress() {
          @Override
          public void begun(int total) {
            done.add("begun " + total);
          }

          @Override
          public void done(String name, boolean failed) {
            synchronized (done) {
              done.add(name);
            }
          }

          @Override
          public void ended() {
            done.add("ended");
          }
        };
    Batch batch = analyze.run(List.of(pump), InputChoice.DEFAULT, false, progress);
    assertThat(batch.entries()).extracting(Entry::file).isSorted();
    assertThat(
            batch
                .results()
                .get(7)
                .figures()
                .starts()
                .get(0)
                .figures()
                .get("peak_current_A")
                .value())
        .isEqualTo(407.0);
    assertThat(done).hasSize(42).startsWith("begun 40").endsWith("ended");
  }

  @Test
  void aFolderOfAssetFoldersGivesThemAll() throws Exception {
    workshop.trial(workshop.asset("plant/pump"), "a", 480);
    workshop.trial(workshop.asset("plant/fan"), "a", 480);
    assertThat(run(folder.resolve("plant")).results()).hasSize(2);
  }

  @Test
  void foldersThatHoldNothingSaySo() throws Exception {
    Path empty = Files.createDirectories(folder.resolve("empty"));
    assertThat(run(empty).failures().get(0).error()).contains("neither an asset folder");
    Path pump = workshop.asset("pump");
    assertThat(run(pump).failures().get(0).error()).contains("has no trials yet");
    assertThat(run(folder.resolve("nope.csv")).failures().get(0).error())
        .contains("no such file or folder");
    assertThatThrownBy(() -> run()).isInstanceOf(UsageProblem.class);
  }

  @Test
  void aTraceBesideTheAssetIsATrialToo() throws Exception {
    Path flat = workshop.asset("flat");
    Workshop.trace(flat.resolve("trace.csv"), 480);
    Batch batch = run(flat);
    assertThat(batch.results()).hasSize(1);
    assertThat(flat.resolve("figures.json")).exists();
  }

  @Test
  void whatIsChosenGoesBeforeWhatIsFound() throws Exception {
    Path pump = workshop.asset("pump");
    Path other = workshop.asset("other", Examples.assetWith("\"BP-2\"", "\"XX-9\""));
    Path trial = workshop.trial(pump, "one", 480);
    Path trace = trial.resolve("trace.csv");
    Path columns =
        Files.writeString(folder.resolve("c.toml"), "[columns]\nspeed = { index = 9 }\n");
    Path settings = Files.writeString(folder.resolve("s.toml"), "stop = \"coast\"\n");
    InputChoice choice = new InputChoice(other, settings, columns, TraceKind.RMS, true, Map.of());
    TrialResult result = analyze.run(List.of(trace), choice, false, Progress.NONE).results().get(0);
    assertThat(result.asset()).isNotNull();
    assertThat(result.asset().asset().id()).isEqualTo("XX-9");
    assertThat(result.trial().settings().stop()).isNotNull();
    assertThat(door.asked.get(0).columns().rules()).containsOnlyKeys("speed");
    assertThat(door.asked.get(0).declaredKind()).isEqualTo(TraceKind.RMS);
    assertThat(door.asked.get(0).secondary()).isTrue();
  }

  @Test
  void aBrokenAssetFileIsTheErrorOfItsTrials() throws Exception {
    Path pump =
        workshop.asset("pump", Examples.assetWith("power_factor = 0.87", "power_factor = 87"));
    workshop.trial(pump, "a", 480);
    assertThat(run(pump).failures().get(0).error())
        .contains("asset.toml line 12: [motor] power_factor = 87 is outside 0.3 to 1");
  }

  @Test
  void figuresThatCannotBeKeptAreStillShown() throws Exception {
    Path pump = workshop.asset("pump");
    Path trial = workshop.trial(pump, "a", 480);
    Files.createDirectories(trial.resolve("figures.json/in the way"));
    TrialResult result = run(pump).results().get(0);
    assertThat(result.remarks()).anyMatch(line -> line.startsWith("figures were not kept: "));
    assertThat(result.figures().starts()).hasSize(1);
  }

  @Test
  void anEnvelopeWithoutAStartIsNotAssessable() throws Exception {
    Path pump = workshop.asset("pump");
    workshop.trial(pump, "a", 0);
    assertThat(run(pump).standing()).isEqualTo(Batch.Standing.NOT_ASSESSABLE);
  }
}
