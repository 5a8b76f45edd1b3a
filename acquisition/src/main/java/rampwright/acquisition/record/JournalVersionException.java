package rampwright.acquisition.record;

/** A journal was written by a newer program. */
final class JournalVersionException extends Exception {
  private static final long serialVersionUID = 1L;

  JournalVersionException(int version) {
    super(
        "the journal is of form "
            + version
            + ", this program knows form "
            + JournalLine.VERSION
            + "; use the program that wrote it");
  }
}
