package rampwright.app.logbook;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Properties;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Where a logbook is: a file of SQLite, or a PostgreSQL database by its address.
 *
 * @param url of the driver
 * @param shown in messages, without a password
 * @param store which kind
 */
record Location(String url, String shown, Store store) {
  enum Store {
    SQLITE,
    POSTGRESQL
  }

  /**
   * From what a person gives: a path, or {@code postgresql://host:port/database?sslmode=...}.
   *
   * @throws LogbookException where a password stands in the address: commands end up in histories
   */
  static Location of(String named) throws LogbookException {
    String given = named.startsWith("jdbc:postgresql:") ? named.substring("jdbc:".length()) : named;
    String lower = given.toLowerCase(Locale.ROOT);
    if (!lower.startsWith("postgresql:") && !lower.startsWith("postgres:")) {
      return file(given);
    }
    String rest = given.substring(given.indexOf(':') + 1);
    String authority = rest.startsWith("//") ? rest.substring(2).split("[/?]", 2)[0] : "";
    String query = rest.contains("?") ? rest.substring(rest.indexOf('?') + 1) : "";
    boolean withUser = authority.contains("@") && authority.split("@", 2)[0].contains(":");
    if (withUser || query.toLowerCase(Locale.ROOT).contains("password=")) {
      throw new LogbookException(
          "the address of the logbook holds a password; leave it out and set PGPASSWORD, or name a"
              + " password file in PGPASSFILE");
    }
    String user = authority.contains("@") ? authority.split("@", 2)[0] : "";
    String plain = user.isEmpty() ? rest : rest.replaceFirst(Pattern.quote(user + "@"), "");
    String url = "jdbc:postgresql:" + plain;
    if (!user.isEmpty()) {
      url += (query.isEmpty() ? "?" : "&") + "user=" + user;
    }
    return new Location(url, given, Store.POSTGRESQL);
  }

  private static Location file(String given) throws LogbookException {
    try {
      return new Location("jdbc:sqlite:" + Path.of(given), given, Store.SQLITE);
    } catch (InvalidPathException e) {
      throw new LogbookException("logbook " + given + ": is no name of a file; name another", e);
    }
  }

  /** Who connects, from the environment as PostgreSQL's own tools take it. */
  Properties credentials(UnaryOperator<@Nullable String> environment) {
    Properties properties = new Properties();
    if (store == Store.POSTGRESQL) {
      put(properties, "user", environment.apply("PGUSER"));
      put(properties, "password", environment.apply("PGPASSWORD"));
      put(properties, "passfile", environment.apply("PGPASSFILE"));
      put(properties, "sslmode", environment.apply("PGSSLMODE"));
      put(properties, "sslrootcert", environment.apply("PGSSLROOTCERT"));
      properties.setProperty("ApplicationName", "rampwright");
      properties.setProperty("connectTimeout", "10");
      // a server that is gone without a word must not hold anybody up for ever
      properties.setProperty("tcpKeepAlive", "true");
      properties.setProperty("socketTimeout", "300");
    }
    return properties;
  }

  private static void put(Properties properties, String key, @Nullable String value) {
    if (value != null && !value.isBlank()) {
      properties.setProperty(key, value);
    }
  }
}
