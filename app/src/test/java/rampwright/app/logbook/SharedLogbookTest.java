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
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class SharedLogbookTest extends LogbookContract {
  private String where = "";

  @BeforeEach
  void database() throws SQLException {
    where = PostgresServer.database();
  }

  @Override
  String where() {
    return where;
  }

  @Override
  @Nullable String environment(String name) {
    return PostgresServer.environment(name);
  }

  @Override
  Connection raw() throws SQLException {
    return DriverManager.getConnection("jdbc:" + where, environment("PGUSER"), "");
  }

  @Override
  void unguard(Statement statement, String table) throws SQLException {
    statement.execute("ALTER TABLE " + table + " DISABLE TRIGGER USER");
  }

  @Override
  String bytes(String hex) {
    return "'\\x" + hex + "'";
  }

  @Test
  void emptyingATableIsRefusedToo() throws Exception {
    open().close();
    try (Connection raw = raw();
        Statement statement = raw.createStatement()) {
      assertThatThrownBy(() -> statement.execute("TRUNCATE entry"))
          .hasMessageContaining("append-only");
    }
  }

  @Test
  void aRoleThatMayOnlyReadCanRead() throws Exception {
    try (Logbook logbook = open()) {
      logbook.append(List.of(entry(NOON, 8.5)));
    }
    String role = where.substring(where.lastIndexOf('/') + 1) + "_reader";
    try (Connection raw = raw();
        Statement statement = raw.createStatement()) {
      statement.execute("CREATE ROLE " + role + " LOGIN PASSWORD 'geheim'");
      statement.execute("GRANT SELECT ON ALL TABLES IN SCHEMA public TO " + role);
    }
    assertThatThrownBy(
            () ->
                Logbook.open(
                    where, Map.of("PGUSER", role, "PGPASSWORD", "verraten")::get, Instant::now))
        .hasMessageContaining("does not let you in")
        .hasMessageNotContaining("verraten");
    try (Logbook logbook =
        Logbook.open(where, Map.of("PGUSER", role, "PGPASSWORD", "geheim")::get, Instant::now)) {
      assertThat(logbook.starts("P-1")).hasSize(1);
      assertThatThrownBy(() -> logbook.append(List.of(entry(NOON, 8.6))))
          .isInstanceOf(LogbookException.class)
          .hasMessageContaining("may not do this");
    }
  }

  @Test
  void theUserInTheAddressGoesBeforeTheEnvironment() throws Exception {
    String named = where.replace("//", "//postgres@");
    try (Logbook logbook =
        Logbook.open(
            named, name -> name.equals("PGUSER") ? "nobody_here" : null, () -> Instant.EPOCH)) {
      assertThat(logbook.assets()).isEmpty();
    }
  }

  @Test
  void whatIsWrongWithAServerIsSaid() {
    assertThatThrownBy(() -> Logbook.open(where + "_gone", this::environment, () -> Instant.EPOCH))
        .isInstanceOf(LogbookException.class)
        .hasMessageContaining("no such database");
    assertThatThrownBy(
            () ->
                Logbook.open(
                    "postgresql://127.0.0.1:1/starts", this::environment, () -> Instant.EPOCH))
        .isInstanceOf(LogbookException.class)
        .hasMessageContaining("cannot be reached");
  }

  @Test
  void theAddressAsksForTlsAndForWhoAnswers() throws Exception {
    String verified = where + "?sslmode=verify-full&sslrootcert=";
    Path certificate = PostgresServer.certificate();
    try (Logbook logbook =
        Logbook.open(verified + certificate, this::environment, () -> Instant.EPOCH)) {
      logbook.append(List.of(entry(NOON, 8.5)));
      assertThat(logbook.starts("P-1")).hasSize(1);
    }
    Path another = ServerCertificate.make().certificate();
    assertThatThrownBy(
            () -> Logbook.open(verified + another, this::environment, () -> Instant.EPOCH))
        .as("somebody else's certificate")
        .isInstanceOf(LogbookException.class)
        .hasMessageContaining("TLS");
    Map<String, String> environment =
        Map.of(
            "PGUSER", "postgres", "PGSSLMODE", "verify-full", "PGSSLROOTCERT", another.toString());
    assertThatThrownBy(() -> Logbook.open(where, environment::get, () -> Instant.EPOCH))
        .as("the environment says the same")
        .hasMessageContaining("TLS");
  }

  /** The lines of the document, so that they are known to work. */
  @Test
  void aLogbookCanBePartedByAsset() throws Exception {
    List<LogEntry> entries = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      entries.add(entry("M-" + i % 8, NOON.plusSeconds(60L * i), 8 + i, "t" + i + "#1"));
    }
    try (Logbook logbook = open()) {
      logbook.append(entries);
    }
    String document = Files.readString(Path.of("docs", "logbook-size.md"));
    String sql = document.substring(document.indexOf("```sql") + 6);
    try (Connection raw = raw();
        Statement statement = raw.createStatement()) {
      statement.execute(sql.substring(0, sql.indexOf("```")));
      assertThatThrownBy(() -> statement.execute("DELETE FROM entry"))
          .hasMessageContaining("append-only");
    }
    try (Logbook logbook = open()) {
      assertThat(logbook.append(entries).known()).isEqualTo(40);
      LogEntry corrected = entry("M-3", NOON.plusSeconds(180), 99, "t3#1");
      assertThat(logbook.append(List.of(corrected)).corrected()).isEqualTo(1);
      assertThat(logbook.assets()).hasSize(8);
      assertThat(logbook.newest("M-3", 10)).hasSize(5);
      assertThat(logbook.verify()).isEqualTo(new Logbook.Verified(41, 1, List.of()));
    }
  }

  @Test
  void aBackupIsLeftToTheDatabase() throws Exception {
    try (Logbook logbook = open()) {
      assertThatThrownBy(() -> logbook.backup(Path.of("copy.db")))
          .isInstanceOf(LogbookException.class)
          .hasMessageContaining("pg_dump");
    }
  }
}
