package rampwright.app.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import rampwright.acquisition.file.AtomicFile;
import rampwright.acquisition.toml.TomlFile;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.acquisition.toml.TomlSection;
import rampwright.acquisition.toml.TomlText;

/** Reads and adds to {@code signatures.toml}. What stands in it is never rewritten. */
public final class SignatureFile {
  /** Its name in an asset folder. */
  public static final String NAME = "signatures.toml";

  /** TOML files above 1 MiB are refused. */
  private static final int LARGEST_BYTES = 1_000_000;

  private static final String SUM = "[0-9a-f]{64}";

  private SignatureFile() {}

  /**
   * The signatures of a folder, oldest first; none where it has none yet.
   *
   * @throws TomlProblemsException with every problem of the file
   */
  public static List<Signature> read(Path assetFolder) throws IOException, TomlProblemsException {
    Path path = assetFolder.resolve(NAME);
    if (!Files.exists(path)) {
      return List.of();
    }
    TomlFile file = TomlFile.read(path);
    List<Signature> signatures = file.root().each("signature", SignatureFile::signature);
    file.root().finish();
    file.finish();
    return signatures;
  }

  private static Signature signature(TomlSection in) {
    return new Signature(
        in.requiredText("name", "who signed"),
        in.text("role"),
        in.text("note"),
        in.text("despite"),
        in.text("against"),
        in.requiredInstant("at", "when it was signed"),
        in.requiredText("zone", "whose clocks people went by"),
        in.requiredText("state", "how the record stood"),
        in.text("trial"),
        sum(in),
        new Seal(
            in.each(
                "file",
                one -> new SealedFile(one.requiredText("path", "a file's path"), sum(one)))));
  }

  private static String sum(TomlSection in) {
    String sum = in.requiredText("sha256", "64 digits of a SHA-256 sum");
    if (!sum.matches(SUM)) {
      in.problem("sha256", "sha256 is not 64 lower-case hexadecimal digits");
    }
    return sum;
  }

  /**
   * Adds a signature at the end, whole or not at all; what stood there stays as it was, letter by
   * letter. The caller holds the folder's update lock and has read the file without a problem.
   */
  public static void append(Path assetFolder, Signature signature) throws IOException {
    Path path = assetFolder.resolve(NAME);
    String before = Files.exists(path) ? Files.readString(path, StandardCharsets.UTF_8) : head();
    byte[] text = (before + entry(signature)).getBytes(StandardCharsets.UTF_8);
    if (text.length > LARGEST_BYTES) {
      throw new FileSystemException(
          path.toString(),
          null,
          "is full; keep it elsewhere under another name, and sign into a new one");
    }
    AtomicFile.write(path, text);
  }

  private static String head() {
    return new TomlText()
        .comment(
            "Signatures under the commissioning record, oldest first. The command report adds to")
        .comment("the end and changes nothing before it. A name here is a person's word: it proves")
        .comment("neither who typed it nor when.")
        .toString();
  }

  private static String entry(Signature signature) {
    TomlText out = new TomlText();
    out.entry("signature").put("name", signature.name()).put("role", signature.role());
    out.put("note", signature.note()).put("despite", signature.despite());
    out.put("against", signature.against());
    out.put("at", signature.at()).put("zone", signature.zone());
    out.put("state", signature.state()).put("trial", signature.trial());
    out.put("sha256", signature.sha256());
    for (SealedFile file : signature.seal().files()) {
      out.entry("signature.file").put("path", file.path()).put("sha256", file.sha256());
    }
    return out.toString();
  }
}
