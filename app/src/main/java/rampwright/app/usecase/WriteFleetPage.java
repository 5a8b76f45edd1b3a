package rampwright.app.usecase;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.AtomicFile;
import rampwright.app.alert.StandingAlert;
import rampwright.app.page.FleetPage;
import rampwright.app.trend.AssetTrend;

/** The fleet's trends as one page of HTML in a file, whole or not at all. */
public final class WriteFleetPage {
  private final LogbookUse logbooks;
  private final InstantSource clock;

  public WriteFleetPage(LogbookUse logbooks, InstantSource clock) {
    this.logbooks = logbooks;
    this.clock = clock;
  }

  /**
   * Writes the page over what was there.
   *
   * @param zone in which it says when it was made; null for UTC
   */
  public void run(
      List<AssetTrend> assets, Path target, @Nullable ZoneId zone, @Nullable String logbook)
      throws InputProblem, UsageProblem, InterruptedException {
    Map<String, List<StandingAlert>> alerts =
        logbooks.run(
            logbook,
            book -> {
              Map<String, List<StandingAlert>> standing = new LinkedHashMap<>();
              for (AssetTrend asset : assets) {
                standing.put(asset.asset(), StandingAlert.of(book.alerts(asset.asset())));
              }
              return standing;
            });
    Instant now = clock.instant();
    String made =
        "Made "
            + DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT)
                .withZone(zone == null ? ZoneOffset.UTC : zone)
                .format(now)
            + (zone == null ? " UTC" : " " + zone.getId())
            + ". It measures and advises; before anybody works on a machine, local codes and"
            + " licensed practice come first.";
    write(target, FleetPage.html(assets, alerts, made));
  }

  private static void write(Path target, String text) throws InputProblem {
    try {
      AtomicFile.write(target, text.getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new InputProblem(target + ": cannot be written: " + e.getMessage());
    }
  }
}
