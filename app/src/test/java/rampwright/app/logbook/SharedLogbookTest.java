package rampwright.app.logbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static rampwright.app.logbook.Starts.NOON;
import static rampwright.app.logbook.Starts.entry;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
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
    assertThatThrownBy(
            () -> Logbook.open(where + "?sslmode=require", this::environment, () -> Instant.EPOCH))
        .as("TLS that is asked for is not done without")
        .isInstanceOf(LogbookException.class)
        .hasMessageContaining("SSL");
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
