package rampwright.app.usecase;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.app.alert.StandingAlert;
import rampwright.app.logbook.AlertAct;
import rampwright.app.logbook.LogEvent;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.LogbookException;

/** Keeps a logbook in order: verifies, backs up, takes a person's notes. */
public final class TendLogbook {
  private final LogbookUse logbooks;

  public TendLogbook(LogbookUse logbooks) {
    this.logbooks = logbooks;
  }

  /** Recomputes every hash. */
  public Logbook.Verified verify(@Nullable String logbook)
      throws InputProblem, UsageProblem, InterruptedException {
    return logbooks.run(logbook, Logbook::verify);
  }

  /**
   * Copies the logbook to a new file while it is in use.
   *
   * @throws UsageProblem where the target is already there: a backup overwrites nothing
   */
  public void backup(@Nullable String logbook, Path target)
      throws InputProblem, UsageProblem, InterruptedException {
    if (Files.exists(target)) {
      throw new UsageProblem(target + ": is already there; name a new file for the backup");
    }
    logbooks.run(
        logbook,
        book -> {
          book.backup(target);
          return true;
        });
  }

  /**
   * Notes an event of an asset.
   *
   * @throws UsageProblem where the asset has no starts: most likely it is misspelt
   */
  public void note(@Nullable String logbook, LogEvent event)
      throws InputProblem, UsageProblem, InterruptedException {
    logbooks.run(
        logbook,
        book -> {
          LogbookUse.demandKnown(event.asset(), book.assets());
          if (event.kind() == LogEvent.Kind.ZONE && NotedFacts.zone(event.text()).isEmpty()) {
            throw new UsageProblem(
                event.text()
                    + ": is no time zone; write one such as UTC, +05:45 or a name of the zone tables");
          }
          if (event.kind() == LogEvent.Kind.SEEN) {
            seen(book, event);
          }
          book.append(event);
          return true;
        });
  }

  /** Every alert of the asset that stands has now been seen, by somebody with a name. */
  private static void seen(Logbook book, LogEvent event) throws LogbookException, UsageProblem {
    if (event.author().isBlank()) {
      throw new UsageProblem("say who has seen the alerts: --by NAME");
    }
    List<StandingAlert> standing = StandingAlert.of(book.alerts(event.asset()));
    if (standing.isEmpty()) {
      throw new UsageProblem(event.asset() + ": no alert stands that could have been seen");
    }
    book.appendAlerts(
        standing.stream()
            .map(
                alert ->
                    new AlertAct(
                        event.asset(),
                        alert.raised().subject(),
                        alert.raised().episode(),
                        AlertAct.Act.SEEN,
                        event.at(),
                        event.text(),
                        "",
                        event.author()))
            .toList());
  }
}
