package rampwright.exam.store;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import rampwright.app.envelope.FigureKey;
import rampwright.app.logbook.LogEntry;
import rampwright.app.logbook.LoggedFigure;
import rampwright.app.logbook.Origin;

/**
 * Starts of a made-up fleet in the order they would be logged: assets mixed, one round of the fleet
 * after the other. Each start has every figure but three, with scatter, a supply that moves and,
 * for every tenth asset, a drift of 15 % a year of its start time.
 */
final class FleetOfStarts {
  private static final Instant BEGIN = Instant.parse("2022-01-01T00:00:00Z");
  private static final Duration BETWEEN_ROUNDS = Duration.ofHours(36);
  private static final double DRIFT_PER_YEAR = 0.15;
  private static final double SCATTER = 0.04;

  private final int assets;
  private final Random chance;

  FleetOfStarts(int assets, long seed) {
    this.assets = assets;
    chance = new Random(seed);
  }

  static String asset(int number) {
    return String.format(Locale.ROOT, "M-%05d", number);
  }

  /** One start of every asset. */
  List<LogEntry> round(int round) {
    List<LogEntry> starts = new ArrayList<>();
    for (int k = 0; k < assets; k++) {
      starts.add(start(k, round));
    }
    return starts;
  }

  private LogEntry start(int asset, int round) {
    Instant at = BEGIN.plus(BETWEEN_ROUNDS.multipliedBy(round)).plusSeconds(30L * asset);
    double years = BETWEEN_ROUNDS.multipliedBy(round).toHours() / 8766.0;
    double drift = asset % 10 == 0 ? 1 + DRIFT_PER_YEAR * years : 1;
    Map<String, LoggedFigure> figures = new TreeMap<>();
    List<String> keys = FigureKey.keys();
    for (int i = 0; i < keys.size(); i++) {
      String key = keys.get(i);
      String unit = FigureKey.ofKey(key).orElseThrow().unit();
      double centre = key.equals(FigureKey.VOLTAGE_BEFORE.key()) ? 400 : 10 + i;
      double scatter = key.equals(FigureKey.VOLTAGE_BEFORE.key()) ? 0.01 : SCATTER;
      double value = centre * (1 + scatter * chance.nextGaussian()) * (i == 0 ? drift : 1);
      boolean missing = key.startsWith("pressure") || key.startsWith("pipe");
      figures.put(
          key,
          missing
              ? new LoggedFigure(Double.NaN, unit, Double.NaN, "the trace has no pressure")
              : new LoggedFigure(
                  value, unit, Math.rint(1e4 * value) / 1e6, "taken from inception to full speed"));
    }
    String trial = at.toString().replaceAll("[-:]", "");
    return new LogEntry(
        asset(asset),
        at,
        "torque ramp, current_limit_ratio 3.5, ramp_up_s 10, initial_torque_pct 20, stop soft",
        "completed",
        true,
        "",
        "",
        "",
        new Origin("trial " + trial, trial + "#1", "0.1.0", "1", hash(), List.of()),
        figures);
  }

  private String hash() {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < 4; i++) {
      text.append(String.format(Locale.ROOT, "%016x", chance.nextLong()));
    }
    return text.toString();
  }
}
