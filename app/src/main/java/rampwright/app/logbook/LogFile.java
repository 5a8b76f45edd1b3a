package rampwright.app.logbook;

/**
 * A file an entry rests on, kept so that its figures can be taken again.
 *
 * @param name it has in a trial's or an asset's folder, such as {@code trace.csv}
 * @param content byte for byte
 */
public record LogFile(String name, byte[] content) {
  public LogFile {
    content = content.clone();
  }

  @Override
  public byte[] content() {
    return content.clone();
  }

  /** SHA-256 of the content. */
  public String sha256() {
    return sha256(content);
  }

  /** SHA-256 of bytes, in hexadecimal digits. */
  public static String sha256(byte[] bytes) {
    return Fingerprint.of(bytes);
  }
}
