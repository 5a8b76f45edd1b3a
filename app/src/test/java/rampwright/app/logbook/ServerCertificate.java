package rampwright.app.logbook;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.util.Base64;
import java.util.List;

/**
 * A certificate a test server shows, signed by itself, made anew each time.
 *
 * @param certificate PEM
 * @param key PEM, for the server's eyes only
 */
record ServerCertificate(Path certificate, Path key) {
  private static final String PASSWORD = "changeit";

  /** Made with the JDK's keytool for the address 127.0.0.1. */
  static ServerCertificate make() throws IOException {
    Path folder = Files.createTempDirectory("rampwright-tls");
    Path store = folder.resolve("store.p12");
    List<String> command =
        List.of(
            Path.of(System.getProperty("java.home"), "bin", "keytool").toString(),
            "-genkeypair",
            "-alias",
            "server",
            "-keyalg",
            "RSA",
            "-dname",
            "CN=127.0.0.1",
            "-ext",
            "san=ip:127.0.0.1",
            "-storetype",
            "PKCS12",
            "-keystore",
            store.toString(),
            "-storepass",
            PASSWORD);
    try (InputStream said =
        new ProcessBuilder(command).redirectErrorStream(true).start().getInputStream()) {
      said.readAllBytes();
    }
    try (InputStream in = Files.newInputStream(store)) {
      KeyStore keys = KeyStore.getInstance("PKCS12");
      keys.load(in, PASSWORD.toCharArray());
      Path certificate = folder.resolve("server.crt");
      Path key = folder.resolve("server.key");
      Files.writeString(
          certificate, pem("CERTIFICATE", keys.getCertificate("server").getEncoded()));
      Files.writeString(
          key, pem("PRIVATE KEY", keys.getKey("server", PASSWORD.toCharArray()).getEncoded()));
      Files.setPosixFilePermissions(key, PosixFilePermissions.fromString("rw-------"));
      List.of(store, certificate, key, folder).forEach(path -> path.toFile().deleteOnExit());
      return new ServerCertificate(certificate, key);
    } catch (GeneralSecurityException e) {
      throw new IOException("no certificate could be made", e);
    }
  }

  private static String pem(String kind, byte[] content) {
    String text =
        Base64.getMimeEncoder(64, "\n".getBytes(StandardCharsets.US_ASCII)).encodeToString(content);
    return "-----BEGIN " + kind + "-----\n" + text + "\n-----END " + kind + "-----\n";
  }
}
