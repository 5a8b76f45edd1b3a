package rampwright.app.chart;

import java.awt.Graphics2D;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A figure in a panel: name and verdict above, number with uncertainty, unit and limit below. */
final class FigureRow {
  /** Height in text sizes where the note fits beside the number. */
  static final double HEIGHT = 2.85;

  private static final double NOTE_HEIGHT = 1.15;

  /** Height of name and number without the room for a note beside it. */
  private static final double FIRST_NOTE = 1.7;

  private final FigureLine figure;
  private final double width;
  private final Ink ink;
  private final int mostLines;
  private final String number;
  private final String tail;

  /**
   * A row.
   *
   * @param mostLines lines a note without room beside the number may take below it; the last is cut
   *     where they do not hold it. 0: it is cut beside the number
   */
  FigureRow(FigureLine figure, double width, Ink ink, int mostLines) {
    this.mostLines = mostLines;
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
    int lines = noteLines().size();
    if (number.isEmpty()) {
      return (FIRST_NOTE + NOTE_HEIGHT * Math.max(1, lines)) * ink.unit;
    }
    return (HEIGHT + NOTE_HEIGHT * lines) * ink.unit;
  }

  /** Whether all of the note is to be read. */
  boolean isWhole() {
    List<String> lines = noteLines();
    String all = String.join(" ", lines);
    return lines.isEmpty()
        ? Ink.width(note(), ink.plain(0.85)) <= noteRoom()
        : all.equals(note().replaceAll("\\s+", " ").strip());
  }

  private String note() {
    return number.isEmpty() && figure.note().isEmpty() ? "not to be had" : figure.note();
  }

  /** The note in lines below the number; none where it fits beside it or may not go below. */
  private List<String> noteLines() {
    var small = ink.plain(0.85);
    String note = note();
    if (note.isEmpty() || (!number.isEmpty() && Ink.width(note, small) <= noteRoom())) {
      return List.of();
    }
    int most = number.isEmpty() ? Math.max(1, mostLines) : mostLines;
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    List<String> words = List.of(note.strip().split("\\s+"));
    for (int k = 0; k < words.size() && lines.size() < most; k++) {
      String longer = line.isEmpty() ? words.get(k) : line + " " + words.get(k);
      if (!line.isEmpty() && Ink.width(longer, small) > width) {
        if (lines.size() == most - 1) {
          String rest = line + " " + String.join(" ", words.subList(k, words.size()));
          lines.add(Ink.fit(rest, small, width));
          return lines;
        }
        lines.add(Ink.fit(line.toString(), small, width));
        longer = words.get(k);
      }
      line = new StringBuilder(longer);
    }
    if (lines.size() < most) {
      lines.add(Ink.fit(line.toString(), small, width));
    }
    return lines;
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
    List<String> lines = noteLines();
    if (number.isEmpty()) {
      write(g, lines, x, valueY);
      return;
    }
    var bold = ink.bold(1.12);
    Ink.write(g, Ink.fit(number, bold, width), bold, ink.text, x, valueY);
    double at = x + Ink.width(number, bold) + 0.35 * ink.unit;
    var plain = ink.plain(0.92);
    Ink.write(g, Ink.fit(tail, plain, x + width - at), plain, ink.text, at, valueY);
    if (!lines.isEmpty()) {
      write(g, lines, x, valueY + 1.1 * ink.unit);
    } else if (!figure.note().isEmpty()) {
      String note = Ink.fit(figure.note(), small, noteRoom());
      Ink.write(g, note, small, ink.muted, x + width - Ink.width(note, small), valueY);
    }
  }

  private void write(Graphics2D g, List<String> lines, double x, double firstY) {
    double y = firstY;
    for (String line : lines) {
      Ink.write(g, line, ink.plain(0.85), ink.muted, x, y);
      y += NOTE_HEIGHT * ink.unit;
    }
  }
}
