package rampwright.app.architecture;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Every rule holds for the program, and catches the class planted to break it. */
class ArchitectureTest {
  private static JavaClasses program;
  private static JavaClasses planted;

  @BeforeAll
  static void read() {
    program =
        new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("rampwright");
    planted =
        new ClassFileImporter()
            .withImportOption(location -> location.contains("/planted/"))
            .importPackages("rampwright");
  }

  private static Arguments rule(String name, ArchRule rule, String plantedClass) {
    return Arguments.of(Named.of(name, rule), plantedClass);
  }

  static Stream<Arguments> rules() {
    return Stream.of(
        rule(
            "analysis is arithmetic",
            LayerRules.ANALYSIS_IS_ARITHMETIC,
            "rampwright.analysis.planted.ReadsAFile"),
        rule(
            "vocabulary stands alone",
            LayerRules.VOCABULARY_STANDS_ALONE,
            "rampwright.analysis.trace.planted.KnowsFigures"),
        rule(
            "acquisition sees the vocabulary only",
            LayerRules.ACQUISITION_SEES_THE_VOCABULARY_ONLY,
            "rampwright.acquisition.planted.KnowsFigures"),
        rule(
            "the bench sees the machine besides",
            LayerRules.THE_BENCH_SEES_THE_MACHINE_BESIDES,
            "rampwright.acquisition.bench.planted.KnowsFigures"),
        rule(
            "views see models only",
            LayerRules.VIEWS_SEE_MODELS_ONLY,
            "rampwright.app.desk.view.planted.CallsAUseCase"),
        rule(
            "commands do not know the desk",
            LayerRules.COMMANDS_DO_NOT_KNOW_THE_DESK,
            "rampwright.app.cli.planted.KnowsTheDesk"),
        rule(
            "the desk does not know commands",
            LayerRules.THE_DESK_DOES_NOT_KNOW_COMMANDS,
            "rampwright.app.desk.view.planted.KnowsCommands"),
        rule(
            "use cases do not know their callers",
            LayerRules.USE_CASES_DO_NOT_KNOW_THEIR_CALLERS,
            "rampwright.app.usecase.planted.KnowsCommands"),
        rule(
            "heat looks at current alone",
            LayerRules.HEAT_LOOKS_AT_CURRENT_ALONE,
            "rampwright.analysis.heat.planted.AsksTheModel"),
        rule("no cycles", LayerRules.NO_CYCLES, "rampwright.app.planted.one.NeedsTwo"),
        rule(
            "modbus library",
            LibraryRules.MODBUS_LIBRARY,
            "rampwright.app.planted.UsesEveryLibrary"),
        rule(
            "nothing writes to a device",
            LibraryRules.NOTHING_WRITES_TO_A_DEVICE,
            "rampwright.app.planted.UsesEveryLibrary"),
        rule(
            "serial library",
            LibraryRules.SERIAL_LIBRARY,
            "rampwright.app.planted.UsesEveryLibrary"),
        rule("sockets", LibraryRules.SOCKETS, "rampwright.app.planted.UsesEveryLibrary"),
        rule("databases", LibraryRules.DATABASES, "rampwright.app.planted.UsesEveryLibrary"),
        rule(
            "Parquet library",
            LibraryRules.PARQUET_LIBRARY,
            "rampwright.app.planted.UsesEveryLibrary"),
        rule("files", LibraryRules.FILES, "rampwright.analysis.planted.ReadsAFile"),
        rule("windows", LibraryRules.WINDOWS, "rampwright.app.planted.UsesEveryLibrary"),
        rule(
            "command-line library",
            LibraryRules.COMMAND_LINE_LIBRARY,
            "rampwright.app.planted.UsesEveryLibrary"),
        rule(
            "table library", LibraryRules.TABLE_LIBRARY, "rampwright.app.planted.UsesEveryLibrary"),
        rule("TOML library", LibraryRules.TOML_LIBRARY, "rampwright.app.planted.UsesEveryLibrary"),
        rule(
            "template library",
            LibraryRules.TEMPLATE_LIBRARY,
            "rampwright.app.planted.UsesEveryLibrary"),
        rule(
            "paper library", LibraryRules.PAPER_LIBRARY, "rampwright.app.planted.UsesEveryLibrary"),
        rule("JSON library", LibraryRules.JSON_LIBRARY, "rampwright.app.planted.UsesEveryLibrary"),
        rule(
            "clocks only in the launcher",
            CodeRules.CLOCKS_ONLY_IN_THE_LAUNCHER,
            "rampwright.app.planted.BreaksCodeRules"),
        rule(
            "streams only in commands",
            CodeRules.STREAMS_ONLY_IN_COMMANDS,
            "rampwright.app.planted.BreaksCodeRules"),
        rule(
            "exit only in the launcher",
            CodeRules.EXIT_ONLY_IN_THE_LAUNCHER,
            "rampwright.app.planted.BreaksCodeRules"),
        rule(
            "no bare exceptions",
            CodeRules.NO_BARE_EXCEPTIONS,
            "rampwright.app.planted.BreaksCodeRules"),
        rule(
            "no text without a locale",
            CodeRules.NO_TEXT_WITHOUT_A_LOCALE,
            "rampwright.app.planted.BreaksCodeRules"),
        rule(
            "no unseeded chance",
            CodeRules.NO_UNSEEDED_CHANCE,
            "rampwright.app.planted.BreaksCodeRules"),
        rule(
            "analysis does not change",
            CodeRules.ANALYSIS_DOES_NOT_CHANGE,
            "rampwright.analysis.planted.Changes"),
        rule(
            "nobody declares throws Exception",
            CodeRules.NOBODY_DECLARES_THROWS_EXCEPTION,
            "rampwright.app.planted.BreaksCodeRules"));
  }

  @ParameterizedTest
  @MethodSource("rules")
  void theProgramKeepsTheRule(ArchRule rule, String plantedClass) {
    rule.allowEmptyShould(true).check(program);
  }

  @ParameterizedTest
  @MethodSource("rules")
  void theRuleCatchesWhatIsPlanted(ArchRule rule, String plantedClass) {
    List<String> violations =
        rule.allowEmptyShould(true).evaluate(planted).getFailureReport().getDetails();
    assertThat(violations).anyMatch(line -> line.contains(plantedClass));
    assertThat(rule.getDescription()).as("a rule says why").contains("because");
  }

  @Test
  void allThreeModulesAreLookedAt() {
    assertThat(program.contain("rampwright.analysis.figure.TraceAnalyzer")).isTrue();
    assertThat(program.contain("rampwright.acquisition.file.ColumnMapping")).isTrue();
    assertThat(program.contain("rampwright.app.Launcher")).isTrue();
    assertThat(program.stream().noneMatch(c -> c.getName().contains(".planted."))).isTrue();
  }
}
