package rampwright.app.report;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What a record rests on: the files of an asset folder with their sums, by path.
 *
 * @param files sorted by path
 */
public record Seal(List<SealedFile> files) {
  public Seal {
    files = files.stream().sorted(Comparator.comparing(SealedFile::path)).toList();
  }

  /** How a file differs from what was signed. */
  public enum Change {
    CHANGED("changed"),
    ADDED("added"),
    REMOVED("removed");

    private final String key;

    Change(String key) {
      this.key = key;
    }

    /** Word used on pages and in JSON. */
    public String key() {
      return key;
    }
  }

  /** A file that is not as it was. */
  public record Difference(Change change, String path) {}

  /**
   * The sum over all files.
   *
   * <p>Formula: SHA-256 over the UTF-8 text of one line a file, "sum, two blanks, path, line feed",
   * lines by path; what {@code sha256sum} prints for the same files, so that anybody can check it.
   */
  public String sha256() {
    StringBuilder lines = new StringBuilder();
    for (SealedFile file : files) {
      lines.append(file.sha256()).append("  ").append(file.path()).append('\n');
    }
    return HexFormat.of()
        .formatHex(digest().digest(lines.toString().getBytes(StandardCharsets.UTF_8)));
  }

  /** What is not as it was at another time, by path. */
  public List<Difference> since(Seal then) {
    Map<String, String> before = byPath(then);
    Map<String, String> now = byPath(this);
    List<Difference> differences = new ArrayList<>();
    now.forEach(
        (path, sum) -> {
          String was = before.get(path);
          if (was == null) {
            differences.add(new Difference(Change.ADDED, path));
          } else if (!was.equals(sum)) {
            differences.add(new Difference(Change.CHANGED, path));
          }
        });
    before.forEach(
        (path, sum) -> {
          if (!now.containsKey(path)) {
            differences.add(new Difference(Change.REMOVED, path));
          }
        });
    differences.sort(Comparator.comparing(Difference::path));
    return differences;
  }

  private static Map<String, String> byPath(Seal seal) {
    Map<String, String> sums = new LinkedHashMap<>();
    seal.files.forEach(file -> sums.put(file.path(), file.sha256()));
    return sums;
  }

  /** A digest for SHA-256, which every Java has. */
  public static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("this Java has no SHA-256", e);
    }
  }
}
