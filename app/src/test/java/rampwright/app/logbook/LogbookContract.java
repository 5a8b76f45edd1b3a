package rampwright.app.logbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static rampwright.app.logbook.Starts.NOON;
import static rampwright.app.logbook.Starts.entry;
import static rampwright.app.logbook.Starts.row;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import rampwright.app.envelope.FigureKey;

/** What every store has to do; run for each. */
abstract class LogbookContract {
  private static final Clock CLOCK = Clock.fixed(NOON.plusSeconds(86_400), ZoneOffset.UTC);

  /** Where this test's logbook is, as a person names it. */
  abstract String where();

  /** Opens the store behind the logbook's back. */
  abstract Connection raw() throws SQLException;

  /** Lets the store be changed from behind. */
  abstract void unguard(Statement statement, String table) throws SQLException;

  @Nullable String environment(String name) {
    return null;
  }

  Logbook open() throws LogbookException {
    return Logbook.open(where(), this::environment, CLOCK);
  }

  private void change(String table, String sql) throws SQLException {
    try (Connection raw = raw();
        Statement statement = raw.createStatement()) {
      unguard(statement, table);
      statement.execute(sql);
    }
  }

  @Test
  void whatIsEnteredIsReadAgain() throws Exception {
    try (Logbook logbook = open()) {
      assertThat(logbook.append(List.of(entry(NOON, 8.5))).added()).isEqualTo(1);
    }
    try (Logbook logbook = open()) {
      LogEntry read = logbook.starts("P-1").get(0);
      assertThat(read.figures()).isEqualTo(entry(NOON, 8.5).figures());
      assertThat(read.at()).isEqualTo(NOON);
      assertThat(read.origin().definitions()).isEqualTo("1");
      assertThat(logbook.assets()).containsExactly("P-1");
      KeptEntry kept = logbook.newest("P-1", 5).get(0);
      assertThat(kept.loggedAt()).isEqualTo(CLOCK.instant());
      assertThat(logbook.files(kept))
          .singleElement()
          .satisfies(file -> assertThat(file.content()).isEqualTo(Starts.TRACE.content()));
      assertThat(logbook.verify()).isEqualTo(new Logbook.Verified(1, 1, List.of()));
    }
  }

  @Test
  void everyFigureHasItsColumn() throws Exception {
    Random chance = new Random(5);
    Map<String, LoggedFigure> figures = new HashMap<>();
    for (String key : FigureKey.keys()) {
      assertThat(FigureColumns.KEYS).contains(key);
      double value = Double.longBitsToDouble(chance.nextLong());
      figures.put(key, new LoggedFigure(value, "x", chance.nextDouble(), "as it is"));
    }
    figures.put("run_current_A", new LoggedFigure(-0.0, "A", 0.0, ""));
    LogEntry all = entry(NOON, 1).with(Origin.withoutTrace("made up"), figures);
    try (Logbook logbook = open()) {
      logbook.append(List.of(all));
      assertThat(logbook.starts("P-1").get(0).figures()).isEqualTo(all.figures());
      assertThat(logbook.verify().damaged()).isEmpty();
      assertThat(logbook.append(List.of(all)).known()).isEqualTo(1);
    }
  }

  /** A trend reads by column: the same values as whoever reads whole entries. */
  @Test
  void columnsSayWhatTheEntriesSay() throws Exception {
    List<LogEntry> made = new ArrayList<>();
    for (int i = 0; i < 700; i++) {
      made.add(entry(NOON.plusSeconds(60L * i), i % 7 == 0 ? 0.0 : 8 + 0.01 * i));
    }
    LogEntry stalled =
        new LogEntry(
            "P-1",
            NOON.plusSeconds(5),
            "other",
            "stalled",
            true,
            "",
            "",
            "",
            made.get(0).origin(),
            Map.of("run_current_A", new LoggedFigure(-0.0, "A", 0.0, "")));
    try (Logbook logbook = open()) {
      logbook.append(made);
      logbook.append(List.of(stalled, entry(NOON, 9.75)));
      List<LogEntry> starts = logbook.starts("P-1");
      StartColumns columns = logbook.columns("P-1");
      assertThat(columns.size()).isEqualTo(starts.size());
      assertThat(columns.at()).isEqualTo(starts.stream().map(LogEntry::at).toList());
      assertThat(columns.settings()).isEqualTo(starts.stream().map(LogEntry::settings).toList());
      assertThat(columns.figures())
          .containsOnlyKeys("start_time_s", "run_current_A", "not_a_column");
      for (int i = 0; i < starts.size(); i++) {
        assertThat(columns.counts().get(i)).isEqualTo(starts.get(i).outcome().equals("completed"));
        for (Map.Entry<String, double[]> column : columns.figures().entrySet()) {
          assertThat((Double) column.getValue()[i])
              .isEqualTo((Double) starts.get(i).value(column.getKey()));
        }
      }
      assertThat(logbook.columns("P-2").size()).isZero();
      assertThat(logbook.holds("P-1")).isTrue();
      assertThat(logbook.holds("P-2")).isFalse();
    }
  }

  /** Many at once, known ones, doubles and corrections among them. */
  @Test
  void manyAtOnceAreEnteredAsOneByOne() throws Exception {
    List<LogEntry> made = new ArrayList<>();
    for (int i = 0; i < 450; i++) {
      made.add(entry(NOON.plusSeconds(60L * i), 8 + 0.01 * i));
    }
    List<LogEntry> all = new ArrayList<>(made);
    all.add(made.get(11));
    all.add(entry(NOON.plusSeconds(60), 5));
    LogEntry moved = made.get(20);
    all.add(entry("P-1", moved.at().plusSeconds(7), 8.2, moved.origin().trial()));
    try (Logbook logbook = open()) {
      assertThat(logbook.append(made.subList(0, 30))).isEqualTo(new Logbook.Appended(30, 0, 0));
      assertThat(logbook.append(all)).isEqualTo(new Logbook.Appended(422, 31, 2));
      assertThat(logbook.starts("P-1")).hasSize(450);
      assertThat(logbook.append(all).added())
          .as("the two last words stand against each other")
          .isLessThanOrEqualTo(4);
      assertThat(logbook.verify().damaged()).isEmpty();
    }
  }

  @Test
  void textOfEveryKindIsKept() throws Exception {
    String odd = "Größe\t\"x\"\n'; DROP TABLE entry; -- \u0000 \ud83d\udd27 \u202e";
    LogEntry said =
        new LogEntry(odd, NOON, odd, odd, false, odd, odd, odd, Origin.withoutTrace(odd), Map.of());
    try (Logbook logbook = open()) {
      logbook.append(List.of(said));
      assertThat(logbook.assets()).containsExactly(odd.replace('\0', '\ufffd'));
      assertThat(logbook.starts(said.asset())).containsExactly(said);
      assertThat(logbook.verify().damaged()).isEmpty();
    }
  }

  @Test
  void theSameStartTwiceIsKnown() throws Exception {
    try (Logbook logbook = open()) {
      logbook.append(List.of(entry(NOON, 8.5)));
      assertThat(logbook.append(List.of(entry(NOON, 8.5))))
          .isEqualTo(new Logbook.Appended(0, 1, 0));
      assertThat(logbook.append(List.of(entry(NOON, 8.6), entry(NOON, 8.6))))
          .isEqualTo(new Logbook.Appended(1, 1, 1));
      assertThat(logbook.size()).isEqualTo(2);
    }
  }

  @Test
  void aCorrectionNamesTheOldAndBothAreKept() throws Exception {
    try (Logbook logbook = open()) {
      logbook.append(List.of(entry(NOON, 8.5)));
      assertThat(logbook.append(List.of(entry(NOON, 8.7))))
          .isEqualTo(new Logbook.Appended(1, 0, 1));
      assertThat(logbook.size()).isEqualTo(2);
      assertThat(logbook.starts("P-1")).hasSize(1);
      assertThat(logbook.starts("P-1").get(0).value("start_time_s")).isEqualTo(8.7);
      List<KeptEntry> history = logbook.history("P-1", NOON, NOON);
      assertThat(history).hasSize(2);
      assertThat(history.get(0).inForce()).isFalse();
      assertThat(history.get(0).entry().value("start_time_s")).isEqualTo(8.5);
      assertThat(history.get(1).inForce()).isTrue();
      assertThat(history.get(1).replaces()).isEqualTo(OptionalLong.of(history.get(0).number()));
    }
  }

  @Test
  void aCorrectionTakenBackHoldsAgain() throws Exception {
    try (Logbook logbook = open()) {
      logbook.append(List.of(entry(NOON, 8.5)));
      logbook.append(List.of(entry(NOON, 8.7)));
      assertThat(logbook.append(List.of(entry(NOON, 8.5))).corrected()).isEqualTo(1);
      assertThat(logbook.starts("P-1").get(0).value("start_time_s")).isEqualTo(8.5);
      assertThat(logbook.size()).isEqualTo(3);
      assertThat(logbook.verify().damaged()).isEmpty();
    }
  }

  @Test
  void aCorrectedInstantDoesNotMakeTwoStartsOfOne() throws Exception {
    try (Logbook logbook = open()) {
      logbook.append(List.of(entry("P-1", NOON, 8.5, "one#1"), entry("P-1", NOON, 8.5, "one#1")));
      Instant moved = NOON.plusSeconds(3600);
      assertThat(logbook.append(List.of(entry("P-1", moved, 8.5, "one#1"))).corrected())
          .isEqualTo(1);
      assertThat(logbook.starts("P-1")).extracting(LogEntry::at).containsExactly(moved);
      assertThat(logbook.append(List.of(entry("P-1", NOON, 9.1, "two#1"))).corrected())
          .as("a start at the instant that was wrong is one of its own")
          .isZero();
      assertThat(logbook.starts("P-1")).hasSize(2);
    }
  }

  @Test
  void aTableThatSaysNoMoreThanTheTraceDidIsKnown() throws Exception {
    try (Logbook logbook = open()) {
      logbook.append(List.of(entry(NOON, 8.5)));
      assertThat(logbook.append(List.of(row(NOON, 8.5))).known()).isEqualTo(1);
      assertThat(logbook.append(List.of(row(NOON, 8.9))).corrected()).isEqualTo(1);
    }
  }

  @Test
  void theNewestComeFirstAndNoMoreThanAsked() throws Exception {
    try (Logbook logbook = open()) {
      List<LogEntry> entries = new ArrayList<>();
      for (int i = 0; i < 20; i++) {
        entries.add(entry(NOON.plusSeconds(60L * ((i * 7) % 20)), i));
      }
      logbook.append(entries);
      logbook.append(List.of(entry(NOON.plusSeconds(60 * 19), 99)));
      assertThat(logbook.newest("P-1", 3))
          .extracting(kept -> kept.entry().at())
          .containsExactly(
              NOON.plusSeconds(60 * 19), NOON.plusSeconds(60 * 18), NOON.plusSeconds(60 * 17));
      assertThat(logbook.newest("P-1", 1).get(0).entry().value("start_time_s")).isEqualTo(99);
      assertThat(logbook.newest("P-2", 3)).isEmpty();
    }
  }

  @Test
  void theStoreRefusesChanges() throws Exception {
    try (Logbook logbook = open()) {
      logbook.append(List.of(entry(NOON, 8.5)), Map.of("basis", 1));
      logbook.append(new LogEvent("P-1", NOON, LogEvent.Kind.WORK, "cleaned", ""));
      logbook.append(
          new AssetLimit("P-1", "start_time_s", OptionalDouble.empty(), OptionalDouble.of(12)));
    }
    try (Connection raw = raw();
        Statement statement = raw.createStatement()) {
      for (String sql :
          List.of(
              "UPDATE entry SET start_time_s = 1",
              "DELETE FROM entry",
              "UPDATE wording SET text = 'x'",
              "DELETE FROM file",
              "DELETE FROM looked_at",
              "DELETE FROM event",
              "UPDATE asset_limit SET highest = 99")) {
        assertThatThrownBy(() -> statement.execute(sql))
            .isInstanceOf(SQLException.class)
            .hasMessageContaining("append-only");
      }
    }
  }

  @Test
  void verifyingFindsWhatWasChangedBehindItsBack() throws Exception {
    try (Logbook logbook = open()) {
      for (int i = 0; i < 5; i++) {
        logbook.append(List.of(entry(NOON.plusSeconds(60L * i), 8.5 + i)));
      }
      logbook.append(List.of(entry(NOON.plusSeconds(240), 20)));
    }
    String at = " WHERE at_utc = '2024-05-06T12:0";
    change("entry", "UPDATE entry SET start_time_s = 8.4" + at + "0:00.000Z'");
    change("entry", "UPDATE entry SET definitions = '2'" + at + "1:00.000Z'");
    change("entry", "UPDATE entry SET settings = 'ramp 9 s'" + at + "2:00.000Z'");
    change("entry", "UPDATE entry SET files = ''" + at + "3:00.000Z'");
    change("entry", "DELETE FROM entry" + at + "4:00.000Z' AND replaces IS NULL");
    try (Logbook logbook = open()) {
      assertThat(logbook.verify().damaged())
          .containsExactly(
              "P-1 2024-05-06T12:00:00.000Z: the entry is not as it was entered",
              "P-1 2024-05-06T12:01:00.000Z: the entry is not as it was entered",
              "P-1 2024-05-06T12:02:00.000Z: the entry is not as it was entered",
              "P-1 2024-05-06T12:03:00.000Z: the entry is not as it was entered",
              "P-1 2024-05-06T12:04:00.000Z: the entry it corrects is gone");
    }
  }

  @Test
  void verifyingFindsDamagedFilesAndWordings() throws Exception {
    try (Logbook logbook = open()) {
      logbook.append(List.of(entry(NOON, 8.5)));
    }
    change("file", "UPDATE file SET packed = " + bytes("00"));
    change("wording", "UPDATE wording SET text = replace(text, 'speed', 'current knee')");
    try (Logbook logbook = open()) {
      assertThat(logbook.verify().damaged())
          .anyMatch(line -> line.startsWith("file ") && line.contains("not as it was entered"))
          .anyMatch(line -> line.startsWith("wording "))
          .anyMatch(line -> line.contains("its file trace.csv is gone or damaged"))
          .anyMatch(line -> line.contains("the entry is not as it was entered"));
      assertThat(logbook.files(logbook.newest("P-1", 1).get(0))).isEmpty();
    }
  }

  /** Bytes in this store's words. */
  String bytes(String hex) {
    return "x'" + hex + "'";
  }

  private static void together(List<Callable<Object>> work) throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(work.size());
    try {
      List<Future<Object>> writers = new ArrayList<>();
      work.forEach(one -> writers.add(pool.submit(one)));
      for (Future<Object> writer : writers) {
        writer.get();
      }
    } finally {
      pool.shutdown();
    }
  }

  @Test
  void severalWritersLoseNothing() throws Exception {
    List<Callable<Object>> work = new ArrayList<>();
    for (int w = 0; w < 4; w++) {
      int writer = w;
      work.add(
          () -> {
            try (Logbook logbook = open()) {
              for (int i = 0; i < 10; i++) {
                logbook.append(List.of(entry(NOON.plusSeconds(1000L * writer + i), 8 + i)));
              }
            }
            return true;
          });
    }
    together(work);
    try (Logbook logbook = open()) {
      assertThat(logbook.starts("P-1")).hasSize(40);
      assertThat(logbook.verify().damaged()).isEmpty();
    }
  }

  @Test
  void severalWritersOfTheSameEnterItOnce() throws Exception {
    List<LogEntry> same = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      same.add(entry(NOON.plusSeconds(60L * i), 8 + i));
    }
    List<Callable<Object>> work = new ArrayList<>();
    for (int w = 0; w < 6; w++) {
      Random chance = new Random(w);
      work.add(
          () -> {
            List<LogEntry> mixed = new ArrayList<>(same);
            Collections.shuffle(mixed, chance);
            try (Logbook logbook = open()) {
              for (int from = 0; from < mixed.size(); from += 20) {
                logbook.append(mixed.subList(from, from + 20));
              }
            }
            return true;
          });
    }
    together(work);
    try (Logbook logbook = open()) {
      assertThat(logbook.size()).isEqualTo(60);
      assertThat(logbook.starts("P-1")).hasSize(60);
    }
  }

  @Test
  void correctionsAtOnceMakeOneChain() throws Exception {
    try (Logbook logbook = open()) {
      logbook.append(List.of(entry(NOON, 1)));
    }
    List<Callable<Object>> work = new ArrayList<>();
    for (int w = 0; w < 6; w++) {
      int writer = w;
      work.add(
          () -> {
            try (Logbook logbook = open()) {
              for (int i = 0; i < 5; i++) {
                logbook.append(List.of(entry(NOON, 10 + 5 * writer + i)));
              }
            }
            return true;
          });
    }
    together(work);
    try (Logbook logbook = open()) {
      assertThat(logbook.size()).isEqualTo(31);
      assertThat(logbook.starts("P-1")).as("one in force").hasSize(1);
      assertThat(logbook.verify().damaged()).isEmpty();
    }
  }

  @Test
  void limitsAndEventsHold() throws Exception {
    try (Logbook logbook = open()) {
      logbook.append(
          new AssetLimit("P-1", "start_time_s", OptionalDouble.empty(), OptionalDouble.of(12)));
      logbook.append(
          new AssetLimit("P-1", "start_time_s", OptionalDouble.of(4), OptionalDouble.of(11)));
      LogEvent event = new LogEvent("P-1", NOON, LogEvent.Kind.WORK, "bearing changed", "A. N.");
      logbook.append(event);
      assertThat(logbook.limits("P-1").get("start_time_s").max()).hasValue(11);
      assertThat(logbook.limits("P-1").get("start_time_s").min()).hasValue(4);
      assertThat(logbook.events("P-1"))
          .containsExactly(
              new LogEvent(
                  "P-1", NOON, LogEvent.Kind.WORK, "bearing changed", "A. N.", CLOCK.instant()));
    }
  }

  @Test
  void whatWasLookedAtIsRemembered() throws Exception {
    try (Logbook logbook = open()) {
      logbook.append(List.of(entry(NOON, 8.5)), Map.of("one", 1, "two", 2));
      logbook.append(List.of(), Map.of("two", 2));
      assertThat(logbook.lookedAt("two")).hasValue(2);
      assertThat(logbook.lookedAt("three")).isEmpty();
    }
  }

  @Test
  void aNewerOrAPreliminaryLogbookIsNotTouched() throws Exception {
    open().close();
    try (Connection raw = raw();
        Statement statement = raw.createStatement()) {
      statement.execute("INSERT INTO logbook_step (step) VALUES (99999)");
    }
    assertThatThrownBy(this::open)
        .isInstanceOf(LogbookException.class)
        .hasMessageContaining("newer version");
    try (Connection raw = raw();
        Statement statement = raw.createStatement()) {
      statement.execute("UPDATE logbook_step SET step = 1 WHERE step = 99999");
    }
    assertThatThrownBy(this::open)
        .isInstanceOf(LogbookException.class)
        .hasMessageContaining("preliminary version");
  }
}
