package rampwright.app.logbook;

/** Text as both stores can keep it. */
final class Words {
  private Words() {}

  /** The text; PostgreSQL knows no character 0. */
  static String kept(String text) {
    return text.indexOf('\0') < 0 ? text : text.replace('\0', '\ufffd');
  }
}
