package rampwright.app.json;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.app.alert.StandingAlert;
import rampwright.app.logbook.AlertAct;
import rampwright.app.trend.AssetFacts;
import rampwright.app.trend.Lead;

/** Alerts as JSON: a line for whoever is told, a list for whoever asks. */
public final class AlertJson {
  private AlertJson() {}

  /**
   * One line.
   *
   * @param act raised or cleared
   * @param first where to look first; null where figures do not say
   */
  public static String line(AlertAct act, AssetFacts facts, @Nullable Lead first) {
    return JsonText.ofOneLine()
        .object(
            out -> {
              out.text("at", time(act.at()));
              out.text("act", act.act().word());
              out.text("asset", act.asset());
              out.text("name", facts.name());
              out.text("group", facts.group());
              out.text("subject", act.subject());
              out.count("episode", act.episode());
              out.text("text", act.text());
              out.text("clears_when", act.clears());
              out.text("look_first", first == null ? null : first.look());
            })
        .finish()
        .strip();
  }

  /** Alerts that stand, as a field. */
  static void standing(JsonText json, List<StandingAlert> alerts) {
    json.array(
        "alerts",
        list -> {
          for (StandingAlert alert : alerts) {
            list.object(
                out -> {
                  out.text("asset", alert.raised().asset());
                  out.text("subject", alert.raised().subject());
                  out.count("episode", alert.raised().episode());
                  out.text("raised", time(alert.raised().at()));
                  out.text("text", alert.raised().text());
                  out.text("clears_when", alert.raised().clears());
                  out.array(
                      "seen",
                      seen -> {
                        for (AlertAct act : alert.seen()) {
                          seen.object(
                              by -> {
                                by.text("at", time(act.at()));
                                by.text("by", act.author());
                                by.text("note", act.text());
                              });
                        }
                      });
                });
          }
        });
  }

  private static String time(Instant at) {
    return at.truncatedTo(ChronoUnit.SECONDS).toString();
  }
}
