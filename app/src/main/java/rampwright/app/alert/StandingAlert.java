package rampwright.app.alert;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import rampwright.app.logbook.AlertAct;

/**
 * An alert that was raised and not cleared, with what became of it since.
 *
 * @param raised the act that raised it
 * @param told where it was told
 * @param seen by people, in order
 */
public record StandingAlert(AlertAct raised, Set<String> told, List<AlertAct> seen) {
  public StandingAlert {
    told = Set.copyOf(told);
    seen = List.copyOf(seen);
  }

  /** Whether somebody has looked at it. */
  public boolean isSeen() {
    return !seen.isEmpty();
  }

  /** The alert in words, with who has seen it and what would clear it. */
  public String words() {
    return shortly() + "; clears when " + raised.clears();
  }

  /** The alert in words, with who has seen it. */
  public String shortly() {
    StringBuilder text = new StringBuilder(raised.text());
    for (AlertAct act : seen) {
      text.append("; seen by ").append(act.author()).append(": ").append(act.text());
    }
    return text.toString();
  }

  /** Those of one asset that stand, in the order in which they were raised. */
  public static List<StandingAlert> of(List<AlertAct> acts) {
    return episodes(acts, false);
  }

  /** The same, or those that were cleared: their clearing may yet have to be told. */
  public static List<StandingAlert> episodes(List<AlertAct> acts, boolean cleared) {
    Map<String, List<AlertAct>> byEpisode = new LinkedHashMap<>();
    for (AlertAct act : acts) {
      byEpisode
          .computeIfAbsent(act.subject() + "\n" + act.episode(), key -> new ArrayList<>())
          .add(act);
    }
    List<StandingAlert> alerts = new ArrayList<>();
    for (List<AlertAct> episode : byEpisode.values()) {
      AlertAct raised = null;
      boolean isCleared = false;
      Set<String> told = new LinkedHashSet<>();
      List<AlertAct> seen = new ArrayList<>();
      for (AlertAct act : episode) {
        switch (act.act()) {
          case RAISED -> raised = act;
          case TOLD -> told.add(act.text());
          case SEEN -> seen.add(act);
          case CLEARED -> isCleared = true;
        }
      }
      if (raised != null && isCleared == cleared) {
        alerts.add(new StandingAlert(raised, told, seen));
      }
    }
    return alerts;
  }
}
