package rampwright.app.json;

import rampwright.app.logbook.Imported;
import rampwright.app.logbook.Logbook;

/** The logbook's answers as JSON. */
public final class LogbookJson {
  private LogbookJson() {}

  /** What came of an import. */
  public static String imported(Imported imported) {
    return new JsonText()
        .object(
            out -> {
              out.count("added", imported.added());
              out.count("known", imported.known());
              out.count("corrected", imported.corrected());
              out.texts("rejected", imported.rejected());
              out.texts("remarks", imported.remarks());
            })
        .finish();
  }

  /** What verifying found. */
  public static String verified(Logbook.Verified verified) {
    return new JsonText()
        .object(
            out -> {
              out.count("entries", verified.entries());
              out.count("files", verified.files());
              out.texts("damaged", verified.damaged());
            })
        .finish();
  }
}
