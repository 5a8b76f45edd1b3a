package rampwright.app.asset;

import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;

/**
 * Moments as people at the site read them off their clocks. Files keep UTC.
 *
 * @param zone the site's, or the machine's where the sheet names none
 */
public record SiteTime(ZoneId zone) {
  private static final DateTimeFormatter WHOLE =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm:ssxxx", Locale.ROOT);
  private static final DateTimeFormatter CLOCK =
      DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);
  private static final DateTimeFormatter WITH_DAY =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm:ss", Locale.ROOT);

  /** The time of an asset's site. */
  public static SiteTime of(Asset asset) {
    ZoneId zone = asset.zone();
    return new SiteTime(zone == null ? ZoneId.systemDefault() : zone);
  }

  /** Date, time and what it is ahead of UTC, to the second. */
  public String text(Instant at) {
    return WHOLE.format(local(at));
  }

  /** The time alone where it is the same day as another moment, else with the day. */
  public String near(Instant at, Instant other) {
    ZonedDateTime local = local(at);
    boolean sameDay = local.toLocalDate().equals(local(other).toLocalDate());
    return (sameDay ? CLOCK : WITH_DAY).format(local);
  }

  private ZonedDateTime local(Instant at) {
    return at.truncatedTo(ChronoUnit.SECONDS).atZone(zone);
  }
}
