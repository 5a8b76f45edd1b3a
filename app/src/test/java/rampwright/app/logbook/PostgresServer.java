package rampwright.app.logbook;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;

/**
 * A PostgreSQL server for tests, started once, a database of its own for each test: the one Maven
 * carries, or the one a variable names as {@code host:port} (its {@code postgres} needs no password
 * there, everybody else does). Where none can be had the test is skipped and says why.
 */
public final class PostgresServer {
  private static final String VARIABLE = "RAMPWRIGHT_TEST_POSTGRES";
  private static final String USER = "postgres";
  private static final AtomicInteger DATABASES = new AtomicInteger();
  private static @Nullable String address;
  private static @Nullable Path certificate;
  private static String why = "";

  private PostgresServer() {}

  private static synchronized String address() {
    String running = address == null ? System.getenv(VARIABLE) : address;
    if (running == null && why.isEmpty()) {
      try {
        running = "127.0.0.1:" + start().getPort();
      } catch (IOException | RuntimeException e) {
        why = "PostgreSQL could not be started here: " + e;
      }
    }
    assumeTrue(running != null, why);
    address = running;
    return String.valueOf(running);
  }

  private static EmbeddedPostgres start() throws IOException {
    Path access = Files.createTempFile("rampwright-access", ".conf");
    access.toFile().deleteOnExit();
    Files.writeString(
        access,
        "host all postgres 127.0.0.1/32 trust\nhost all postgres ::1/128 trust\n"
            + "host all all 127.0.0.1/32 scram-sha-256\n");
    ServerCertificate shown = ServerCertificate.make();
    certificate = shown.certificate();
    return EmbeddedPostgres.builder()
        .setServerConfig("max_connections", "60")
        .setServerConfig("ssl", "on")
        .setServerConfig("ssl_cert_file", shown.certificate().toString())
        .setServerConfig("ssl_key_file", shown.key().toString())
        .setServerConfig("hba_file", access.toString())
        .start();
  }

  private static void run(String sql) throws SQLException {
    String url = "jdbc:postgresql://" + address() + "/postgres";
    try (Connection connection = DriverManager.getConnection(url, USER, "");
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  private static String name(String prefix) {
    return prefix + ProcessHandle.current().pid() + "_" + DATABASES.incrementAndGet();
  }

  /** Address of an empty database, as a person gives it. */
  public static String database() throws SQLException {
    String name = name("starts_");
    run("CREATE DATABASE " + name);
    return "postgresql://" + address() + "/" + name;
  }

  /** The certificate the server shows; where it is another's server, the test is skipped. */
  static Path certificate() {
    address();
    assumeTrue(certificate != null, "the server named by " + VARIABLE + " is asked without TLS");
    return Path.of(String.valueOf(certificate));
  }

  /** A new role that may do everything and has to show a password. */
  public static String roleWithPassword(String password) throws SQLException {
    String name = name("role_");
    run("CREATE ROLE " + name + " SUPERUSER LOGIN PASSWORD '" + password + "'");
    return name;
  }

  /** What a person's environment says. */
  public static @Nullable String environment(String name) {
    return name.equals("PGUSER") ? USER : null;
  }
}
