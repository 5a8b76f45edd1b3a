package rampwright.app.json;

import java.util.List;
import rampwright.app.logbook.Imported;
import rampwright.app.logbook.KeptEntry;
import rampwright.app.logbook.LogEntry;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.LoggedFigure;
import rampwright.app.logbook.Reanalyzed;

/** The logbook's answers as JSON. */
public final class LogbookJson {
  private LogbookJson() {}

  /** What came of an import. */
  public static String imported(Imported imported) {
    return new JsonText()
        .object(
            out -> {
              out.count("added", imported.added());
              out.count("known", imported.known());
              out.count("corrected", imported.corrected());
              out.texts("rejected", imported.rejected());
              out.texts("remarks", imported.remarks());
            })
        .finish();
  }

  /** What verifying found. */
  public static String verified(Logbook.Verified verified) {
    return new JsonText()
        .object(
            out -> {
              out.count("entries", verified.entries());
              out.count("files", verified.files());
              out.texts("damaged", verified.damaged());
            })
        .finish();
  }

  /** Entries with everything they say. */
  public static String entries(List<KeptEntry> entries) {
    return new JsonText()
        .object(
            out ->
                out.array(
                    "entries",
                    list -> {
                      for (KeptEntry kept : entries) {
                        list.object(body -> entry(body, kept));
                      }
                    }))
        .finish();
  }

  private static void entry(JsonText json, KeptEntry kept) {
    LogEntry entry = kept.entry();
    json.count("number", kept.number());
    if (kept.replaces().isPresent()) {
      json.count("replaces", kept.replaces().getAsLong());
    } else {
      json.nothing("replaces");
    }
    json.flag("in_force", kept.inForce());
    json.text("logged_at", kept.loggedAt().toString());
    json.text("asset", entry.asset());
    json.text("at", entry.at().toString());
    json.text("settings", entry.settings());
    json.text("outcome", entry.outcome());
    json.flag("representative", entry.counts());
    json.text("reason", entry.reason());
    json.text("note", entry.note());
    json.text("author", entry.author());
    json.text("source", entry.origin().source());
    json.text("tool_version", entry.origin().toolVersion());
    json.text("definitions", entry.origin().definitions());
    json.text("trace_sha256", entry.origin().traceSha256());
    json.object(
        "figures",
        figures ->
            entry
                .figures()
                .forEach((key, figure) -> figures.object(key, one -> figure(one, figure))));
  }

  private static void figure(JsonText json, LoggedFigure figure) {
    json.number("value", figure.value());
    json.text("unit", figure.unit());
    json.number("uncertainty", figure.uncertainty());
    json.text(Double.isFinite(figure.value()) ? "rule" : "why", figure.why());
  }

  /** What came of analysing again. */
  public static String reanalyzed(Reanalyzed done) {
    return new JsonText()
        .object(
            out -> {
              out.count("trials", done.trials());
              out.count("changed", done.changed());
              out.count("same", done.same());
              out.text("definitions", done.definitions());
              out.texts("problems", done.problems());
            })
        .finish();
  }
}
