package rampwright.app.json;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import rampwright.app.asset.AssetFile;
import rampwright.app.ready.EnergisingList;
import rampwright.app.ready.Readiness;
import rampwright.app.report.Had;
import rampwright.app.report.HeatView;
import rampwright.app.report.Report;
import rampwright.app.report.ReportTrial;
import rampwright.app.report.Seal;
import rampwright.app.report.SealedFile;
import rampwright.app.report.SettingRow;
import rampwright.app.report.SheetRow;
import rampwright.app.report.Signature;
import rampwright.app.report.SignatureCheck;
import rampwright.app.report.Standing;

/** A commissioning record as JSON. */
public final class ReportJson {
  private ReportJson() {}

  /**
   * The whole text.
   *
   * @param file the page that was written; null where none was
   */
  public static String report(Report report, @Nullable String file) {
    return new JsonText().object(out -> body(out, report, file)).finish();
  }

  private static void body(JsonText out, Report report, @Nullable String file) {
    out.object(
        "record",
        made -> {
          made.text("folder", report.folder());
          made.text("made_at", report.madeAt().toString());
          made.text("made_by", report.madeBy());
          made.text("zone", String.valueOf(report.site().zone()));
          made.text("file", file);
        });
    out.object(
        "tool", tool -> tool.text("name", "rampwright").text("version", report.toolVersion()));
    out.object("standing", body -> standing(body, report.standing()));
    AssetFile asset = report.asset().value();
    TrialJson.asset(out, asset);
    out.array(
        "sheet",
        rows -> {
          if (asset != null) {
            SheetRow.of(asset.asset()).forEach(row -> rows.object(b -> row(b, row)));
          }
        });
    EnergisingList list = report.list().value();
    if (list == null) {
      out.nothing("energising_list");
    } else {
      out.object("energising_list", body -> ReadyJson.body(body, list));
    }
    Readiness readiness = report.readiness().value();
    if (readiness == null) {
      out.nothing("readiness");
    } else {
      out.object("readiness", body -> ReadyJson.body(body, readiness));
    }
    out.array(
        "trials", trials -> report.trials().forEach(trial -> trials.object(b -> trial(b, trial))));
    heat(out, "heat_at_last_trial", report.heatThen());
    heat(out, "heat_now", report.heatNow());
    finalSettings(out, report);
    signatures(out, report.signatures());
    Seal seal = report.seal().value();
    if (seal == null) {
      out.nothing("rests_on");
    } else {
      out.object(
          "rests_on",
          body -> {
            body.text("sha256", seal.sha256());
            files(body, seal.files());
          });
    }
    missing(out, report);
    out.texts("faults", report.faults());
  }

  private static void standing(JsonText out, Standing standing) {
    out.text("state", standing.state().key());
    out.text("trial", standing.trial());
    out.text("sentence", standing.sentence());
  }

  private static void row(JsonText out, SheetRow row) {
    out.text("section", row.section());
    out.text("key", row.key());
    out.text("meaning", row.meaning());
    out.text("value", row.value());
    out.text("unit", row.unit());
  }

  private static void trial(JsonText out, ReportTrial trial) {
    Instant at = trial.at();
    out.text("trial", trial.name());
    out.text("at", at == null ? null : at.toString());
    out.text("dated_by", trial.datedBy());
    out.flag("counts", trial.counts());
    out.array(
        "changed",
        changes -> {
          for (SettingRow row : trial.settings()) {
            if (row.before() != null) {
              changes.object(
                  b ->
                      b.text("setting", row.key())
                          .text("from", row.before())
                          .text("to", row.value()));
            }
          }
        });
    files(out, trial.files());
    out.object("entry", body -> ResultJson.entry(body, trial.entry(), true));
  }

  private static void files(JsonText out, List<SealedFile> files) {
    out.array(
        "files",
        array ->
            files.forEach(
                file ->
                    array.object(b -> b.text("path", file.path()).text("sha256", file.sha256()))));
  }

  private static void heat(JsonText out, String key, Had<HeatView> heat) {
    HeatView view = heat.value();
    if (view == null) {
      out.nothing(key);
    } else {
      out.object(key, body -> HeatJson.body(body, view.result()));
    }
  }

  private static void finalSettings(JsonText out, Report report) {
    ReportTrial trial = report.decisive();
    if (trial == null
        || report.standing().state() != Standing.State.ACCEPTED
        || trial.notes().settings().isEmpty()) {
      out.nothing("final_settings");
    } else {
      out.object("final_settings", body -> TrialJson.settings(body, trial.notes().settings()));
    }
  }

  private static void signatures(JsonText out, Had<List<SignatureCheck>> had) {
    List<SignatureCheck> checks = had.value();
    if (checks == null) {
      out.nothing("signatures");
      return;
    }
    out.array(
        "signatures", array -> checks.forEach(check -> array.object(b -> signature(b, check))));
  }

  private static void signature(JsonText out, SignatureCheck check) {
    Signature signature = check.signature();
    out.text("name", signature.name());
    out.text("role", signature.role());
    out.text("note", signature.note());
    out.text("despite", signature.despite());
    out.text("against", signature.against());
    out.text("at", signature.at().toString());
    out.text("zone", signature.zone());
    out.text("state", signature.state());
    out.text("trial", signature.trial());
    out.text("sha256", signature.sha256());
    out.flag("stands", check.stands());
    out.array(
        "changes",
        array ->
            check
                .differences()
                .forEach(
                    one ->
                        array.object(
                            b -> b.text("path", one.path()).text("change", one.change().key()))));
  }

  private static void missing(JsonText out, Report report) {
    Map<String, Had<?>> parts = new TreeMap<>();
    parts.put("asset", report.asset());
    parts.put("energising_list", report.list());
    parts.put("readiness", report.readiness());
    parts.put("heat_at_last_trial", report.heatThen());
    parts.put("heat_now", report.heatNow());
    parts.put("rests_on", report.seal());
    parts.put("signatures", report.signatures());
    out.array(
        "missing",
        array ->
            parts.forEach(
                (part, had) -> {
                  if (had.value() == null) {
                    array.object(b -> b.text("part", part).text("why", had.reason()));
                  }
                }));
  }
}
