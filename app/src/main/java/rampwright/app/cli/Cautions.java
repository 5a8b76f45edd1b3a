package rampwright.app.cli;

import java.util.List;
import rampwright.app.usecase.UsageProblem;

/** What is said before a start is recorded, and that it has been read. */
final class Cautions {
  static final List<String> TEXT =
      List.of(
          "Before a trial start:",
          "  - people clear of motor and driven machine, guards on; the load may move",
          "  - everybody knows who may start and who may stop, and how;",
          "    remote starts are locked out",
          "  - live panels: authorised people only, under local codes and site permits",
          "  - rest times of motor and starter as their makers state them",
          "This program neither starts nor stops a motor, sets nothing on a starter",
          "and is no protective device.");

  private Cautions() {}

  /** Shows them; a person has to type yes, a script to have said so beforehand. */
  static void acknowledge(Screen screen, KeyWords keys, boolean understood)
      throws UsageProblem, InterruptedException {
    TEXT.forEach(screen::say);
    if (understood) {
      return;
    }
    if (!screen.isInteractive()) {
      throw new UsageProblem(
          "nobody can be asked here whether the cautions were read; give --understood");
    }
    screen.say("Type yes and Enter to arm, anything else to leave.");
    String answer = "";
    while (answer.isEmpty()) {
      answer = keys.next(1000);
    }
    if (!answer.equals("yes")) {
      throw new UsageProblem("not armed");
    }
  }
}
