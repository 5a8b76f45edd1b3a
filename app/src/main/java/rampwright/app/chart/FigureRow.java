package rampwright.app.chart;

import java.awt.Graphics2D;
import org.jspecify.annotations.Nullable;

/** A figure in a panel: name and verdict above, number with uncertainty, unit and limit below. */
final class FigureRow {
  /** Height in text sizes where the note fits beside the number. */
  static final double HEIGHT = 2.85;

  private static final double NOTE_HEIGHT = 1.15;

  private final FigureLine figure;
  private final double width;
  private final Ink ink;
  private final boolean oneHeight;
  private final String number;
  private final String tail;

  /**
   * A row.
   *
   * @param oneHeight whether a note without room is cut rather than put below
   */
  FigureRow(FigureLine figure, double width, Ink ink, boolean oneHeight) {
    this.oneHeight = oneHeight;
    this.figure = figure;
    this.width = width;
    this.ink = ink;
    Double value = figure.value();
    if (value == null || !Double.isFinite(value)) {
      number = "";
      tail = "";
      return;
    }
    Numbers.Scaled scaled = Numbers.scaled(value, figure.unit());
    @Nullable Double uncertainty =
        figure.uncertainty() == null ? null : figure.uncertainty() / scaled.factor();
    number = Numbers.value(value / scaled.factor(), uncertainty);
    tail = (Numbers.uncertainty(uncertainty) + " " + scaled.unit()).strip();
  }

  double height() {
    return (HEIGHT + (noteBelow() ? NOTE_HEIGHT : 0)) * ink.unit;
  }

  private boolean noteBelow() {
    return !oneHeight
        && !number.isEmpty()
        && !figure.note().isEmpty()
        && Ink.width(figure.note(), ink.plain(0.85)) > noteRoom();
  }

  private double noteRoom() {
    return width
        - Ink.width(number, ink.bold(1.12))
        - Ink.width(tail, ink.plain(0.92))
        - 1.0 * ink.unit;
  }

  /** Draws the row with its upper left corner at (x, y). */
  void paint(Graphics2D g, double x, double y) {
    var small = ink.plain(0.85);
    double labelY = y + 0.95 * ink.unit;
    double labelRoom = width;
    if (figure.judgement() != Judgement.NONE) {
      String word = figure.judgement().word();
      double wordWidth = Ink.width(word, small);
      double wordX = x + width - wordWidth;
      double size = 0.9 * ink.unit;
      Badge.paint(
          g, figure.judgement(), wordX - 0.85 * ink.unit, labelY - 0.3 * ink.unit, size, ink);
      Ink.write(g, word, small, ink.verdict(figure.judgement()), wordX, labelY);
      labelRoom = width - wordWidth - 2.1 * ink.unit;
    }
    Ink.write(g, Ink.fit(figure.label(), small, labelRoom), small, ink.muted, x, labelY);
    double valueY = y + 2.2 * ink.unit;
    if (number.isEmpty()) {
      String why = figure.note().isEmpty() ? "not to be had" : figure.note();
      Ink.write(g, Ink.fit(why, small, width), small, ink.muted, x, valueY);
      return;
    }
    var bold = ink.bold(1.12);
    Ink.write(g, Ink.fit(number, bold, width), bold, ink.text, x, valueY);
    double at = x + Ink.width(number, bold) + 0.35 * ink.unit;
    var plain = ink.plain(0.92);
    Ink.write(g, Ink.fit(tail, plain, x + width - at), plain, ink.text, at, valueY);
    if (!figure.note().isEmpty()) {
      boolean below = noteBelow();
      String note = Ink.fit(figure.note(), small, below ? width : noteRoom());
      double noteX = below ? x : x + width - Ink.width(note, small);
      double noteY = below ? valueY + 1.1 * ink.unit : valueY;
      Ink.write(g, note, small, ink.muted, noteX, noteY);
    }
  }
}
