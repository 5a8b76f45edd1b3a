package rampwright.app.cli;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.app.json.ReportJson;
import rampwright.app.report.Report;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.SignRecord;
import rampwright.app.usecase.UsageProblem;
import rampwright.app.usecase.WriteRecord;

/** {@code report}: the commissioning record. */
@CommandLine.Command(
    name = "report",
    header = "Make the commissioning record of an asset folder, and sign it.",
    description = {
      "",
      "One page for the owner of the plant and the file: nameplate, checks before energising, readiness,"
          + " every trial with settings, figures, verdict and picture, the heat account, the settings to"
          + " be entered, signatures. What is missing is said to be, with why.",
      "The last measured trial that is not marked otherwise decides how the record stands: accepted (0),"
          + " not accepted (3), not yet judged (4); 6 where a file could not be read, the record being"
          + " made all the same.",
      "",
      "--sign keeps a name in signatures.toml with the SHA-256 of sheet, list, settings and traces; every"
          + " later record says whether they are still the same, or which are not. It is a person's word,"
          + " no proof of who typed it. An open list or a missed envelope needs --despite REASON.",
      ""
    },
    footer = {
      "",
      "Examples:",
      "  rampwright report pump/                            pump/record.html",
      "  rampwright report pump/ --pdf --by \"A. Fitter\"     pump/record.pdf",
      "  rampwright report pump/ --out handover.pdf --sign \"A. Fitter\" --role \"commissioning\"",
      "  rampwright report pump/ --sign \"A. Fitter\" --despite \"limit agreed at 3.1, see order 7\"",
      "  rampwright report pump/ --json"
    })
final class ReportCommand extends Command {
  @Parameters(arity = "1", paramLabel = "FOLDER", description = "An asset folder.")
  private Path folder = Path.of("");

  @Option(
      names = {"-o", "--out"},
      paramLabel = "FILE",
      description =
          "Where the record goes, .html or .pdf. Left out: record.html in the folder; with --json"
              + " none is written.")
  private @Nullable Path out;

  @Option(names = "--pdf", description = "A PDF of A4 sheets instead of a page of HTML.")
  private boolean pdf;

  @Option(names = "--by", paramLabel = "NAME", description = "Who makes the record.")
  private @Nullable String by;

  @Option(names = "--sign", paramLabel = "NAME", description = "Sign it.")
  private @Nullable String sign;

  @Option(names = "--role", paramLabel = "TEXT", description = "As what, kept with the signature.")
  private @Nullable String role;

  @Option(names = "--note", paramLabel = "TEXT", description = "A word kept with the signature.")
  private @Nullable String note;

  @Option(
      names = "--despite",
      paramLabel = "REASON",
      description = "Sign although something stands against it; kept and shown.")
  private @Nullable String despite;

  ReportCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    String name = sign;
    if (name == null && (role != null || note != null || despite != null)) {
      throw new UsageProblem("--role, --note and --despite go with --sign NAME");
    }
    SignRecord.Words words = name == null ? null : new SignRecord.Words(name, role, note, despite);
    if (words != null) {
      SignRecord.check(words);
    }
    Path target = isJson() && out == null && !pdf ? null : WriteRecord.target(folder, out, pdf);
    Report report =
        services().makeRecord().run(folder, by == null ? name : by, new ProgressLine(screen()));
    if (words != null) {
      report = services().signRecord().sign(folder, report, words);
    }
    if (target != null) {
      services().writeRecord().run(report, target);
    }
    if (isJson()) {
      screen().raw(ReportJson.report(report, target == null ? null : target.toString()));
    } else {
      ReportText.print(screen(), report);
      if (target != null) {
        screen().line("record: " + target);
      }
    }
    screen().flush();
    return exit(report);
  }

  private static int exit(Report report) {
    if (!report.faults().isEmpty()) {
      return ExitCode.DATA;
    }
    return switch (report.standing().state()) {
      case ACCEPTED -> ExitCode.DONE;
      case NOT_ACCEPTED -> ExitCode.MISSED;
      case NOT_JUDGED -> ExitCode.NOT_ASSESSABLE;
    };
  }
}
