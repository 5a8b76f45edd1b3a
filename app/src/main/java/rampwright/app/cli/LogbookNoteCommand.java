package rampwright.app.cli;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import rampwright.app.json.ResultJson;
import rampwright.app.logbook.LogEvent;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;

/** {@code logbook note}. */
@CommandLine.Command(
    name = "note",
    header = "Note what was done to an asset, or that an alert was seen.",
    description = {
      "",
      "KIND is work (begins a new baseline), seen (the asset's open alerts were looked at; needs --by),"
          + " group, name, or zone (time zone its days are shown in). The latest note of a kind holds;"
          + " those before it are kept.",
      ""
    })
final class LogbookNoteCommand extends Command {
  @Parameters(index = "0", paramLabel = "ASSET", description = "Id of the asset.")
  private String asset = "";

  @Parameters(index = "1", paramLabel = "KIND", description = "work, seen, group, name or zone.")
  private String kind = "";

  @Parameters(index = "2", paramLabel = "TEXT", description = "What is noted.")
  private String text = "";

  @Option(names = "--by", paramLabel = "NAME", description = "Who notes it.")
  private String author = "";

  @Option(names = "--at", paramLabel = "TIME", description = "When, ISO 8601; default: now.")
  private @Nullable String at;

  @Mixin private final LogbookOption logbook = new LogbookOption();

  LogbookNoteCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem, InterruptedException {
    LogEvent.Kind meant =
        Arrays.stream(LogEvent.Kind.values())
            .filter(k -> k.word().equals(kind.toLowerCase(Locale.ROOT)))
            .findFirst()
            .orElseThrow(
                () -> new UsageProblem(kind + ": a note is work, seen, group, name or zone"));
    services()
        .tendLogbook()
        .note(logbook.value(), new LogEvent(asset, instant(), meant, text, author));
    if (isJson()) {
      screen().raw(ResultJson.files(List.of()));
    } else {
      screen().line("noted for " + asset + ": " + meant.word() + ", " + text);
    }
    return ExitCode.DONE;
  }

  private Instant instant() throws UsageProblem {
    String given = at;
    if (given == null) {
      return services().clock().instant();
    }
    try {
      return OffsetDateTime.parse(given).toInstant();
    } catch (DateTimeParseException e) {
      throw new UsageProblem(
          "--at " + given + ": is no ISO 8601 time with a zone, such as 2026-03-14T09:12:05Z");
    }
  }
}
