package rampwright.app.json;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.app.result.Batch;
import rampwright.app.result.Comparison;
import rampwright.app.result.Entry;
import rampwright.app.result.FailedTrial;
import rampwright.app.result.HeatResult;
import rampwright.app.result.NotedTrial;
import rampwright.app.result.TrialResult;

/** The JSON texts of whole answers. */
public final class ResultJson {
  private ResultJson() {}

  /** One trial; what {@code figures.json} holds. */
  public static String trial(TrialResult result) {
    return new JsonText().object(out -> TrialJson.result(out, result, false)).finish();
  }

  /**
   * Many trials, or one in the form of {@link #trial} where the person named one trace.
   *
   * @param withVerdict whether each result carries its overall verdict, as {@code compare} gives it
   */
  public static String batch(Batch batch, boolean withVerdict) {
    return batch(batch, withVerdict, null);
  }

  /**
   * The same with the heat account of the asset they are of.
   *
   * @param heat null where they are not of one asset, or it cannot be had
   */
  public static String batch(Batch batch, boolean withVerdict, @Nullable HeatResult heat) {
    JsonText json = new JsonText();
    if (batch.single() && batch.entries().get(0) instanceof TrialResult only) {
      return json.object(
              out -> {
                TrialJson.result(out, only, withVerdict);
                heat(out, heat);
              })
          .finish();
    }
    if (batch.single() && batch.entries().get(0) instanceof FailedTrial failed) {
      return error(failed.error());
    }
    return json.object(
            out -> {
              out.array(
                  "results",
                  results -> {
                    for (Entry entry : batch.entries()) {
                      results.object(body -> entry(body, entry, withVerdict));
                    }
                  });
              heat(out, heat);
            })
        .finish();
  }

  private static void heat(JsonText out, @Nullable HeatResult heat) {
    if (heat != null) {
      out.object("heat", body -> HeatJson.answer(body, heat));
    }
  }

  static void entry(JsonText json, Entry entry, boolean withVerdict) {
    json.text("file", entry.file());
    if (entry instanceof TrialResult result) {
      json.object("result", out -> TrialJson.result(out, result, withVerdict));
    } else if (entry instanceof NotedTrial noted) {
      json.object("noted", out -> TrialJson.noted(out, noted));
    } else if (entry instanceof FailedTrial failed) {
      json.text("error", failed.error());
    }
  }

  /** Two trials side by side. */
  public static String comparison(Comparison comparison) {
    return new JsonText()
        .object(
            out -> {
              out.array(
                  "results",
                  results -> {
                    results.object(body -> entry(body, comparison.a(), true));
                    results.object(body -> entry(body, comparison.b(), true));
                  });
              out.array(
                  "differences",
                  rows -> {
                    for (Comparison.Row row : comparison.rows()) {
                      rows.object(body -> row(body, row));
                    }
                  });
            })
        .finish();
  }

  private static void row(JsonText json, Comparison.Row row) {
    json.text("figure", row.figure());
    json.text("part", row.part().key());
    json.text("unit", row.unit());
    json.number("a", row.a());
    json.number("b", row.b());
    json.number("difference", row.difference());
    json.number("difference_pct", row.differencePct());
    json.number("uncertainty", row.uncertainty());
    json.flag("beyond_uncertainty", row.beyondUncertainty());
    json.text("why", row.why());
  }

  /** What went wrong. */
  public static String error(String text) {
    return new JsonText().object(out -> out.text("error", text)).finish();
  }

  /** A text that lists the files a command made. */
  public static String files(List<String> files) {
    return new JsonText().object(out -> out.texts("files", files)).finish();
  }

  /** A script for a shell. */
  public static String script(String script) {
    return new JsonText().object(out -> out.text("script", script)).finish();
  }
}
