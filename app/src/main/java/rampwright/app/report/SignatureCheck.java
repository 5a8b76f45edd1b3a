package rampwright.app.report;

import java.util.List;

/**
 * A signature held against what is in the folder now.
 *
 * @param signature the signature
 * @param differences files that are not as they were signed; none: what was signed is what is there
 */
public record SignatureCheck(Signature signature, List<Seal.Difference> differences) {
  public SignatureCheck {
    differences = List.copyOf(differences);
  }

  /** Holds a signature against what is there now. */
  public static SignatureCheck of(Signature signature, Seal now) {
    return new SignatureCheck(signature, now.since(signature.seal()));
  }

  /** Whether what was signed is what is there, and the entry was not edited. */
  public boolean stands() {
    return differences.isEmpty() && signature.isWhole();
  }

  /** The same in a sentence. */
  public String sentence() {
    if (!signature.isWhole()) {
      return "this entry was edited: its sum is not that of its own list of files";
    }
    if (differences.isEmpty()) {
      return "what was signed is what is there";
    }
    StringBuilder text = new StringBuilder("not what was signed any more: ");
    for (int k = 0; k < differences.size(); k++) {
      Seal.Difference one = differences.get(k);
      text.append(k == 0 ? "" : ", ").append(one.path()).append(' ').append(one.change().key());
    }
    return text.toString();
  }
}
