package rampwright.app.chart;

import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Draws the instants: flags above the lanes, a rail of named stretches, lines through the lanes.
 */
final class MarkPainter {
  /** Height of a row of flags, in text sizes. */
  static final double ROW = 1.3;

  /** Height of the rail, in text sizes. */
  static final double RAIL = 1.15;

  private final Sheet sheet;
  private final Ink ink;
  private final double u;
  private final double left;
  private final double width;
  private final boolean crisp;
  private final List<Mark> marks;
  private final List<FlagRows.@Nullable Place> places;

  /**
   * A painter.
   *
   * @param left left edge of the lanes' drawing areas
   * @param width their width
   * @param right words do not go beyond this
   * @param crisp whether upright lines are put on whole pixels
   */
  MarkPainter(Sheet sheet, Ink ink, double left, double width, double right, boolean crisp) {
    this.sheet = sheet;
    this.ink = ink;
    this.u = ink.unit;
    this.left = left;
    this.width = width;
    this.crisp = crisp;
    Span time = sheet.time();
    marks =
        sheet.marks().stream()
            .filter(m -> m.atS() >= time.fromS() && m.atS() <= time.toS())
            .sorted(Comparator.comparingDouble(Mark::atS))
            .toList();
    var font = ink.plain(0.88);
    places =
        FlagRows.of(
            marks.stream()
                .map(m -> new FlagRows.Flag(x(m), Ink.width(words(m), font) + 0.9 * u))
                .toList(),
            0.3 * u,
            right);
  }

  /** How many rows of flags there are. */
  int rows() {
    return places.stream().mapToInt(p -> p == null ? 0 : p.row() + 1).max().orElse(0);
  }

  /**
   * Draws flags with the lowest row on {@code bottom}; their lines reach down to {@code stemEnd}.
   */
  void flags(Graphics2D g, double bottom, double stemEnd) {
    var font = ink.plain(0.88);
    for (int i = 0; i < marks.size(); i++) {
      FlagRows.Place place = places.get(i);
      if (place == null) {
        continue;
      }
      Mark mark = marks.get(i);
      double x = x(mark);
      double base = bottom - place.row() * ROW * u;
      stem(g, mark, x, base - 1.0 * u, stemEnd);
      double textX = place.toTheLeft() ? x - Ink.width(words(mark), font) - 0.4 * u : x + 0.4 * u;
      Ink.write(g, words(mark), font, ink.text, textX, base - 0.15 * u);
    }
  }

  /** Draws the rail between two heights. */
  void rail(Graphics2D g, double y, double height) {
    var font = ink.plain(0.8);
    for (Sheet.RailPiece piece : sheet.rail()) {
      double from = Math.max(left, x(piece.part().fromS()));
      double to = Math.min(left + width, x(piece.part().toS()));
      if (to - from < 0.5) {
        continue;
      }
      g.setColor(Ink.pale(ink.accent, 0.1 + 0.28 * piece.emphasis()));
      g.fill(new Rectangle2D.Double(from, y, to - from, height));
      double wordWidth = Ink.width(piece.word(), font);
      if (wordWidth + 0.6 * u < to - from) {
        double wordX = from + (to - from - wordWidth) / 2;
        Ink.write(g, piece.word(), font, ink.text, wordX, y + height / 2 + 0.28 * u);
      }
    }
  }

  /** Draws the lines through one lane. */
  void stems(Graphics2D g, double top, double bottom) {
    for (Mark mark : marks) {
      double x = x(mark);
      Double uncertainty = mark.uncertaintyS();
      if (uncertainty != null && uncertainty > 0 && Double.isFinite(uncertainty)) {
        double half = Math.min(width, width * uncertainty / sheet.time().lengthS());
        double from = Math.max(left, x - half);
        double to = Math.min(left + width, x + half);
        if (to - from > 2.5) {
          g.setColor(Ink.pale(ink.text, 0.07));
          g.fill(new Rectangle2D.Double(from, top, to - from, bottom - top));
        }
      }
      stem(g, mark, x, top, bottom);
    }
  }

  private void stem(Graphics2D g, Mark mark, double x, double top, double bottom) {
    g.setColor(Ink.pale(ink.text, 0.5));
    g.setStroke(mark.byHand() ? ink.dashedHair() : ink.hair(0.9));
    g.draw(new Line2D.Double(x, top, x, bottom));
  }

  private static String words(Mark mark) {
    return mark.byHand() ? mark.label() + " (by hand)" : mark.label();
  }

  private double x(Mark mark) {
    double x = x(mark.atS());
    return crisp ? Math.floor(x) + 0.5 : x;
  }

  private double x(double atS) {
    return left + width * (atS - sheet.time().fromS()) / sheet.time().lengthS();
  }
}
