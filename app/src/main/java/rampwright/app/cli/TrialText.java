package rampwright.app.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;
import rampwright.analysis.figure.Finding;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.StopRecord;
import rampwright.analysis.figure.TraceFigures;
import rampwright.analysis.trace.TraceKind;
import rampwright.app.asset.Asset;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.SeenByHand;
import rampwright.app.asset.TrialNotes;
import rampwright.app.asset.TrialSettings;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;
import rampwright.app.wording.ValueText;

/** One trial for people: what was read, starts, stops, findings, verdict. */
final class TrialText {
  private final Screen screen;
  private final boolean how;

  TrialText(Screen screen, boolean how) {
    this.screen = screen;
    this.how = how;
  }

  void print(TrialResult result) {
    head(result);
    TraceFigures figures = result.figures();
    if (figures.starts().isEmpty()) {
      screen.line("");
      screen.line("The trace shows no start.");
    }
    FigureText text = new FigureText(screen, how);
    for (int i = 0; i < figures.starts().size(); i++) {
      StartRecord start = figures.starts().get(i);
      screen.line("");
      screen.line(
          "Start " + (i + 1) + " of " + figures.starts().size() + ": " + start.outcome().key());
      text.start(start, i < figures.harmonics().size() ? figures.harmonics().get(i) : Map.of());
      StopRecord stop = start.stop();
      if (stop != null) {
        screen.line("");
        screen.line("Stop: " + stop.kind().key());
        text.stop(stop);
      }
    }
    findings(figures.findings());
    seen(result.trial().seen());
    for (int i = 0; i < result.verdicts().size(); i++) {
      String which = result.verdicts().size() == 1 ? "" : " on start " + (i + 1);
      VerdictText.print(screen, "Verdict" + which, result.verdicts().get(i));
    }
  }

  void print(NotedTrial noted) {
    screen.line(noted.file() + ": noted by hand, not measured");
    asset(noted.asset());
    settings(noted.trial().settings(), noted.asset());
    notes(noted.trial().notes());
    seen(noted.seen());
    if (noted.verdict() != null) {
      VerdictText.print(screen, "What was noted, held against the envelope", noted.verdict());
    }
  }

  private void head(TrialResult result) {
    TraceFigures figures = result.figures();
    screen.line(result.file());
    screen.line(
        String.format(
            Locale.ROOT,
            "  %s, %s %s a second, %.3f s, channels %s",
            figures.kind() == TraceKind.WAVEFORM ? "waveform" : "RMS readings",
            ValueText.value(figures.rateHz(), null),
            figures.kind() == TraceKind.WAVEFORM ? "samples" : "readings",
            figures.durationS(),
            String.join(" ", result.facts().channels().stream().map(c -> c.key()).toList())));
    if (how && !figures.kindReason().isEmpty()) {
      screen.line("  kind: " + figures.kindReason());
    }
    if (!result.facts().provenance().sha256().isEmpty()) {
      screen.line(
          "  SHA-256 "
              + result.facts().provenance().sha256()
              + ", rampwright "
              + result.toolVersion());
    }
    result.facts().provenance().understood().forEach(l -> screen.prose("  ", "read as: " + l));
    result.facts().provenance().warnings().forEach(line -> screen.prose("  ", "mind: " + line));
    result.remarks().forEach(line -> screen.prose("  ", "mind: " + line));
    asset(result.asset());
    settings(result.trial().settings(), result.asset());
    notes(result.trial().notes());
  }

  private void asset(@Nullable AssetFile file) {
    if (file != null) {
      Asset asset = file.asset();
      screen.line("  asset: " + asset.id() + " " + asset.name() + " (" + file.path() + ")");
    }
  }

  private void settings(TrialSettings settings, @Nullable AssetFile file) {
    if (settings.isEmpty()) {
      return;
    }
    List<String> parts = new ArrayList<>();
    TrialSettings.Control control = settings.control();
    if (control != null) {
      parts.add(control.key());
    }
    settings.values().forEach((key, value) -> parts.add(setting(settings, key, value)));
    TrialSettings.Stop stop = settings.stop();
    if (stop != null) {
      parts.add("stop " + stop.key());
    }
    screen.prose("  ", "settings: " + String.join(", ", parts));
    if (file != null && settings.currentLimitRatio() != null && file.asset().starter() != null) {
      Asset asset = file.asset();
      Double motor = settings.limitOverMotor(asset.motor(), asset.starter());
      Double starter = settings.limitOverStarter(asset.motor(), asset.starter());
      if (motor != null && starter != null) {
        screen.line(
            "  current limit: "
                + ValueText.value(motor, null)
                + " x motor rated = "
                + ValueText.value(starter, null)
                + " x starter rated (given as multiple of the "
                + settings.currentLimitOf().key()
                + ")");
      }
    }
  }

  /** A setting in words: its key without the unit, the value, the unit. */
  private static String setting(TrialSettings settings, String key, double value) {
    String number = ValueText.value(value, null);
    if (key.equals(TrialSettings.CURRENT_LIMIT_RATIO.name())) {
      return "current limit "
          + number
          + " x rated current of the "
          + settings.currentLimitOf().key();
    }
    NumberKey setting = TrialSettings.NUMBERS.get(key);
    String unit = setting == null ? "" : setting.unit();
    return key.substring(0, key.lastIndexOf('_')).replace('_', ' ') + " " + number + " " + unit;
  }

  private void notes(TrialNotes notes) {
    if (!notes.representative()) {
      screen.prose("  ", "NOT REPRESENTATIVE: " + notes.reason());
    } else if (!notes.reason().isBlank()) {
      screen.prose("  ", "note: " + notes.reason());
    }
    notes
        .corrected()
        .forEach(
            (key, value) ->
                screen.prose(
                    "  ",
                    "corrected by a person: "
                        + key
                        + " = "
                        + ValueText.timeS(value)
                        + " ("
                        + notes.correctionReason()
                        + ")"));
  }

  private void findings(List<Finding> findings) {
    screen.line("");
    if (findings.isEmpty()) {
      screen.line("Findings: none");
      return;
    }
    screen.line("Findings");
    for (Finding finding : findings) {
      screen.prose(
          "  ",
          finding.code()
              + ", "
              + ValueText.timeS(finding.fromS())
              + " to "
              + ValueText.timeS(finding.toS())
              + " s: "
              + finding.text());
    }
  }

  private void seen(@Nullable SeenByHand seen) {
    if (seen == null) {
      return;
    }
    screen.line("");
    String by = seen.by();
    screen.line("Noted by hand" + (by == null ? "" : " (" + by + ")") + ", not measured");
    if (seen.outcome() != null) {
      screen.line("  outcome: " + seen.outcome());
    }
    TextTable table = new TextTable("  ", "lrl", "figure", "noted", "unit");
    seen.figures()
        .forEach(
            (figure, value) ->
                table.row(figure.label(), ValueText.value(value, null), figure.unit()));
    if (!table.isEmpty()) {
      screen.table(table);
    }
    if (seen.note() != null) {
      screen.prose("  ", "note: " + seen.note());
    }
  }
}
