package rampwright.app.architecture;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noMethods;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_THROW_GENERIC_EXCEPTIONS;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.AccessTarget.CodeUnitCallTarget;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaMember;
import com.tngtech.archunit.core.domain.JavaMethod;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.util.Set;

/** What no code does. */
final class CodeRules {
  private static final String LAUNCHER = "rampwright.app.Launcher";

  /** Reading a clock; a test could not say what comes out. */
  private static final Set<String> CLOCKS =
      Set.of(
          "java.lang.System.currentTimeMillis",
          "java.lang.System.nanoTime",
          "java.time.Instant.now",
          "java.time.LocalDate.now",
          "java.time.LocalDateTime.now",
          "java.time.OffsetDateTime.now",
          "java.time.ZonedDateTime.now",
          "java.time.InstantSource.system",
          "java.time.Clock.systemUTC",
          "java.time.Clock.systemDefaultZone",
          "java.time.Clock.system");

  private static final Set<String> EXITS =
      Set.of("java.lang.System.exit", "java.lang.Runtime.exit", "java.lang.Runtime.halt");

  private static final Set<String> CHANCES =
      Set.of(
          "java.lang.Math.random",
          "java.util.UUID.randomUUID",
          "java.util.concurrent.ThreadLocalRandom.current",
          "java.util.Collections.shuffle");

  private CodeRules() {}

  private static DescribedPredicate<JavaAccess<?>> calls(Set<String> members) {
    return DescribedPredicate.describe(
        "one of " + members, access -> members.contains(nameOf(access)));
  }

  private static String nameOf(JavaAccess<?> access) {
    return access.getTargetOwner().getName() + "." + access.getTarget().getName();
  }

  static final ArchRule CLOCKS_ONLY_IN_THE_LAUNCHER =
      noClasses()
          .that()
          .doNotHaveFullyQualifiedName(LAUNCHER)
          .should()
          .accessTargetWhere(calls(CLOCKS))
          .because("time is handed in, so that a test can move it");

  static final ArchRule STREAMS_ONLY_IN_COMMANDS =
      noClasses()
          .that()
          .resideOutsideOfPackage("rampwright.app.cli..")
          .should()
          .accessTargetWhere(calls(Set.of("java.lang.System.out", "java.lang.System.err")))
          .because("results and talk go through one screen, which makes them safe to show");

  static final ArchRule EXIT_ONLY_IN_THE_LAUNCHER =
      noClasses()
          .that()
          .doNotHaveFullyQualifiedName(LAUNCHER)
          .should()
          .accessTargetWhere(calls(EXITS))
          .because("nothing recorded may be lost by somebody ending the process");

  static final ArchRule NO_BARE_EXCEPTIONS =
      NO_CLASSES_SHOULD_THROW_GENERIC_EXCEPTIONS.because(
          "a caller must be able to tell one failure from another");

  static final ArchRule NO_TEXT_WITHOUT_A_LOCALE =
      noClasses()
          .should()
          .accessTargetWhere(
              DescribedPredicate.describe(
                  "formatting or case change without a Locale", CodeRules::isWithoutLocale))
          .because("decimal commas corrupt files, and i has a dot in some languages");

  private static boolean isWithoutLocale(JavaAccess<?> access) {
    String name = nameOf(access);
    boolean ofLocale =
        access.getTarget() instanceof CodeUnitCallTarget call
            && call.getRawParameterTypes().stream()
                .anyMatch(type -> type.getName().equals("java.util.Locale"));
    if (ofLocale) {
      return false;
    }
    return Set.of(
            "java.lang.String.format",
            "java.lang.String.formatted",
            "java.lang.String.toLowerCase",
            "java.lang.String.toUpperCase",
            "java.io.PrintStream.printf",
            "java.io.PrintStream.format",
            "java.io.PrintWriter.printf",
            "java.io.PrintWriter.format",
            "java.util.Formatter.<init>",
            "java.text.DecimalFormat.<init>")
        .contains(name);
  }

  static final ArchRule NO_UNSEEDED_CHANCE =
      noClasses()
          .should()
          .accessTargetWhere(
              DescribedPredicate.describe("randomness without a seed", CodeRules::isUnseeded))
          .because("a result that cannot be had again cannot be checked");

  private static boolean isUnseeded(JavaAccess<?> access) {
    String name = nameOf(access);
    boolean noArguments =
        access.getTarget() instanceof CodeUnitCallTarget call
            && call.getRawParameterTypes().isEmpty();
    if (name.equals("java.util.Collections.shuffle")) {
      return access.getTarget() instanceof CodeUnitCallTarget call
          && call.getRawParameterTypes().size() == 1;
    }
    return CHANCES.contains(name)
        || (noArguments
            && Set.of(
                    "java.util.Random.<init>",
                    "java.util.SplittableRandom.<init>",
                    "java.security.SecureRandom.<init>")
                .contains(name));
  }

  /**
   * A run is simulated ten thousand times for one advice: its scratch is written over, and none of
   * it leaves the run; a descent remembers where it has been until it is over. A builder is a
   * workshop by its nature.
   */
  private static final String WORKSHOPS =
      ".*Builder|.*\\.machine\\.(RunSimulator|Motion|ElectricalPoint|Trajectory)(\\$.*)?"
          + "|.*\\.fit\\.FitDescent\\$Way";

  static final ArchRule ANALYSIS_DOES_NOT_CHANGE =
      fields()
          .that()
          .areDeclaredInClassesThat()
          .resideInAPackage("rampwright.analysis..")
          .and()
          .areDeclaredInClassesThat()
          .haveNameNotMatching(WORKSHOPS)
          .should()
          .beFinal()
          .because("a value that cannot change can be shared between threads and believed");

  static final ArchRule NOBODY_DECLARES_THROWS_EXCEPTION =
      noMethods()
          .that(
              DescribedPredicate.<JavaMember>describe(
                  "are written by a person",
                  member ->
                      !member.getModifiers().contains(JavaModifier.SYNTHETIC)
                          && !member.getModifiers().contains(JavaModifier.BRIDGE)))
          .should(declareBareException())
          .because("a caller must be able to tell one failure from another");

  private static ArchCondition<JavaMethod> declareBareException() {
    return new ArchCondition<>("declare throws Exception") {
      @Override
      public void check(JavaMethod method, ConditionEvents events) {
        boolean bare =
            method.getExceptionTypes().stream()
                .anyMatch(
                    type ->
                        type.getName().equals("java.lang.Exception")
                            || type.getName().equals("java.lang.Throwable"));
        events.add(new SimpleConditionEvent(method, bare, method.getFullName() + " declares it"));
      }
    };
  }
}
