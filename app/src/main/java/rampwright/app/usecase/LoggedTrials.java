package rampwright.app.usecase;

import java.nio.file.Path;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.Definitions;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.quantity.Measured;
import rampwright.app.asset.TrialFile;
import rampwright.app.asset.TrialSettings;
import rampwright.app.logbook.LogEntry;
import rampwright.app.logbook.LogFile;
import rampwright.app.logbook.LoggedFigure;
import rampwright.app.logbook.Origin;
import rampwright.app.result.Entry;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;

/** From analysed trials to entries of the logbook. */
final class LoggedTrials {
  private LoggedTrials() {}

  /**
   * One entry for each start of a trial.
   *
   * @throws InputProblem where the trial has no asset or no time
   */
  static List<LogEntry> of(Entry entry, InputChoice choice) throws InputProblem {
    if (entry instanceof TrialResult result) {
      return measured(result, choice);
    }
    return entry instanceof NotedTrial noted ? List.of(noted(noted)) : List.of();
  }

  private static List<LogEntry> measured(TrialResult result, InputChoice choice)
      throws InputProblem {
    if (result.asset() == null) {
      throw new InputProblem(result.file() + ": belongs to no asset; name it with --asset FOLDER");
    }
    Instant at = at(result.file(), result.trial(), result.facts().provenance().startUtc());
    List<LogEntry> entries = new ArrayList<>();
    List<StartRecord> starts = result.figures().starts();
    String folder = folderName(result.file());
    Path trace = Path.of(result.file());
    List<LogFile> files =
        TrialFileSet.of(
            trace, TrialFileSet.settingsOf(trace, choice), result.asset().path(), choice);
    for (int k = 0; k < starts.size(); k++) {
      StartRecord start = starts.get(k);
      Map<String, LoggedFigure> figures = new LinkedHashMap<>();
      start.figures().forEach((key, value) -> figures.put(key, logged(value)));
      if (start.stop() != null) {
        start.stop().figures().forEach((key, value) -> figures.put(key, logged(value)));
      }
      Measured inception = start.instants().get("inception_s");
      Double offsetS = inception == null ? null : inception.value();
      boolean several = starts.size() > 1;
      entries.add(
          new LogEntry(
              result.asset().asset().id(),
              several && offsetS != null ? at.plusMillis(Math.round(1000 * offsetS)) : at,
              label(result.trial().settings()),
              start.outcome().key(),
              result.trial().notes().representative(),
              result.trial().notes().reason(),
              "",
              "",
              new Origin(
                  "trial " + folder,
                  folder + "#" + (k + 1),
                  result.toolVersion(),
                  Definitions.VERSION,
                  String.valueOf(result.facts().provenance().sha256()),
                  files),
              figures));
    }
    return entries;
  }

  private static LoggedFigure logged(Measured value) {
    return new LoggedFigure(
        value.value() == null ? Double.NaN : value.value(),
        value.unit(),
        value.uncertainty() == null ? Double.NaN : value.uncertainty(),
        String.valueOf(value.value() == null ? value.why() : value.rule()));
  }

  private static LogEntry noted(NotedTrial noted) throws InputProblem {
    if (noted.asset() == null) {
      throw new InputProblem(noted.file() + ": belongs to no asset");
    }
    Map<String, LoggedFigure> figures = new LinkedHashMap<>();
    noted
        .seen()
        .figures()
        .forEach(
            (figure, value) ->
                figures.put(
                    figure.key(),
                    new LoggedFigure(value, figure.unit(), Double.NaN, "noted by hand")));
    return new LogEntry(
        noted.asset().asset().id(),
        at(noted.file(), noted.trial(), null),
        label(noted.trial().settings()),
        orEmpty(noted.seen().outcome()),
        noted.trial().notes().representative(),
        noted.trial().notes().reason(),
        orEmpty(noted.seen().note()),
        orEmpty(noted.seen().by()),
        Origin.withoutTrace("noted by hand"),
        figures);
  }

  private static String orEmpty(@Nullable String text) {
    return text == null ? "" : text;
  }

  /** The settings as one line: equal lines, equal settings. */
  static String label(TrialSettings settings) {
    List<String> parts = new ArrayList<>();
    TrialSettings.Control control = settings.control();
    if (control != null) {
      parts.add(control.key());
    }
    settings
        .values()
        .forEach((key, value) -> parts.add(key + " " + String.format(Locale.ROOT, "%.6g", value)));
    TrialSettings.Stop stop = settings.stop();
    if (stop != null) {
      parts.add("stop " + stop.key());
    }
    return String.join(", ", parts);
  }

  /** What a person noted, else the name of the trial's folder, else the trace's own clock. */
  private static Instant at(String file, TrialFile trial, @Nullable String startUtc)
      throws InputProblem {
    TrialDates.Date declared = TrialDates.declared(folderName(file), trial);
    if (declared != null) {
      return declared.at();
    }
    if (startUtc != null) {
      try {
        return Instant.parse(startUtc);
      } catch (DateTimeParseException noInstant) {
        // said below
      }
    }
    throw new InputProblem(
        file
            + ": the time of the start is not known; write [trial] at = 2026-03-14T09:12:05Z into"
            + " settings.toml");
  }

  private static String folderName(String file) {
    Path parent = Path.of(file).toAbsolutePath().getParent();
    return parent == null || parent.getFileName() == null ? "" : parent.getFileName().toString();
  }
}
