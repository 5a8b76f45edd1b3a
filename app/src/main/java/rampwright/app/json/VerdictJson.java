package rampwright.app.json;

import org.jspecify.annotations.Nullable;
import rampwright.app.envelope.Corridor;
import rampwright.app.envelope.CorridorCheck;
import rampwright.app.envelope.LimitCheck;
import rampwright.app.envelope.Polyline;
import rampwright.app.envelope.Verdict;

/** A verdict as JSON. */
final class VerdictJson {
  private VerdictJson() {}

  /** The verdict, or null, as the field {@code verdict}. */
  static void verdict(JsonText json, @Nullable Verdict verdict) {
    if (verdict == null) {
      json.nothing("verdict");
      return;
    }
    json.object(
        "verdict",
        out -> {
          out.flag("met", verdict.met());
          out.text("why", verdict.why());
          out.array(
              "limits",
              limits -> verdict.limits().forEach(check -> limits.object(b -> limit(b, check))));
          out.array(
              "corridors",
              corridors ->
                  verdict.corridors().forEach(check -> corridors.object(b -> corridor(b, check))));
        });
  }

  private static void limit(JsonText json, LimitCheck check) {
    json.text("figure", check.limit().figure().key());
    json.number("min", check.limit().min());
    json.number("max", check.limit().max());
    json.number("value", check.value());
    json.flag("met", check.met());
    json.number("margin_pct", check.marginPct());
    json.text("why", check.why());
  }

  private static void corridor(JsonText json, CorridorCheck check) {
    Corridor corridor = check.corridor();
    json.text("channel", corridor.channel().key());
    json.text("part", corridor.part().key());
    bound(json, "upper", corridor.upper());
    bound(json, "lower", corridor.lower());
    json.flag("met", check.met());
    json.number("margin_pct", check.marginPct());
    json.number("at_s", check.atS());
    json.number("value", check.value());
    json.number("bound", check.bound());
    json.text("why", check.why());
  }

  private static void bound(JsonText json, String key, Polyline bound) {
    json.array(key, out -> bound.points().forEach(point -> out.pair(point.timeS(), point.value())));
  }
}
