package rampwright.app.logbook;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Objects;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;

/**
 * A PostgreSQL server for tests, started once, a database of its own for each test. Where it cannot
 * start the test is skipped and says why.
 */
public final class PostgresServer {
  private static final String USER = "postgres";
  private static final AtomicInteger DATABASES = new AtomicInteger();
  private static @Nullable EmbeddedPostgres server;
  private static String why = "";

  private PostgresServer() {}

  private static synchronized EmbeddedPostgres server() {
    if (server == null && why.isEmpty()) {
      try {
        Path access = Files.createTempFile("rampwright-access", ".conf");
        access.toFile().deleteOnExit();
        Files.writeString(
            access,
            "host all postgres 127.0.0.1/32 trust\nhost all postgres ::1/128 trust\n"
                + "host all all 127.0.0.1/32 scram-sha-256\n");
        server =
            EmbeddedPostgres.builder()
                .setServerConfig("max_connections", "60")
                .setServerConfig("hba_file", access.toString())
                .start();
      } catch (IOException | RuntimeException e) {
        why = "PostgreSQL could not be started here: " + e;
      }
    }
    assumeTrue(server != null, why);
    return Objects.requireNonNull(server);
  }

  /** Address of an empty database, as a person gives it. */
  public static String database() throws SQLException {
    EmbeddedPostgres running = server();
    String name = "starts_" + DATABASES.incrementAndGet();
    try (Connection connection = running.getPostgresDatabase().getConnection();
        Statement statement = connection.createStatement()) {
      statement.execute("CREATE DATABASE " + name);
    }
    return "postgresql://127.0.0.1:" + running.getPort() + "/" + name;
  }

  /** A new role that may do everything and has to show a password. */
  public static String roleWithPassword(String password) throws SQLException {
    String name = "role_" + DATABASES.incrementAndGet();
    try (Connection connection = server().getPostgresDatabase().getConnection();
        Statement statement = connection.createStatement()) {
      statement.execute("CREATE ROLE " + name + " SUPERUSER LOGIN PASSWORD '" + password + "'");
    }
    return name;
  }

  /** What a person's environment says. */
  public static @Nullable String environment(String name) {
    return name.equals("PGUSER") ? USER : null;
  }
}
