package rampwright.app.usecase;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import rampwright.app.alert.AlertRules;
import rampwright.app.alert.Condition;
import rampwright.app.alert.StandingAlert;
import rampwright.app.alert.TellException;
import rampwright.app.alert.Teller;
import rampwright.app.json.AlertJson;
import rampwright.app.logbook.AlertAct;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.LogbookException;
import rampwright.app.trend.AssetTrend;
import rampwright.app.trend.Lead;

/**
 * Raises and clears alerts by the trends, once each, and tells them: entered in the logbook first,
 * told then, noted as told last. After a power cut in between an alert is told again rather than
 * lost.
 */
public final class RaiseAlerts {
  private final LogbookUse logbooks;

  public RaiseAlerts(LogbookUse logbooks) {
    this.logbooks = logbooks;
  }

  /**
   * What came of it.
   *
   * @param raised alerts, by this run
   * @param cleared alerts, by this run
   * @param standing alerts
   * @param troubles of telling, a line each
   */
  public record Outcome(
      int raised, int cleared, List<StandingAlert> standing, List<String> troubles) {
    public Outcome {
      standing = List.copyOf(standing);
      troubles = List.copyOf(troubles);
    }

    /** Whether an alert stands that nobody has seen. */
    public boolean needsEyes() {
      return standing.stream().anyMatch(alert -> !alert.isSeen());
    }
  }

  /** Looks at the trends, and tells every teller what it has not been told. */
  public Outcome run(
      List<AssetTrend> assets, Duration within, List<Teller> tellers, @Nullable String logbook)
      throws InputProblem, UsageProblem, InterruptedException {
    return logbooks.run(logbook, book -> new Run(book, within, tellers).of(assets));
  }

  /** One run. */
  private static final class Run {
    private final Logbook book;
    private final AlertRules rules;
    private final Instant now;
    private final List<Teller> tellers;
    private final Map<String, String> troubles = new LinkedHashMap<>();
    private final List<StandingAlert> standing = new ArrayList<>();
    private int raised;
    private int cleared;

    Run(Logbook book, Duration within, List<Teller> tellers) {
      this.book = book;
      this.now = book.now();
      this.rules = new AlertRules(within, now);
      this.tellers = tellers;
    }

    Outcome of(List<AssetTrend> assets) throws LogbookException, InterruptedException {
      for (AssetTrend asset : assets) {
        List<AlertAct> former = book.alerts(asset.asset());
        Set<String> limited = book.limits(asset.asset()).keySet();
        List<AlertAct> entered = book.appendAlerts(acts(asset, former, limited));
        for (AlertAct act : entered) {
          raised += act.act() == AlertAct.Act.RAISED ? 1 : 0;
          cleared += act.act() == AlertAct.Act.CLEARED ? 1 : 0;
        }
        List<AlertAct> all = book.alerts(asset.asset());
        for (Teller teller : tellers) {
          tell(teller, asset, all);
        }
        standing.addAll(StandingAlert.of(all));
      }
      return new Outcome(raised, cleared, standing, List.copyOf(troubles.values()));
    }

    private List<AlertAct> acts(AssetTrend asset, List<AlertAct> former, Set<String> limited) {
      Map<String, StandingAlert> stand = new LinkedHashMap<>();
      StandingAlert.of(former).forEach(alert -> stand.put(alert.raised().subject(), alert));
      List<AlertAct> acts = new ArrayList<>();
      for (Condition condition : rules.of(asset, limited)) {
        StandingAlert there = stand.get(condition.subject());
        if (there == null && condition.level() == Condition.Level.RAISES) {
          int episode = 1 + episodes(former, condition.subject());
          acts.add(act(asset, condition, episode, AlertAct.Act.RAISED));
        } else if (there != null
            && condition.level() == Condition.Level.QUIET
            && AlertRules.isCleared(asset, condition, there.raised().at())) {
          acts.add(act(asset, condition, there.raised().episode(), AlertAct.Act.CLEARED));
        }
      }
      return acts;
    }

    private static int episodes(List<AlertAct> former, String subject) {
      return former.stream()
          .filter(act -> act.subject().equals(subject))
          .mapToInt(AlertAct::episode)
          .max()
          .orElse(0);
    }

    private AlertAct act(AssetTrend asset, Condition condition, int episode, AlertAct.Act act) {
      boolean raise = act == AlertAct.Act.RAISED;
      return new AlertAct(
          asset.asset(),
          condition.subject(),
          episode,
          act,
          now,
          raise ? condition.text() : condition.subject() + ": cleared",
          raise ? condition.clears() : "",
          "");
    }

    /** In order; after the first failure the others of this teller wait for the next run. */
    private void tell(Teller teller, AssetTrend asset, List<AlertAct> acts)
        throws LogbookException, InterruptedException {
      Lead first = asset.leads().isEmpty() ? null : asset.leads().get(0);
      for (AlertAct act : acts) {
        boolean news = act.act() == AlertAct.Act.RAISED || act.act() == AlertAct.Act.CLEARED;
        if (!news || troubles.containsKey(teller.id()) || isTold(teller, act, acts)) {
          continue;
        }
        try {
          teller.tell(AlertJson.line(act, asset.facts(), first));
          book.appendAlerts(List.of(told(teller, act)));
        } catch (TellException e) {
          troubles.put(teller.id(), String.valueOf(e.getMessage()));
        }
      }
    }

    private static String mark(Teller teller, AlertAct act) {
      return teller.id() + " " + act.act().word();
    }

    private static boolean isTold(Teller teller, AlertAct act, List<AlertAct> acts) {
      return acts.stream()
          .anyMatch(
              other ->
                  other.act() == AlertAct.Act.TOLD
                      && other.subject().equals(act.subject())
                      && other.episode() == act.episode()
                      && other.text().equals(mark(teller, act)));
    }

    private AlertAct told(Teller teller, AlertAct act) {
      return new AlertAct(
          act.asset(),
          act.subject(),
          act.episode(),
          AlertAct.Act.TOLD,
          now,
          mark(teller, act),
          "",
          "");
    }
  }
}
