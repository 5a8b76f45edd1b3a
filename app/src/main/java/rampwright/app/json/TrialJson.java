package rampwright.app.json;

import java.nio.file.Path;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.TraceFigures;
import rampwright.analysis.trace.ChannelName;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.SeenByHand;
import rampwright.app.asset.TrialFile;
import rampwright.app.asset.TrialNotes;
import rampwright.app.asset.TrialSettings;
import rampwright.app.envelope.Verdict;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TraceFacts;
import rampwright.app.result.TrialResult;

/** One trial's result as JSON. */
final class TrialJson {
  private TrialJson() {}

  /**
   * Fields of a result.
   *
   * @param withVerdict whether the result carries its overall verdict besides those of its starts
   */
  static void result(JsonText json, TrialResult result, boolean withVerdict) {
    TraceFigures figures = result.figures();
    json.object("trace", out -> trace(out, result.facts(), figures));
    json.object(
        "tool", out -> out.text("name", "rampwright").text("version", result.toolVersion()));
    asset(json, result.asset());
    trial(json, result.trial());
    json.array(
        "starts",
        out -> {
          for (int i = 0; i < figures.starts().size(); i++) {
            int index = i;
            Verdict verdict = result.verdicts().isEmpty() ? null : result.verdicts().get(i);
            out.object(
                body -> {
                  FiguresJson.start(body, figures, index);
                  VerdictJson.verdict(body, verdict);
                });
          }
        });
    FiguresJson.findings(json, figures.findings());
    if (withVerdict) {
      VerdictJson.verdict(json, result.worst());
    }
  }

  /** Fields of a trial noted by hand. */
  static void noted(JsonText json, NotedTrial noted) {
    asset(json, noted.asset());
    trial(json, noted.trial());
    VerdictJson.verdict(json, noted.verdict());
  }

  private static void trace(JsonText json, TraceFacts facts, TraceFigures figures) {
    json.text("source", facts.provenance().source());
    json.text("kind", figures.kind().key());
    json.text("kind_reason", figures.kindReason());
    json.number("rate_hz", figures.rateHz());
    json.number("frequency_hz", figures.frequencyHz());
    json.number("duration_s", figures.durationS());
    json.count("samples", facts.samples());
    json.texts("channels", facts.channels().stream().map(ChannelName::key).toList());
    json.text("sha256", facts.provenance().sha256());
    json.text("start_utc", facts.provenance().startUtc());
    json.texts("understood", facts.provenance().understood());
    json.texts("warnings", facts.provenance().warnings());
  }

  static void asset(JsonText json, @Nullable AssetFile file) {
    if (file == null) {
      json.nothing("asset");
      return;
    }
    json.object(
        "asset",
        out -> {
          out.text("id", file.asset().id());
          out.text("name", file.asset().name());
          Path name = file.path().getFileName();
          out.text("file", name == null ? null : name.toString());
          out.texts("warnings", file.warnings());
        });
  }

  private static void trial(JsonText json, TrialFile trial) {
    TrialNotes notes = trial.notes();
    if (trial.settings().isEmpty()) {
      json.nothing("settings");
    } else {
      json.object("settings", out -> settings(out, trial.settings()));
    }
    json.object(
        "trial",
        out -> {
          Instant at = notes.at();
          out.text("at", at == null ? null : at.toString());
          out.flag("representative", notes.representative());
          out.text("reason", notes.reason());
          out.object("corrected", body -> notes.corrected().forEach(body::number));
          out.text("correction_reason", notes.correctionReason());
        });
    SeenByHand seen = trial.seen();
    if (seen == null) {
      json.nothing("noted_by_hand");
    } else {
      json.object("noted_by_hand", out -> seen(out, seen));
    }
  }

  static void settings(JsonText json, TrialSettings settings) {
    TrialSettings.Control control = settings.control();
    TrialSettings.Stop stop = settings.stop();
    if (control != null) {
      json.text("control", control.key());
    }
    settings.values().forEach(json::number);
    if (settings.currentLimitRatio() != null) {
      json.text("current_limit_of", settings.currentLimitOf().key());
    }
    if (stop != null) {
      json.text("stop", stop.key());
    }
  }

  private static void seen(JsonText json, SeenByHand seen) {
    json.text("outcome", seen.outcome());
    json.text("by", seen.by());
    json.text("note", seen.note());
    json.object(
        "figures",
        out ->
            seen.figures()
                .forEach(
                    (figure, value) ->
                        out.object(
                            figure.key(),
                            body -> body.number("value", value).text("unit", figure.unit()))));
  }
}
