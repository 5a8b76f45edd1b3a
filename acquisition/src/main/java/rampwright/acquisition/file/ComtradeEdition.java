package rampwright.acquisition.file;

/** Edition of IEEE C37.111 (IEC 60255-24) that a COMTRADE file follows. */
public enum ComtradeEdition {
  /** No year in the first line, ten fields for an analog channel, month before day. */
  E1991("1991"),
  /** Also written 2001 by files that follow IEC 60255-24:2001, which has the same layout. */
  E1999("1999"),
  /** Adds BINARY32, FLOAT32, time zones, nanoseconds and the single file (.cff). */
  E2013("2013");

  private final String year;

  ComtradeEdition(String year) {
    this.year = year;
  }

  /** Year as written in the first line of a configuration. */
  public String year() {
    return year;
  }
}
