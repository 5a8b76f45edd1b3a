package rampwright.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.app.asset.Examples;
import rampwright.app.fixture.ToyAnalyzer;
import rampwright.app.fixture.ToyDoor;
import rampwright.app.fixture.Workshop;
import rampwright.app.json.ResultSchemaValidator;
import rampwright.app.usecase.ChartRenderer;

/** The commands in this process: exit codes, results on one stream, talk on the other. */
class TerminalTest {
  @TempDir private Path folder;
  private final ToyDoor door = new ToyDoor();
  private final List<ChartRenderer.Request> drawn = new ArrayList<>();
  private Workshop workshop;
  private Instant now = Instant.parse("2026-03-14T12:00:00Z");
  private String out = "";
  private String err = "";

  @BeforeEach
  void open() {
    workshop = new Workshop(folder);
  }

  private int run(Object... words) {
    StringWriter results = new StringWriter();
    StringWriter talk = new StringWriter();
    Services services =
        new Services(
            door,
            new ToyAnalyzer(),
            request -> {
              if (request.target().toString().contains("nowhere")) {
                throw new IOException("disk is full");
              }
              drawn.add(request);
            },
            (advised, target, size) -> {
              throw new IOException("this test draws no predictions");
            },
            (result, target, size) -> Files.writeString(target, "picture"),
            (readiness, target, size) -> Files.writeString(target, "picture"),
            into -> {
              workshop.trial(new Workshop(into).asset("pump"), "one", 480);
              workshop.trial(into.resolve("pump"), "two", 900);
              return 1;
            },
            "1.2.3",
            2,
            () -> now,
            name -> null);
    String[] args = new String[words.length];
    for (int i = 0; i < args.length; i++) {
      args[i] = words[i].toString();
    }
    int exit = new Terminal(new Screen(results, talk, false), services).run(args);
    out = results.toString();
    err = talk.toString();
    return exit;
  }

  private Path pump(double... largestA) throws IOException {
    Path pump = workshop.asset("pump");
    for (int i = 0; i < largestA.length; i++) {
      workshop.trial(pump, "t" + i, largestA[i]);
    }
    return pump;
  }

  private void assertValid() {
    assertThat(ResultSchemaValidator.problems(out)).as(out).isEmpty();
  }

  @Test
  void aLooseTraceIsDone() throws Exception {
    Path trace = Workshop.trace(folder.resolve("x.csv"), 100);
    assertThat(run("analyze", trace)).isEqualTo(0);
    assertThat(out)
        .contains("Start 1 of 1: completed", "start time", "100.000  0.020", "not to be had:")
        .contains("no speed channel: shaft begins to turn", "late-breakaway", "read as: i1_A")
        .doesNotContain("Verdict");
    assertThat(err).isEmpty();
  }

  @Test
  void exitCodesFollowTheVerdict() throws Exception {
    assertThat(run("analyze", pump(480))).isEqualTo(0);
    assertThat(out).contains("Verdict: MET", "14.3 % inside");
    assertThat(run("analyze", pump(480, 800), "--no-keep")).isEqualTo(3);
    assertThat(out).contains("missed: peak current / rated", "envelope met 1, missed 1");
    assertThat(run("compare", pump(480).resolve("trials/t0"))).isEqualTo(0);
    assertThat(run("compare", pump(480, 800).resolve("trials/t1"))).isEqualTo(3);
    assertThat(out).contains("Verdict: MISSED", "42.9 % above");
  }

  @Test
  void whatCannotBeAssessedEndsInFour() throws Exception {
    Path asset =
        workshop.asset(
            "fan", Examples.assetWith("[envelope]\n", "[envelope]\nthd_pct = { max = 20 }\n"));
    workshop.trial(asset, "one", 480);
    assertThat(run("compare", asset, "--json")).isEqualTo(4);
    assertValid();
    assertThat(out).contains("\"met\" : null".replace(" :", ":"), "this trace does not give it");
  }

  @Test
  void theWorstOfABatchCounts() throws Exception {
    Path pump = pump(480, 800);
    Path bad = workshop.trial(pump, "t9", 1);
    Files.writeString(bad.resolve("trace.csv"), "");
    assertThat(run("analyze", pump)).isEqualTo(6);
    assertThat(out)
        .contains("not read: ", "is empty; record the trace anew", "2 analysed, 1 not read");
    assertThat(run("analyze", pump, "--json")).isEqualTo(6);
    assertValid();
    assertThat(err).contains("is empty; record the trace anew");
  }

  @Test
  void jsonOfOneTraceIsTheResultItself() throws Exception {
    assertThat(run("analyze", pump(480).resolve("trials/t0"), "--json")).isEqualTo(0);
    assertValid();
    assertThat(out).startsWith("{\n  \"trace\"");
    assertThat(run("compare", pump(480).resolve("trials/t0"), "--json")).isEqualTo(0);
    assertValid();
    assertThat(out).contains("\n  \"verdict\": {\n    \"met\": true");
  }

  @Test
  void jsonOfAFolderListsResults() throws Exception {
    assertThat(run("analyze", pump(480), "--json")).isEqualTo(0);
    assertValid();
    assertThat(out).startsWith("{\n  \"results\"");
  }

  @Test
  void csvIsTheSummary() throws Exception {
    assertThat(run("analyze", pump(480, 470), "--csv")).isEqualTo(0);
    assertThat(out.lines()).hasSize(3);
    assertThat(out).startsWith("file,asset,source,start,outcome");
    Path file = folder.resolve("sum.csv");
    assertThat(run("analyze", pump(480), "--summary", file, "--json")).isEqualTo(0);
    assertThat(file).content().startsWith("file,asset");
    assertThat(run("analyze", pump(480), "--csv", "--json")).isEqualTo(2);
  }

  @Test
  void aTableNamesTheAssetsOfLooseFiles() throws Exception {
    pump(480);
    Path a = Workshop.trace(folder.resolve("a.csv"), 480);
    Path b = Workshop.trace(folder.resolve("b.csv"), 480);
    Path table = Files.writeString(folder.resolve("table.csv"), "file,asset\na.csv,pump\n");
    assertThat(run("analyze", a, b, "--assets", table, "--csv")).isEqualTo(0);
    assertThat(out.lines().toList().get(1)).contains("a.csv,BP-2,measured");
    assertThat(out.lines().toList().get(2)).contains("b.csv,,measured");
  }

  @Test
  void howShowsWindowAndRule() throws Exception {
    Path trace = Workshop.trace(folder.resolve("x.csv"), 100);
    run("analyze", trace, "--how");
    assertThat(out).contains("2.000 to 10.000", "made up", "first flowing reading");
    run("analyze", trace);
    assertThat(out).doesNotContain("made up");
  }

  @Test
  void detailsPrintEveryTrialWhole() throws Exception {
    run("analyze", pump(480, 470), "--details");
    assertThat(out.split("Start 1 of 1")).hasSize(3);
    run("analyze", pump(480, 470));
    assertThat(out).doesNotContain("Start 1 of 1");
  }

  @Test
  void badUsageEndsInTwoAndSaysWhatToWrite() throws Exception {
    assertThat(run("analyse", "x")).isEqualTo(2);
    assertThat(err).contains("did you mean analyze");
    assertThat(run("analyze")).isEqualTo(2);
    assertThat(err).contains("TRACE|FOLDER", "see: rampwright analyze --help");
    assertThat(run("analyze", "x", "--kind", "peak")).isEqualTo(2);
    assertThat(err).contains("'peak' is not a kind; write waveform or rms");
    assertThat(run("analyze", "x", "--jsn")).isEqualTo(2);
    assertThat(run()).isEqualTo(2);
    assertThat(err).contains("begin with: demo");
    Path trace = Workshop.trace(folder.resolve("x.csv"), 100);
    assertThat(run("compare", trace)).isEqualTo(2);
    assertThat(err).contains("--asset FILE");
    assertThat(run("chart", trace, "-o", "x.bmp")).isEqualTo(2);
    assertThat(run("chart", trace, "--size", "10x10")).isEqualTo(2);
    assertThat(run("convert", trace, folder.resolve("y.xyz"))).isEqualTo(2);
    assertThat(run("convert", trace, folder.resolve("y"), "--format", "xyz")).isEqualTo(2);
  }

  @Test
  void anEnvelopeIsNeededToCompare() throws Exception {
    String text = Examples.ASSET.substring(0, Examples.ASSET.indexOf("[envelope]"));
    Path asset = workshop.asset("bare", text);
    workshop.trial(asset, "one", 480);
    assertThat(run("compare", asset)).isEqualTo(2);
    assertThat(err).contains("has no [envelope] to compare with");
  }

  @Test
  void aFileAtFaultEndsInSixAlsoAsJson() {
    assertThat(run("analyze", folder.resolve("nope.csv"), "--json")).isEqualTo(6);
    assertValid();
    assertThat(out).contains("\"error\"");
    assertThat(err).contains("there is no such file or folder");
    assertThat(run("compare", folder.resolve("a"), folder.resolve("b"), "--json")).isEqualTo(6);
    assertValid();
  }

  @Test
  void aDefectEndsInOneWithoutAStackTrace() throws Exception {
    Path trace = Files.writeString(folder.resolve("x.csv"), "defect\n");
    assertThat(run("analyze", trace)).isEqualTo(1);
    assertThat(err).contains("a defect of the program, not of your data").contains("made to fail");
    assertThat(err.lines()).hasSize(1);
  }

  @Test
  void twoTracesAreSetSideBySide() throws Exception {
    Path a = Workshop.trace(folder.resolve("a.csv"), 100);
    Path b = Workshop.trace(folder.resolve("b.csv"), 110);
    assertThat(run("compare", a, b, "--chart", folder.resolve("d.png"))).isEqualTo(0);
    assertThat(out).contains("peak current").contains("10.000").contains("yes");
    assertThat(drawn).hasSize(1);
    assertThat(drawn.get(0).picture()).isEqualTo(ChartRenderer.Picture.DIFFERENCE);
    assertThat(run("compare", a, b, "--json")).isEqualTo(0);
    assertValid();
    assertThat(run("compare", a, b, "--asset", pump())).isEqualTo(0);
    assertThat(out).contains("Verdict on A: MET", "Verdict on B: MET");
  }

  @Test
  void chartsAreDrawnAndTheirFailureIsTheStorages() throws Exception {
    Path pump = pump(480, 470);
    assertThat(run("chart", pump, "-o", folder.resolve("c.svg"), "--size", "800x600")).isEqualTo(0);
    assertThat(drawn.get(0).picture()).isEqualTo(ChartRenderer.Picture.OVERLAY);
    assertThat(drawn.get(0).widthPx()).isEqualTo(800);
    assertThat(drawn.get(0).envelope().limits()).hasSize(3);
    assertThat(run("chart", pump.resolve("trials/t0"), "-o", "nowhere.png")).isEqualTo(6);
    assertThat(err).contains("disk is full");
  }

  @Test
  void aTraceIsConvertedByItsEnding() throws Exception {
    Path trace = Workshop.trace(folder.resolve("x.csv"), 100);
    Path target = folder.resolve("y.cff");
    assertThat(run("convert", trace, target)).isEqualTo(0);
    assertThat(target).content().isEqualTo("COMTRADE_FLOAT32 3");
    assertThat(out).contains("written: " + target);
    assertThat(err).contains("read as: i1_A");
    assertThat(run("convert", trace, target, "--json")).isEqualTo(2);
    assertThat(err).contains("is there already");
    assertValid();
    assertThat(run("convert", trace, target, "--overwrite", "--format", "csv", "--json"))
        .isEqualTo(0);
    assertThat(target).content().isEqualTo("CSV 3");
    assertValid();
  }

  @Test
  void theDemoRunsTheMainJobAndSaysWhereItIs() {
    Path into = folder.resolve("demo");
    assertThat(run("demo", "--into", into)).isEqualTo(0);
    assertThat(out).contains("envelope met 1, missed 1", "Everything is left in " + into);
    assertThat(into.resolve("pump/trials/one/figures.json")).exists();
    assertThat(drawn).hasSize(2);
    assertThat(run("demo", "--into", into, "--json")).as("again into its own folder").isEqualTo(0);
    assertValid();
  }

  @Test
  void theDemoLeavesForeignFoldersAlone() throws Exception {
    Files.writeString(folder.resolve("mine.txt"), "x");
    assertThat(run("demo", "--into", folder)).isEqualTo(2);
    assertThat(err).contains("holds something else already");
  }

  @Test
  void schemaPrintsTheSchema() {
    assertThat(run("schema")).isEqualTo(0);
    assertThat(out).contains("https://json-schema.org/draft/2020-12/schema");
  }

  @Test
  void completionPrintsAScriptThatKnowsEveryCommand() {
    assertThat(run("completion")).isEqualTo(0);
    assertThat(out).contains("analyze", "--assets", "convert");
    assertThat(run("completion", "--json")).isEqualTo(0);
    assertValid();
  }

  @ParameterizedTest
  @ValueSource(strings = {"demo", "analyze", "compare", "convert", "chart", "schema", "completion"})
  void everyCommandTeachesItselfAndTakesJson(String command) {
    assertThat(run(command, "--help")).isEqualTo(0);
    assertThat(out).contains("Example", "--json", "Exit codes:", "envelope missed");
    assertThat(run("--help")).isEqualTo(0);
    assertThat(out).contains("  " + command);
  }

  @Test
  void theVersionIsPrinted() {
    assertThat(run("--version")).isEqualTo(0);
    assertThat(out).isEqualTo("rampwright 1.2.3\n");
  }

  @Test
  void nothingInAFileOrANameSteersTheTerminal() throws Exception {
    Path asset =
        workshop.asset(
            "bell",
            Examples.assetWith("Booster pump 2", "pump \\u001b[2J\\u202e\\u0007")
                .replace("peak_current_ratio = { max = 3.5 }", ""));
    workshop.trial(asset, "one", 480);
    run("analyze", asset);
    assertThat(out)
        .contains("pump \\x1b[2JU+202e\\x07")
        .doesNotContain("\u001b", "\u0007", "\u202e");
    run("analyze", "\u001b[31mred", "--kind", "\u001b[0m");
    assertThat(err).doesNotContain("\u001b");
    Path trace = Files.writeString(folder.resolve("x.csv"), "time_s,i1_A\n0,\u001b]0;x\u0007\n");
    run("analyze", trace);
    assertThat(err).contains("\\x1b]0;x\\x07").doesNotContain("\u001b");
    Path odd = Workshop.trace(folder.resolve("a\u001b[2J\u009bm\u202e.csv"), 100);
    for (String option : new String[] {"--json", "--csv", "--how"}) {
      assertThat(run("analyze", odd, trace, option)).isEqualTo(6);
      assertThat(out + err).as(option).doesNotContain("\u001b", "\u009b", "\u202e", "\u0007");
    }
    run("analyze", odd, trace, "--json");
    assertValid();
  }

  @Test
  void aTrialNotedByHandIsShownAsSuch() throws Exception {
    Path pump = workshop.asset("pump");
    Path trial = Files.createDirectories(pump.resolve("trials/one"));
    Files.writeString(trial.resolve("settings.toml"), Examples.SETTINGS);
    assertThat(run("analyze", pump)).isEqualTo(0);
    assertThat(out)
        .contains("noted by hand, not measured", "NOT REPRESENTATIVE: valve was shut")
        .contains("corrected by a person: full_speed_s = 12.400 (speed pickup slipped)")
        .contains("clamp meter and watch", "3.5 x motor rated = 3.294 x starter rated");
    assertThat(run("analyze", pump, "--json")).isEqualTo(0);
    assertValid();
  }

  @Test
  void heatAnswersInWordsAndJson() throws Exception {
    Path pump = pump(480);
    assertThat(run("heat", pump)).isEqualTo(0);
    assertThat(out).contains("heat account at", "rotor", "starts per hour", "no protective device");
    assertThat(run("heat", pump, "--json")).isEqualTo(0);
    assertValid();
    assertThat(out).contains("\"as_of\"", "\"next_start_in_s\"", "\"ruled_by\"", "\"parts\"");
    assertThat(run("heat", pump, "--chart", folder.resolve("heat.png"))).isEqualTo(0);
    assertThat(folder.resolve("heat.png")).exists();
    assertThat(run("heat", pump, "--cold-at", "2026-03-14T06:00:00Z", "--by", "A. Fitter"))
        .isEqualTo(0);
    assertThat(pump.resolve("heat.toml")).content().contains("A. Fitter");
  }

  @Test
  void heatRefusesWhatItCannotDo() throws Exception {
    Path pump = pump(480);
    assertThat(run("heat", folder.resolve("nothing"))).isEqualTo(2);
    assertThat(run("heat", pump, "--at", "noon")).isEqualTo(2);
    assertThat(err).contains("is not a moment");
    assertThat(run("heat", pump, "--cold-at", "2026-03-14T06:00:00Z")).isEqualTo(2);
    assertThat(err).contains("needs --by NAME");
    assertThat(run("heat", pump, "--by", "A")).isEqualTo(2);
    Files.writeString(pump.resolve("heat.toml"), "[account\n");
    assertThat(run("heat", pump, "--json")).isEqualTo(6);
    assertValid();
    assertThat(err).contains("heat.toml");
  }

  @Test
  void otherCommandsEndWithTheAccountInALine() throws Exception {
    Path pump = pump(480);
    run("analyze", pump, "--no-keep");
    assertThat(out).contains("Heat account: ");
    run("compare", pump);
    assertThat(out).contains("Heat account: ");
  }

  @Test
  void readySaysWhatHolds() throws Exception {
    Path pump = workshop.asset("pump");
    assertThat(run("ready", pump)).isEqualTo(0);
    assertThat(out).contains("nameplate current", "no settings known", "0 of 20 checks ticked");
    assertThat(run("ready", pump, "--json", "--sources")).isEqualTo(0);
    assertValid();
    Files.writeString(
        pump.resolve("settings.toml"),
        "control = \"torque ramp\"\ncurrent_limit_ratio = 1.5\nramp_up_s = 8\ninitial_torque_pct = 10\n");
    assertThat(run("ready", pump, "--sources")).isEqualTo(3);
    assertThat(out).contains("HOLD  settings start the load", "rule: motor model");
    assertThat(run("ready", pump, "--json")).isEqualTo(3);
    assertValid();
    assertThat(run("ready", pump, "--chart", folder.resolve("up.png"))).isEqualTo(3);
    assertThat(folder.resolve("up.png")).exists();
  }

  @Test
  void theListIsTickedByName() throws Exception {
    Path pump = workshop.asset("pump");
    assertThat(run("ready", pump, "--tick", "3", "--by", "A. Fitter")).isEqualTo(0);
    assertThat(out).contains("! Electricity", " 3 [x] mounting", "ticked by A. Fitter");
    assertThat(run("ready", pump, "--list", "--json")).isEqualTo(0);
    assertValid();
    assertThat(run("ready", pump, "--tick", "3")).isEqualTo(2);
    assertThat(err).contains("needs --by NAME");
    assertThat(run("ready", pump, "--by", "A")).isEqualTo(2);
    assertThat(run("ready", pump, "--untick", "3", "--by", "A. Fitter")).isEqualTo(0);
    assertThat(out).contains(" 3 [ ] mounting");
  }
}
