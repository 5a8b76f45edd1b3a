package rampwright.app.chart;

/** A verdict as a chart shows it: by word, by shape and, last, by colour. */
public enum Judgement {
  /** Disc with a tick. */
  MET("met"),
  /** Diamond with a cross. */
  MISSED("missed"),
  /** Empty square with a bar. */
  NOT_ASSESSABLE("not assessable"),
  /** No limit was set: nothing is drawn. */
  NONE("");

  private final String word;

  Judgement(String word) {
    this.word = word;
  }

  /** Word shown. */
  public String word() {
    return word;
  }
}
