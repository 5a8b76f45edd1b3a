package rampwright.app.result;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.heat.HeatStanding;
import rampwright.app.asset.AssetFile;
import rampwright.app.asset.SiteTime;

/**
 * An asset's heat account at a moment.
 *
 * @param asset the asset
 * @param site whose clocks people there go by
 * @param asOf the moment
 * @param standing how the circuit stands; its seconds count from {@code asOf}
 * @param datedBy how each trace's date is known, by its name
 * @param remarks what was assumed, and what a person should put right; one line each
 */
public record HeatResult(
    AssetFile asset,
    SiteTime site,
    Instant asOf,
    HeatStanding standing,
    Map<String, String> datedBy,
    List<String> remarks) {
  public HeatResult {
    datedBy = Map.copyOf(datedBy);
    remarks = List.copyOf(remarks);
  }

  /** When the next start is allowed; null when that is not to be had. */
  public @Nullable Instant nextStart() {
    Double waitS = standing.waitS();
    return waitS == null ? null : at(waitS);
  }

  /** The instant of a second of the standing, rounded up to whole seconds. */
  public Instant at(double second) {
    Instant exact = asOf.plusMillis(Math.round(1000 * second));
    Instant whole = exact.truncatedTo(ChronoUnit.SECONDS);
    return whole.equals(exact) ? whole : whole.plusSeconds(1);
  }
}
