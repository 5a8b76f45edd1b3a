package rampwright.app.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.acquisition.file.ComtradeEdition;
import rampwright.app.json.ResultJson;
import rampwright.app.usecase.ConvertTrace;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.TraceFormat;
import rampwright.app.usecase.UsageProblem;

/** {@code convert}: a trace in another format. */
@CommandLine.Command(
    name = "convert",
    header = "Write a trace in another format: canonical CSV or COMTRADE.",
    description = {"", "The target's ending says the format, unless --format does.", ""},
    footer = {
      "",
      "Examples:",
      "  rampwright convert scope.csv trace.csv --columns scope.toml",
      "  rampwright convert fault.cfg trace.csv.gz",
      "  rampwright convert trace.csv trace.cff --format comtrade-binary",
      "  rampwright convert trace.csv old.cfg --format comtrade-ascii --edition 1999"
    })
final class ConvertCommand extends Command {
  @Parameters(index = "0", paramLabel = "TRACE", description = "The trace to convert.")
  private Path source = Path.of("");

  @Parameters(
      index = "1",
      paramLabel = "TARGET",
      description = "The file to write: .csv, .csv.gz, .cfg (with its .dat) or .cff.")
  private Path target = Path.of("");

  @Mixin private final ReadingOptions reading = new ReadingOptions();

  @Option(
      names = "--format",
      paramLabel = "FORMAT",
      converter = FormatConverter.class,
      description = "csv, comtrade-ascii, comtrade-binary, comtrade-binary32 or comtrade-float32.")
  private @Nullable TraceFormat format;

  @Option(
      names = "--edition",
      paramLabel = "YEAR",
      converter = EditionConverter.class,
      description = "COMTRADE: 1991, 1999 or 2013. Left out: 2013.")
  private @Nullable ComtradeEdition edition;

  @Option(names = "--overwrite", description = "Replace the target where it is there already.")
  private boolean overwrite;

  ConvertCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem {
    ConvertTrace.Converted converted =
        services()
            .convertTrace()
            .run(
                source,
                target,
                new ConvertTrace.Form(format, edition),
                reading.choice(Map.of()),
                overwrite);
    List<String> files = converted.files().stream().map(Path::toString).toList();
    converted.facts().provenance().understood().forEach(line -> screen().say("read as: " + line));
    converted.facts().provenance().warnings().forEach(line -> screen().say("mind: " + line));
    if (isJson()) {
      screen().raw(ResultJson.files(files));
    } else {
      files.forEach(file -> screen().line("written: " + file));
      screen().flush();
    }
    return ExitCode.DONE;
  }
}
