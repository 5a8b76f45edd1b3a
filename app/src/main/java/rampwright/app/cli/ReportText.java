package rampwright.app.cli;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.app.ready.EnergisingList;
import rampwright.app.report.Report;
import rampwright.app.report.Signature;
import rampwright.app.report.SignatureCheck;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.NotedTrial;

/** How a commissioning record stands, for people; the record itself is a file. */
final class ReportText {
  private ReportText() {}

  static void print(Screen screen, Report report) {
    screen.prose(
        "",
        report.title()
            + ": "
            + report.standing().state().key().toUpperCase(Locale.ROOT)
            + ": "
            + report.standing().sentence());
    screen.line("  " + trials(report));
    EnergisingList list = report.list().value();
    if (list != null) {
      screen.line(
          "  before energising: "
              + (list.items().size() - list.open())
              + " of "
              + list.items().size()
              + " checks ticked"
              + (list.open() == 0 ? "" : ", " + list.open() + " OPEN"));
    }
    signatures(screen, report.signatures().value());
    report.faults().forEach(fault -> screen.prose("  ", "could not be read: " + fault));
  }

  private static String trials(Report report) {
    long failed = report.trials().stream().filter(t -> t.entry() instanceof FailedTrial).count();
    long noted = report.trials().stream().filter(t -> t.entry() instanceof NotedTrial).count();
    return report.trials().size()
        + (report.trials().size() == 1 ? " trial" : " trials")
        + (noted == 0 ? "" : ", " + noted + " of them noted by hand")
        + (failed == 0 ? "" : ", " + failed + " could not be read");
  }

  private static void signatures(Screen screen, @Nullable List<SignatureCheck> signatures) {
    if (signatures == null) {
      return;
    }
    if (signatures.isEmpty()) {
      screen.line("  not signed");
    }
    for (SignatureCheck check : signatures) {
      Signature signature = check.signature();
      String role = signature.role();
      String despite = signature.despite();
      screen.prose(
          "  ",
          "signed by "
              + signature.name()
              + (role == null ? "" : " (" + role + ")")
              + ", "
              + signature.at()
              + (despite == null ? "" : ", despite: " + despite)
              + ": "
              + check.sentence());
    }
  }
}
