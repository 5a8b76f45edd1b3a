package rampwright.app.logbook;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** What becomes of alerts, in a table that only grows. */
final class AlertTable {
  static final String NAME = "alert_act";

  /**
   * {@code once} is what may be there only once an episode: two programs cannot raise one alert.
   */
  static final List<String> STEP =
      List.of(
          "CREATE TABLE alert_act (id #id, asset TEXT NOT NULL, subject TEXT NOT NULL,"
              + " episode INTEGER NOT NULL, act TEXT NOT NULL, once TEXT NOT NULL,"
              + " at_utc TEXT NOT NULL, text TEXT NOT NULL, clears TEXT NOT NULL,"
              + " author TEXT NOT NULL, logged_utc TEXT NOT NULL#key)",
          "CREATE UNIQUE INDEX alert_act_once ON alert_act (asset, subject, episode, once)");

  private final Connection connection;

  AlertTable(Connection connection) {
    this.connection = connection;
  }

  /** Those that were not there already. */
  List<AlertAct> append(List<AlertAct> acts, Instant now) throws SQLException {
    List<AlertAct> entered = new ArrayList<>();
    try (PreparedStatement insert =
        connection.prepareStatement(
            "INSERT INTO alert_act (asset, subject, episode, act, once, at_utc, text, clears,"
                + " author, logged_utc) VALUES (?,?,?,?,?,?,?,?,?,?) ON CONFLICT DO NOTHING")) {
      for (AlertAct act : acts) {
        int at = 0;
        insert.setString(++at, act.asset());
        insert.setString(++at, act.subject());
        insert.setInt(++at, act.episode());
        insert.setString(++at, act.act().word());
        insert.setString(++at, once(act));
        insert.setString(++at, UtcText.of(act.at()));
        insert.setString(++at, act.text());
        insert.setString(++at, act.clears());
        insert.setString(++at, act.author());
        insert.setString(++at, UtcText.of(now));
        if (insert.executeUpdate() > 0) {
          entered.add(act);
        }
      }
    }
    return entered;
  }

  private static String once(AlertAct act) {
    return switch (act.act()) {
      case RAISED, CLEARED -> act.act().word();
      case TOLD -> act.act().word() + " " + act.text();
      case SEEN -> act.act().word() + " " + UtcText.of(act.at()) + " " + act.text();
    };
  }

  List<AlertAct> of(String asset) throws SQLException {
    Map<String, AlertAct.Act> words = new HashMap<>();
    for (AlertAct.Act act : AlertAct.Act.values()) {
      words.put(act.word(), act);
    }
    List<AlertAct> acts = new ArrayList<>();
    try (PreparedStatement select =
        connection.prepareStatement(
            "SELECT subject, episode, act, at_utc, text, clears, author FROM alert_act"
                + " WHERE asset = ? ORDER BY id")) {
      select.setString(1, asset);
      try (ResultSet rows = select.executeQuery()) {
        while (rows.next()) {
          AlertAct.Act act = words.get(rows.getString(3));
          if (act != null) {
            acts.add(
                new AlertAct(
                    asset,
                    rows.getString(1),
                    rows.getInt(2),
                    act,
                    UtcText.instant(rows.getString(4)),
                    rows.getString(5),
                    rows.getString(6),
                    rows.getString(7)));
          }
        }
      }
    }
    return acts;
  }
}
