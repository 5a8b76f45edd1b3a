package rampwright.app.json;

import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.heat.HeatPart;
import rampwright.analysis.heat.HeatStanding;
import rampwright.analysis.heat.StartHeat;
import rampwright.app.result.HeatResult;

/** A heat account as JSON. */
public final class HeatJson {
  private HeatJson() {}

  /** The whole text. */
  public static String account(HeatResult result) {
    return new JsonText().object(out -> body(out, result)).finish();
  }

  /** The account's answer in short, as other results carry it. */
  static void answer(JsonText out, HeatResult result) {
    HeatStanding standing = result.standing();
    HeatPart.Kind ruledBy = standing.ruledBy();
    out.text("as_of", result.asOf().truncatedTo(ChronoUnit.SECONDS).toString());
    out.text("zone", String.valueOf(result.site().zone()));
    out.number("next_start_in_s", standing.waitS());
    out.text(
        "next_start_at", result.nextStart() == null ? null : String.valueOf(result.nextStart()));
    if (standing.why() != null) {
      out.text("why", standing.why());
    }
    out.text("ruled_by", ruledBy == null ? null : ruledBy.key());
    out.flag("running", standing.running());
    out.number("next_start_rotor_pct", 100 * standing.expectedRotor());
  }

  static void body(JsonText out, HeatResult result) {
    HeatStanding standing = result.standing();
    answer(out, result);
    out.number("starts_per_hour", standing.startsPerHour());
    out.number("rest_s", standing.restS());
    out.flag("hot_assumed", standing.hotAssumed());
    out.array("parts", array -> standing.parts().forEach(part -> array.object(b -> part(b, part))));
    out.array(
        "starts",
        array -> standing.starts().forEach(one -> array.object(b -> start(b, result, one))));
    out.texts("remarks", result.remarks());
  }

  private static void part(JsonText json, HeatPart part) {
    json.text("part", part.kind().key());
    json.number("used_pct", part.usedPct());
    json.number("stated_pct", part.statedPct());
    json.number("next_start_in_s", part.waitS());
    json.text("text", part.text());
    json.text("source", part.kind().source());
  }

  private static void start(JsonText json, HeatResult result, StartHeat start) {
    json.text("trial", start.name());
    json.text("at", result.at(start.atS()).truncatedTo(ChronoUnit.SECONDS).toString());
    json.text("dated_by", result.datedBy().get(start.name()));
    json.text("outcome", start.outcome());
    json.flag("measured", start.measured());
    json.number("rotor_before_pct", 100 * start.before().rotor());
    json.number("rotor_added_pct", 100 * start.rotorAdded());
    json.number("stator_added_pct", 100 * start.statorAdded());
    json.number("starter_duty_pct", 100 * start.duty());
    json.number("relay_margin_pct", margin(start.relayHighest()));
    json.number("too_soon_by_s", start.isTooSoon() ? start.tooSoonByS() : Double.valueOf(0));
    HeatPart.Kind ruledBy = start.ruledBy();
    json.text("ruled_by", ruledBy == null ? null : ruledBy.key());
  }

  private static @Nullable Double margin(@Nullable Double level) {
    return level == null ? null : Double.valueOf(100 * (1 - level));
  }
}
