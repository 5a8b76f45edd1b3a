package rampwright.app.page.record;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.StopRecord;
import rampwright.analysis.figure.TraceFigures;
import rampwright.analysis.trace.TraceKind;
import rampwright.app.asset.Asset;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.SeenByHand;
import rampwright.app.asset.TrialNotes;
import rampwright.app.asset.TrialSettings;
import rampwright.app.envelope.Envelope;
import rampwright.app.envelope.Verdict;
import rampwright.app.report.Report;
import rampwright.app.report.ReportTrial;
import rampwright.app.report.SealedFile;
import rampwright.app.report.SettingRow;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;
import rampwright.app.wording.InstantWords;
import rampwright.app.wording.ValueText;

/** One trial of a record in words. */
final class TrialSection {
  private final Report report;
  private final int number;
  private final ReportTrial trial;

  TrialSection(Report report, int number) {
    this.report = report;
    this.number = number;
    this.trial = report.trials().get(number - 1);
  }

  RecordModel.Trial model() {
    TrialResult result = trial.entry() instanceof TrialResult measured ? measured : null;
    Verdict verdict = verdict();
    return new RecordModel.Trial(
        number,
        "Trial "
            + number
            + " of "
            + report.trials().size()
            + (trial.at() == null ? "" : ", " + report.site().text(trial.at())),
        verdict == null ? "open" : VerdictSection.kind(verdict.met()),
        tag(verdict),
        marks(),
        facts(result),
        trial.settings().stream().map(TrialSection::set).toList(),
        trial.entry() instanceof FailedTrial ? "not known" : "not noted",
        bothWays(trial.notes().settings()),
        result == null ? List.of() : starts(result),
        result == null
            ? List.of()
            : result.figures().findings().stream()
                .map(
                    one ->
                        new RecordModel.Finding(
                            one.code(),
                            ValueText.timeS(one.fromS())
                                + " to "
                                + ValueText.timeS(one.toS())
                                + " s",
                            one.text()))
                .toList(),
        result != null,
        verdicts(result),
        seen());
  }

  private @Nullable Verdict verdict() {
    if (trial.entry() instanceof TrialResult result) {
      return result.worst();
    }
    return trial.entry() instanceof NotedTrial noted ? noted.verdict() : null;
  }

  private String tag(@Nullable Verdict verdict) {
    if (trial.entry() instanceof FailedTrial) {
      return "could not be read";
    }
    String hand = trial.entry() instanceof NotedTrial ? "by hand: " : "";
    return hand + (verdict == null ? "not judged" : verdict.word());
  }

  /** What sets a trial apart from one that was measured and stands as it is. */
  private List<RecordModel.Pair> marks() {
    List<RecordModel.Pair> marks = new ArrayList<>();
    if (trial.entry() instanceof FailedTrial failed) {
      marks.add(pair("Could not be read", failed.error()));
    }
    if (trial.entry() instanceof NotedTrial) {
      marks.add(pair("Noted by hand", "no trace: nothing here was measured by this program"));
    }
    TrialNotes notes = trial.notes().notes();
    if (!notes.representative()) {
      marks.add(
          pair(
              "Not representative",
              notes.reason() + " (does not count for how the record stands, the fit or trends)"));
    } else if (!notes.reason().isBlank()) {
      marks.add(pair("Note", notes.reason()));
    }
    notes
        .corrected()
        .forEach(
            (key, value) ->
                marks.add(
                    pair(
                        "Corrected by a person",
                        InstantWords.label(key)
                            + " at "
                            + ValueText.timeS(value)
                            + " s: "
                            + notes.correctionReason())));
    return marks;
  }

  private List<RecordModel.Pair> facts(@Nullable TrialResult result) {
    List<RecordModel.Pair> facts = new ArrayList<>();
    facts.add(pair("Folder", trial.name()));
    facts.add(pair("Dated by", trial.datedBy()));
    if (result != null) {
      TraceFigures figures = result.figures();
      facts.add(
          pair(
              "Trace",
              String.format(
                  Locale.ROOT,
                  "%s, %s %s a second, %.3f s, channels %s",
                  figures.kind() == TraceKind.WAVEFORM ? "waveform" : "RMS readings",
                  ValueText.value(figures.rateHz(), null),
                  figures.kind() == TraceKind.WAVEFORM ? "samples" : "readings",
                  figures.durationS(),
                  String.join(
                      " ", result.facts().channels().stream().map(c -> c.key()).toList()))));
      result.facts().provenance().warnings().forEach(line -> facts.add(pair("Mind", line)));
      result.remarks().forEach(line -> facts.add(pair("Mind", line)));
    }
    for (SealedFile file : trial.files()) {
      String name = file.path().substring(file.path().lastIndexOf('/') + 1);
      facts.add(pair("SHA-256, " + name, file.sha256()));
    }
    return facts;
  }

  static RecordModel.Setting set(SettingRow row) {
    return new RecordModel.Setting(
        row.label(),
        row.unit().isEmpty() ? row.value() : row.value() + " " + row.unit(),
        row.before() == null ? "" : row.before());
  }

  /** The current limit over both ratings; empty where it is known over one only. */
  private String bothWays(TrialSettings settings) {
    AssetFile file = report.asset().value();
    return file == null ? "" : bothWays(settings, file.asset());
  }

  static String bothWays(TrialSettings settings, Asset asset) {
    if (settings.currentLimitRatio() == null || asset.starter() == null) {
      return "";
    }
    Double motor = settings.limitOverMotor(asset.motor(), asset.starter());
    Double starter = settings.limitOverStarter(asset.motor(), asset.starter());
    return motor == null || starter == null
        ? ""
        : "Current limit: "
            + ValueText.value(motor, null)
            + " x rated current of the motor = "
            + ValueText.value(starter, null)
            + " x rated current of the starter.";
  }

  private List<RecordModel.Start> starts(TrialResult result) {
    AssetFile file = report.asset().value();
    Envelope envelope = file == null ? Envelope.NONE : file.asset().envelope();
    List<StartRecord> starts = result.figures().starts();
    List<RecordModel.Start> all = new ArrayList<>();
    for (int k = 0; k < starts.size(); k++) {
      StartRecord start = starts.get(k);
      StopRecord stop = start.stop();
      String anchor = "f" + number + "-" + (k + 1) + "-";
      String which = starts.size() == 1 ? "Start" : "Start " + (k + 1) + " of " + starts.size();
      all.add(
          new RecordModel.Start(
              which + ": " + start.outcome().key(),
              FoundSection.of(anchor, start.instants(), start.figures()),
              stop == null ? "" : "Stop: " + stop.kind().key(),
              stop == null
                  ? new RecordModel.Found(List.of(), List.of(), List.of())
                  : FoundSection.of(anchor, stop.instants(), stop.figures()),
              k < trial.curves().size()
                  ? TrialPlots.of("Trial " + number, trial.curves().get(k), envelope)
                  : List.of()));
    }
    return all;
  }

  private List<RecordModel.Judged> verdicts(@Nullable TrialResult result) {
    List<RecordModel.Judged> judged = new ArrayList<>();
    if (result != null) {
      for (int k = 0; k < result.verdicts().size(); k++) {
        String which = result.verdicts().size() == 1 ? "" : " on start " + (k + 1);
        judged.add(VerdictSection.of("Verdict" + which, result.verdicts().get(k)));
      }
    }
    if (trial.entry() instanceof NotedTrial noted && noted.verdict() != null) {
      judged.add(VerdictSection.of("What was noted, held against the envelope", noted.verdict()));
    }
    return judged;
  }

  private RecordModel.Seen seen() {
    SeenByHand seen = trial.notes().seen();
    if (seen == null) {
      return new RecordModel.Seen("", List.of());
    }
    String by = seen.by();
    List<RecordModel.Pair> lines = new ArrayList<>();
    if (seen.outcome() != null) {
      lines.add(pair("outcome", seen.outcome()));
    }
    seen.figures()
        .forEach(
            (figure, value) ->
                lines.add(
                    pair(
                        figure.label(),
                        ValueText.value(value, null)
                            + (figure.unit().isEmpty() ? "" : " " + figure.unit()))));
    if (seen.note() != null) {
      lines.add(pair("note", seen.note()));
    }
    return new RecordModel.Seen(
        "Noted by hand" + (by == null ? "" : " (" + by + ")") + ", not measured", lines);
  }

  private static RecordModel.Pair pair(String name, String text) {
    return new RecordModel.Pair(name, text);
  }
}
