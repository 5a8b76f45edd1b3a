package rampwright.app.logbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static rampwright.app.logbook.Starts.NOON;
import static rampwright.app.logbook.Starts.entry;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FileLogbookTest extends LogbookContract {
  @TempDir private Path folder;

  @Override
  String where() {
    return folder.resolve("starts.db").toString();
  }

  @Override
  Connection raw() throws SQLException {
    return DriverManager.getConnection("jdbc:sqlite:" + where());
  }

  @Override
  void unguard(Statement statement, String table) throws SQLException {
    statement.execute("DROP TRIGGER IF EXISTS no_UPDATE_of_" + table);
    statement.execute("DROP TRIGGER IF EXISTS no_DELETE_of_" + table);
  }

  private static Logbook open(Path file) throws LogbookException {
    return Logbook.open(file.toString(), name -> null, () -> Instant.EPOCH);
  }

  @Test
  void aBackupIsALogbookOfItsOwn() throws Exception {
    Path copy = folder.resolve("copy.db");
    try (Logbook logbook = open()) {
      logbook.append(List.of(entry(NOON, 8.5)));
      logbook.backup(copy);
      logbook.append(List.of(entry(NOON.plusSeconds(60), 8.6)));
    }
    try (Logbook logbook = open(copy)) {
      assertThat(logbook.starts("P-1")).hasSize(1);
      assertThat(logbook.verify().damaged()).isEmpty();
    }
  }

  @Test
  void aBackupMadeWhileOthersWriteIsWhole() throws Exception {
    AtomicBoolean enough = new AtomicBoolean();
    ExecutorService pool = Executors.newSingleThreadExecutor();
    try (Logbook logbook = open()) {
      Future<Integer> written =
          pool.submit(
              () -> {
                try (Logbook other = open()) {
                  int k = 0;
                  while (!enough.get()) {
                    other.append(List.of(entry(NOON.plusSeconds(60L * k), 8)));
                    k++;
                  }
                  return k;
                }
              });
      for (int i = 0; i < 5; i++) {
        long before = logbook.size();
        Path copy = folder.resolve("copy" + i + ".db");
        logbook.backup(copy);
        try (Logbook kept = open(copy)) {
          assertThat(kept.verify().damaged()).isEmpty();
          assertThat(kept.size()).isGreaterThanOrEqualTo(before);
        }
      }
      enough.set(true);
      long entered = written.get();
      assertThat(logbook.size()).isEqualTo(entered);
    } finally {
      enough.set(true);
      pool.shutdown();
    }
  }

  @Test
  void whatIsNoLogbookIsSaid() throws Exception {
    Path text = folder.resolve("notes.txt");
    Files.writeString(text, "this is not a logbook, whatever its name may be\n".repeat(50));
    assertThatThrownBy(() -> open(text))
        .isInstanceOf(LogbookException.class)
        .hasMessageContaining("no logbook");
    assertThatThrownBy(() -> open(folder.resolve("no/such/a.db")))
        .isInstanceOf(LogbookException.class)
        .hasMessageContaining("folder");
    assertThatThrownBy(() -> Logbook.open("a\0b", name -> null, () -> Instant.EPOCH))
        .isInstanceOf(LogbookException.class)
        .hasMessageContaining("no name of a file");
  }
}
