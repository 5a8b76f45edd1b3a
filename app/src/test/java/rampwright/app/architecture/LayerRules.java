package rampwright.app.architecture;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.lang.ArchRule;

/** Who may know whom. */
final class LayerRules {
  private static final String ROOT = "rampwright.app";

  private LayerRules() {}

  static final ArchRule ANALYSIS_IS_ARITHMETIC =
      noClasses()
          .that()
          .resideInAPackage("rampwright.analysis..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "java.io..",
              "java.nio.file..",
              "java.nio.channels..",
              "java.net..",
              "java.util.concurrent..",
              "java.awt..",
              "javax.swing..",
              "java.sql..",
              "com.fazecast..",
              "com.ghgande..",
              "picocli..",
              "rampwright.acquisition..",
              "rampwright.app..")
          .because("arithmetic can be trusted and tested when it touches no file, net or screen");

  static final ArchRule VOCABULARY_STANDS_ALONE =
      classes()
          .that()
          .resideInAnyPackage("rampwright.analysis.quantity..", "rampwright.analysis.trace..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage(
              "rampwright.analysis.quantity..",
              "rampwright.analysis.trace..",
              "java.lang..",
              "java.util..",
              "java.time..",
              "java.nio",
              "org.jspecify..")
          .because("the words everybody shares must not drag anything along");

  static final ArchRule ACQUISITION_SEES_THE_VOCABULARY_ONLY =
      noClasses()
          .that()
          .resideInAPackage("rampwright.acquisition..")
          .and()
          .resideOutsideOfPackage("rampwright.acquisition.bench..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "rampwright.app..",
              "rampwright.analysis.figure..",
              "rampwright.analysis.heat..",
              "rampwright.analysis.machine..",
              "rampwright.analysis.fit..")
          .because("bytes become traces without knowing what will be made of them");

  static final ArchRule THE_BENCH_SEES_THE_MACHINE_BESIDES =
      noClasses()
          .that()
          .resideInAPackage("rampwright.acquisition.bench..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "rampwright.app..",
              "rampwright.analysis.figure..",
              "rampwright.analysis.heat..",
              "rampwright.analysis.fit..")
          .because("the virtual plant needs the motor model and nothing that measures it");

  static final ArchRule VIEWS_SEE_MODELS_ONLY =
      noClasses()
          .that()
          .resideInAPackage("rampwright.app.desk.view..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "rampwright.app.usecase..",
              "rampwright.app.logbook..",
              "rampwright.app.cli..",
              "rampwright.acquisition..")
          .because("what a screen decides is tested without a screen");

  static final ArchRule COMMANDS_DO_NOT_KNOW_THE_DESK =
      noClasses()
          .that()
          .resideInAPackage("rampwright.app.cli..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("rampwright.app.desk..")
          .because("command line and desk are two doors to the same use cases");

  static final ArchRule THE_DESK_DOES_NOT_KNOW_COMMANDS =
      noClasses()
          .that()
          .resideInAPackage("rampwright.app.desk..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("rampwright.app.cli..")
          .because("command line and desk are two doors to the same use cases");

  static final ArchRule USE_CASES_DO_NOT_KNOW_THEIR_CALLERS =
      noClasses()
          .that()
          .resideInAnyPackage(
              "rampwright.app.usecase..",
              "rampwright.app.asset..",
              "rampwright.app.envelope..",
              "rampwright.app.heat..",
              "rampwright.app.ready..",
              "rampwright.app.result..",
              "rampwright.app.report..",
              "rampwright.app.page..",
              "rampwright.app.pdf..",
              "rampwright.app.wording..",
              "rampwright.app.json..",
              "rampwright.acquisition.toml..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("rampwright.app.cli..", "rampwright.app.desk..", ROOT)
          .because("one class per use case serves command line and desk alike");

  static final ArchRule HEAT_LOOKS_AT_CURRENT_ALONE =
      noClasses()
          .that()
          .resideInAPackage("rampwright.analysis.heat..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("rampwright.analysis.machine..", "rampwright.analysis.fit..")
          .because("an account of what was measured must not rest on what a model thinks");

  static final ArchRule NO_CYCLES =
      slices()
          .matching("rampwright.(**)")
          .should()
          .beFreeOfCycles()
          .because("a package that needs its caller cannot be understood or changed by itself");
}
