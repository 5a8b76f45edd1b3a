package rampwright.app.json;

import java.util.List;
import java.util.Map;
import rampwright.analysis.figure.Finding;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.StopRecord;
import rampwright.analysis.figure.TraceFigures;
import rampwright.analysis.quantity.Measured;

/** Starts, stops, instants, figures and findings as JSON. */
final class FiguresJson {
  static final List<String> START_INSTANTS =
      List.of("inception_s", "breakaway_s", "full_speed_s", "knee_s", "bypass_s", "settled_s");
  static final List<String> STOP_INSTANTS = List.of("stop_begin_s", "release_s", "rest_s");

  private static final String HARMONICS = "harmonics";

  private FiguresJson() {}

  /** Fields of a start but its verdict. */
  static void start(JsonText json, TraceFigures figures, int index) {
    StartRecord start = figures.starts().get(index);
    json.text("outcome", start.outcome().key());
    instants(json, START_INSTANTS, start.instants());
    json.object(
        "figures",
        out -> {
          start
              .figures()
              .forEach(
                  (key, figure) -> {
                    if (!HARMONICS.equals(key)) {
                      out.object(key, body -> figure(body, figure));
                    }
                  });
          harmonics(out, figures, index, start.figures());
        });
    StopRecord stop = start.stop();
    if (stop == null) {
      json.nothing("stop");
    } else {
      json.object("stop", out -> stop(out, stop));
    }
  }

  private static void stop(JsonText json, StopRecord stop) {
    json.text("kind", stop.kind().key());
    instants(json, STOP_INSTANTS, stop.instants());
    json.object(
        "figures",
        out ->
            stop.figures().forEach((key, figure) -> out.object(key, body -> figure(body, figure))));
  }

  private static void instants(JsonText json, List<String> keys, Map<String, Measured> instants) {
    json.object(
        "instants",
        out -> {
          for (String key : keys) {
            Measured instant = instants.get(key);
            out.number(key, instant == null ? null : instant.value());
          }
        });
    json.object(
        "instant_details",
        out -> {
          for (String key : keys) {
            Measured instant = instants.get(key);
            if (instant != null) {
              out.object(key, body -> figure(body, instant));
            }
          }
        });
  }

  /** Fields of one figure. */
  static void figure(JsonText json, Measured figure) {
    json.number("value", figure.value());
    json.text("unit", figure.unit());
    if (!figure.isPresent()) {
      json.text("why", figure.why());
      return;
    }
    json.number("uncertainty", figure.uncertainty());
    json.number("from_s", figure.fromS());
    json.number("to_s", figure.toS());
    json.text("rule", figure.rule());
    if (figure.phase() != null) {
      json.text("phase", figure.phase());
    }
    if (!figure.phases().isEmpty()) {
      json.object("phases", out -> figure.phases().forEach(out::number));
    }
    if (!figure.parts().isEmpty()) {
      json.object("parts", out -> figure.parts().forEach(out::number));
    }
  }

  private static void harmonics(
      JsonText json, TraceFigures figures, int index, Map<String, Measured> ofStart) {
    boolean has = index < figures.harmonics().size() && !figures.harmonics().get(index).isEmpty();
    if (has) {
      json.object(
          HARMONICS,
          out ->
              figures
                  .harmonics()
                  .get(index)
                  .forEach(
                      (order, share) ->
                          out.object(
                              String.valueOf(order),
                              body -> {
                                body.number("median", share.medianPct());
                                body.number("largest", share.largestPct());
                              })));
      return;
    }
    Measured missing = ofStart.get(HARMONICS);
    if (missing != null) {
      json.object(HARMONICS, out -> figure(out, missing));
    }
  }

  /** The findings as the field {@code findings}. */
  static void findings(JsonText json, List<Finding> findings) {
    json.array(
        "findings",
        out -> {
          for (Finding finding : findings) {
            out.object(
                body -> {
                  body.text("code", finding.code());
                  body.number("from_s", finding.fromS());
                  body.number("to_s", finding.toS());
                  body.number("value", finding.value());
                  body.text("text", finding.text());
                });
          }
        });
  }
}
