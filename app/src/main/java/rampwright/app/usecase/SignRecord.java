package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.UpdateLock;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.app.report.Had;
import rampwright.app.report.Report;
import rampwright.app.report.Seal;
import rampwright.app.report.Signature;
import rampwright.app.report.SignatureCheck;
import rampwright.app.report.SignatureFile;

/** Puts a person's name under a record, and keeps with it what it stood under. */
public final class SignRecord {
  private static final String SIGN = "--sign";
  private static final String ROLE = "--role";
  private static final String NOTE = "--note";
  private static final String DESPITE = "--despite";

  /** Texts of TOML files are read up to 2000 characters. */
  private static final int LONGEST_AGAINST = 1900;

  private final InstantSource clock;

  public SignRecord(InstantSource clock) {
    this.clock = clock;
  }

  /**
   * What a person signs with.
   *
   * @param name who
   * @param role as what; null where not said
   * @param note anything to add; null for nothing
   * @param despite why, where something stands against it; null where nothing does
   */
  public record Words(
      String name, @Nullable String role, @Nullable String note, @Nullable String despite) {}

  /**
   * Refuses words that cannot be kept, before any work is done for them.
   *
   * @throws UsageProblem when the name is none, or a text is too long
   */
  public static void check(Words words) throws UsageProblem {
    PersonsWord.name(words.name(), "a signature", SIGN);
    text(words.role(), ROLE);
    text(words.note(), NOTE);
    text(words.despite(), DESPITE);
  }

  /**
   * Signs a record.
   *
   * @return the record with the signature under it
   * @throws UsageProblem when something stands against it and no reason is given, or a reason is
   *     given and nothing does
   * @throws InputProblem when the folder is not what the record was made of any more, or a file
   *     cannot be read or written
   */
  public Report sign(Path folder, Report record, Words words) throws InputProblem, UsageProblem {
    String name = PersonsWord.name(words.name(), "a signature", SIGN);
    String despite = text(words.despite(), DESPITE);
    List<String> against = record.against();
    if (!against.isEmpty() && despite == null) {
      throw new UsageProblem(
          "not signed: "
              + String.join("; ", against)
              + ". Put that right, or sign with --despite REASON, which is kept and shown");
    }
    if (against.isEmpty() && despite != null) {
      throw new UsageProblem("--despite: nothing stands against signing; sign without it");
    }
    Seal seal = record.seal().value();
    if (seal == null || record.signatures().value() == null) {
      throw new InputProblem(
          "not signed: " + (seal == null ? record.seal() : record.signatures()).reason());
    }
    Signature signature =
        new Signature(
            name,
            text(words.role(), ROLE),
            text(words.note(), NOTE),
            despite,
            against.isEmpty() ? null : kept(against),
            clock.instant().truncatedTo(ChronoUnit.SECONDS),
            String.valueOf(record.site().zone()),
            record.standing().state().key(),
            record.standing().trial(),
            seal.sha256(),
            seal);
    append(folder, signature);
    List<SignatureCheck> checks = new ArrayList<>(record.signatures().value());
    checks.add(SignatureCheck.of(signature, seal));
    return record.with(Had.of(checks));
  }

  private static String kept(List<String> against) {
    String text = String.join("; ", against);
    return text.length() <= LONGEST_AGAINST ? text : text.substring(0, LONGEST_AGAINST) + " ...";
  }

  private static @Nullable String text(@Nullable String given, String option) throws UsageProblem {
    return given == null || given.isBlank() ? null : PersonsWord.text(given, option);
  }

  private static void append(Path folder, Signature signature) throws InputProblem {
    Path file = folder.resolve(SignatureFile.NAME);
    try {
      // Two people may sign at once, and somebody may change a file while the record is made.
      UpdateLock lock = UpdateLock.of(folder);
      try {
        List<Seal.Difference> since = SealFolder.of(folder).since(signature.seal());
        if (!since.isEmpty()) {
          throw new InputProblem(
              "not signed: "
                  + since.get(0).path()
                  + " "
                  + since.get(0).change().key()
                  + " while the record was made; make it again");
        }
        SignatureFile.read(folder);
        SignatureFile.append(folder, signature);
      } finally {
        lock.close();
      }
    } catch (TomlProblemsException e) {
      throw InputProblem.of(e);
    } catch (IOException e) {
      throw InputProblem.of(e, file);
    }
  }
}
