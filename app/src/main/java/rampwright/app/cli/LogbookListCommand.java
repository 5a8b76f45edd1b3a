package rampwright.app.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.app.envelope.FigureKey;
import rampwright.app.json.LogbookJson;
import rampwright.app.logbook.KeptEntry;
import rampwright.app.logbook.LoggedFigure;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;
import rampwright.app.wording.ValueText;

/** {@code logbook list}. */
@CommandLine.Command(
    name = "list",
    header = "Show the newest starts of an asset.",
    description = {
      "",
      "With --history every entry on them is shown, replaced ones too, with the version of the"
          + " definitions its figures were taken by. --json has every figure.",
      ""
    })
final class LogbookListCommand extends Command {
  private static final List<FigureKey> SHOWN =
      List.of(FigureKey.START_TIME, FigureKey.PEAK_CURRENT_RATIO, FigureKey.STOP_TIME);

  @Parameters(index = "0", paramLabel = "ASSET", description = "Id of the asset.")
  private String asset = "";

  @Option(names = "--newest", paramLabel = "N", description = "How many starts; default: 20.")
  private int newest = 20;

  @Option(names = "--history", description = "Replaced entries too.")
  private boolean history;

  @Mixin private final LogbookOption logbook = new LogbookOption();

  LogbookListCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    List<KeptEntry> entries = services().listStarts().run(asset, newest, history, logbook.value());
    if (isJson()) {
      screen().raw(LogbookJson.entries(entries));
      return ExitCode.DONE;
    }
    for (KeptEntry kept : entries) {
      screen().prose("", line(kept));
    }
    return ExitCode.DONE;
  }

  private String line(KeptEntry kept) {
    List<String> parts = new ArrayList<>();
    parts.add(kept.entry().at().toString());
    if (history) {
      parts.add("entry " + kept.number());
      OptionalLong replaces = kept.replaces();
      if (replaces.isPresent()) {
        parts.add("corrects " + replaces.getAsLong());
      }
      parts.add(kept.inForce() ? "in force" : "replaced");
      String definitions = kept.entry().origin().definitions();
      parts.add(definitions.isEmpty() ? "no trace" : "definitions " + definitions);
    }
    for (FigureKey figure : SHOWN) {
      double value = kept.entry().value(figure.key());
      if (Double.isFinite(value)) {
        parts.add(
            figure.label()
                + " "
                + ValueText.value(value, uncertainty(kept, figure))
                + unit(figure));
      }
    }
    if (!kept.entry().outcome().isEmpty() && !"completed".equals(kept.entry().outcome())) {
      parts.add(kept.entry().outcome());
    }
    if (!kept.entry().counts()) {
      parts.add("does not count: " + kept.entry().reason());
    }
    if (!kept.entry().settings().isEmpty()) {
      parts.add(kept.entry().settings());
    }
    return String.join(", ", parts);
  }

  private static @Nullable Double uncertainty(KeptEntry kept, FigureKey figure) {
    LoggedFigure found = kept.entry().figures().get(figure.key());
    return found == null || Double.isNaN(found.uncertainty()) ? null : found.uncertainty();
  }

  private static String unit(FigureKey figure) {
    return figure.unit().isEmpty() ? "" : " " + figure.unit();
  }
}
