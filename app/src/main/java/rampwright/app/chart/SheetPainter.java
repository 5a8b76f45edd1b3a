package rampwright.app.chart;

import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.geom.RoundRectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Lays a sheet out and draws it. */
final class SheetPainter {
  /** Under this width, in text sizes, the panel goes beneath the lanes. */
  private static final double NARROW = 62;

  private final Sheet sheet;
  private final ChartStyle style;
  private final Ink ink;
  private final double u;
  private final double pixelsPerUnit;
  private final Supplier<Graphics2D> scratch;

  /**
   * A painter.
   *
   * @param scratch graphics of the kind that will be painted on, to measure axes with
   */
  SheetPainter(Sheet sheet, ChartStyle style, Format format, Supplier<Graphics2D> scratch) {
    this.sheet = sheet;
    this.style = style;
    this.ink = new Ink(style);
    this.u = ink.unit;
    this.pixelsPerUnit = format.pixelsPerUnit();
    this.scratch = scratch;
  }

  void paint(Graphics2D g) {
    g.setColor(ink.paper);
    g.fill(new Rectangle2D.Double(0, 0, style.width(), style.height()));
    double margin = 1.1 * u;
    double top = header(g, margin);
    double bottom = style.height() - footer(g, margin);
    SidePanel panel = new SidePanel(sheet.legend(), sheet.figures(), ink);
    double right = style.width() - margin;
    if (!panel.isEmpty()) {
      if (style.width() < NARROW * u) {
        double height = Math.min(0.3 * (bottom - top), wideHeight());
        panel.paintWide(g, margin, bottom - height, right - margin, height);
        bottom -= height + 0.5 * u;
      } else {
        double width = Math.max(17.5 * u, Math.min(26 * u, 0.23 * style.width()));
        panel.paint(g, right - width, top, width, bottom - top);
        right -= width + 0.9 * u;
      }
    }
    lanes(g, margin, top, right, bottom);
  }

  private double wideHeight() {
    int columns = (int) Math.max(1, Math.floor((style.width() - 2.2 * u) / (14 * u)));
    if (!sheet.legend().isEmpty()) {
      return (Math.ceil(sheet.legend().size() / (double) columns) * 1.55 + 0.7) * u;
    }
    return (Math.ceil(sheet.figures().size() / (double) columns) * 2.85 + 0.7) * u;
  }

  private double header(Graphics2D g, double margin) {
    Heading heading = sheet.heading();
    double glyph = 2.1 * u;
    double y = 0.9 * u;
    emblem(g, margin, y, glyph);
    double x = margin + glyph + 0.8 * u;
    double right = style.width() - margin;
    double titleY = y + 1.05 * u;
    double subtitleY = y + 2.35 * u;
    double badgeFrom = verdict(g, heading, right, titleY);
    double noteFrom = heading.invented() ? invented(g, right, subtitleY) : right;
    var title = ink.bold(1.3);
    Ink.write(g, Ink.fit(heading.title(), title, badgeFrom - x - u), title, ink.text, x, titleY);
    var plain = ink.plain(0.95);
    Ink.write(
        g, Ink.fit(heading.subtitle(), plain, noteFrom - x - u), plain, ink.muted, x, subtitleY);
    return y + 3.25 * u;
  }

  /** A ramp that reaches its plateau. */
  private void emblem(Graphics2D g, double x, double y, double size) {
    Path2D.Double under = new Path2D.Double();
    under.moveTo(x, y + size);
    under.lineTo(x + 0.62 * size, y + 0.22 * size);
    under.lineTo(x + size, y + 0.22 * size);
    under.lineTo(x + size, y + size);
    under.closePath();
    g.setColor(Ink.pale(ink.accent, 0.2));
    g.fill(under);
    Path2D.Double line = new Path2D.Double();
    line.moveTo(x, y + size);
    line.lineTo(x + 0.62 * size, y + 0.22 * size);
    line.lineTo(x + size, y + 0.22 * size);
    g.setColor(ink.accent);
    g.setStroke(new java.awt.BasicStroke((float) (0.2 * u)));
    g.draw(line);
  }

  private double verdict(Graphics2D g, Heading heading, double right, double y) {
    double at = right;
    var font = ink.bold(1.0);
    if (heading.judgement() != Judgement.NONE) {
      String word = heading.judgement().word();
      at -= Ink.width(word, font);
      Ink.write(g, word, font, ink.verdict(heading.judgement()), at, y);
      at -= 0.95 * u;
      Badge.paint(g, heading.judgement(), at, y - 0.36 * u, 1.2 * u, ink);
      at -= 1.6 * u;
    }
    if (heading.outcome() != null) {
      String word = Ink.fit(heading.outcome(), font, 0.3 * style.width());
      at -= Ink.width(word, font);
      Ink.write(g, word, font, ink.text, at, y);
    }
    return at;
  }

  private double invented(Graphics2D g, double right, double y) {
    String words = "invented sample";
    var font = ink.plain(0.85);
    double width = Ink.width(words, font) + 1.4 * u;
    double x = right - width;
    g.setColor(ink.text);
    g.setStroke(
        new java.awt.BasicStroke(
            (float) (u / 12),
            java.awt.BasicStroke.CAP_BUTT,
            java.awt.BasicStroke.JOIN_ROUND,
            10f,
            new float[] {(float) (0.3 * u), (float) (0.2 * u)},
            0f));
    g.draw(new RoundRectangle2D.Double(x, y - 1.0 * u, width, 1.4 * u, 0.6 * u, 0.6 * u));
    Ink.write(g, words, font, ink.text, x + 0.7 * u, y);
    return x;
  }

  private double footer(Graphics2D g, double margin) {
    String words = sheet.heading().footnote();
    if (words.isEmpty()) {
      return 0.9 * u;
    }
    var font = ink.plain(0.78);
    double room = style.width() - 2 * margin;
    Ink.write(g, Ink.fit(words, font, room), font, ink.muted, margin, style.height() - 0.75 * u);
    return 2.1 * u;
  }

  private void lanes(Graphics2D g, double x, double top, double right, double bottom) {
    List<Lane> lanes = sheet.lanes();
    boolean second = lanes.stream().anyMatch(lane -> lane.rightScale() != null);
    double gutter = second ? 2.4 * u : 0.4 * u;
    int width = (int) Math.round(right - x - gutter);
    double laneTitle = 1.75 * u;
    double timeHeight = 2.6 * u;

    // Widths of the axes differ; the widest sets where all drawing areas begin.
    Graphics2D measuring = scratch.get();
    List<LanePainter> painters = new ArrayList<>();
    double[] leftOf = new double[lanes.size()];
    double left = 0;
    for (int i = 0; i < lanes.size(); i++) {
      LanePainter painter = new LanePainter(lanes.get(i), sheet.time(), i == lanes.size() - 1, ink);
      painters.add(painter);
      leftOf[i] = painter.measure(measuring, width, 200, pixelsPerUnit).left();
      left = Math.max(left, leftOf[i]);
    }
    double plotLeft = x + left;
    Plane across = painters.get(0).measure(measuring, width - (int) (left - leftOf[0]), 200, 1);
    double plotWidth = across.width();
    measuring.dispose();

    List<Mark> marks = visibleMarks();
    List<FlagRows.@Nullable Place> places = flags(marks, plotLeft, plotWidth, right);
    int rows = places.stream().mapToInt(p -> p == null ? 0 : p.row() + 1).max().orElse(0);
    double flagBottom = top + rows * 1.3 * u;
    double railHeight = sheet.rail().isEmpty() ? 0 : 1.15 * u;
    double y = flagBottom + (rows > 0 ? 0.25 * u : 0);
    rail(g, plotLeft, plotWidth, y, railHeight);
    y += railHeight + (railHeight > 0 ? 0.15 * u : 0);
    double stemsFrom = y - railHeight - (railHeight > 0 ? 0.15 * u : 0);

    double weights = lanes.stream().mapToDouble(Lane::weight).sum();
    double room = bottom - y - timeHeight - laneTitle * lanes.size();
    for (int i = 0; i < lanes.size(); i++) {
      Lane lane = lanes.get(i);
      boolean lowest = i == lanes.size() - 1;
      double plotHeight = Math.max(2.2 * u, room * lane.weight() / weights);
      laneHeader(g, lane, plotLeft, y + 1.2 * u, plotWidth);
      y += laneTitle - 0.45 * u;
      int height = (int) Math.round(plotHeight + 0.9 * u + (lowest ? 1.4 * u : 0));
      double shift = left - leftOf[i];
      Graphics2D here = Layers.part(g);
      here.translate(x + shift, y);
      Plane plane = painters.get(i).paint(here, (int) (width - shift), height, pixelsPerUnit);
      here.dispose();
      stems(g, marks, places, plotLeft, plotWidth, y + plane.top(), y + plane.bottom());
      y += plotHeight + 0.45 * u;
      if (lowest) {
        timeTitle(g, painters.get(i).timeUnit(), plotLeft, plotWidth, y + 2.25 * u);
      }
    }
    flagWords(g, marks, places, plotLeft, plotWidth, flagBottom, stemsFrom + railHeight);
  }

  private void timeTitle(Graphics2D g, String unit, double left, double width, double y) {
    var font = ink.plain(0.92);
    String words = sheet.timeTitle() + ", " + unit;
    Ink.write(g, words, font, ink.muted, left + (width - Ink.width(words, font)) / 2, y + 0.35 * u);
  }

  private void laneHeader(Graphics2D g, Lane lane, double x, double y, double width) {
    var bold = ink.bold(0.98);
    var plain = ink.plain(0.92);
    Ink.write(g, lane.title(), bold, ink.text, x, y);
    double at = x + Ink.width(lane.title(), bold) + 0.5 * u;
    Ink.write(g, lane.range().unit(), plain, ink.muted, at, y);
    at += Ink.width(lane.range().unit(), plain) + 1.6 * u;
    double end = x + width;
    Lane.RightScale scale = lane.rightScale();
    if (scale != null) {
      double unitWidth = Ink.width(scale.unit(), plain);
      Ink.write(g, scale.unit(), plain, ink.muted, end + 2.0 * u - unitWidth, y);
      end -= unitWidth;
    }
    for (Lane.LegendEntry entry : lane.legend()) {
      double sample = 2.6 * u;
      double need = sample + 0.45 * u + Ink.width(entry.label(), plain);
      if (at + need > end) {
        return;
      }
      SidePanel.swatch(g, entry, at, y - 0.32 * u, sample, ink);
      Ink.write(g, entry.label(), plain, ink.text, at + sample + 0.45 * u, y);
      at += need + 1.3 * u;
    }
  }

  private List<Mark> visibleMarks() {
    return sheet.marks().stream()
        .filter(m -> m.atS() >= sheet.time().fromS() && m.atS() <= sheet.time().toS())
        .sorted(Comparator.comparingDouble(Mark::atS))
        .toList();
  }

  private List<FlagRows.@Nullable Place> flags(
      List<Mark> marks, double left, double width, double right) {
    var font = ink.plain(0.88);
    List<FlagRows.Flag> flags =
        marks.stream()
            .map(m -> new FlagRows.Flag(markX(m, left, width), Ink.width(words(m), font) + 0.9 * u))
            .toList();
    return FlagRows.of(flags, 0.3 * u, right);
  }

  private static String words(Mark mark) {
    return mark.byHand() ? mark.label() + " (by hand)" : mark.label();
  }

  private double markX(Mark mark, double left, double width) {
    Span time = sheet.time();
    double x = left + width * (mark.atS() - time.fromS()) / time.lengthS();
    // On whole pixels an upright hairline is crisp.
    return pixelsPerUnit == 1 ? Math.floor(x) + 0.5 : x;
  }

  private void stems(
      Graphics2D g,
      List<Mark> marks,
      List<FlagRows.@Nullable Place> places,
      double left,
      double width,
      double top,
      double bottom) {
    for (Mark mark : marks) {
      double x = markX(mark, left, width);
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
    g.setStroke(
        mark.byHand()
            ? new java.awt.BasicStroke(
                (float) (u / 12),
                java.awt.BasicStroke.CAP_BUTT,
                java.awt.BasicStroke.JOIN_BEVEL,
                10f,
                new float[] {(float) (0.4 * u), (float) (0.25 * u)},
                0f)
            : ink.hair(0.9));
    g.draw(new Line2D.Double(x, top, x, bottom));
  }

  private void flagWords(
      Graphics2D g,
      List<Mark> marks,
      List<FlagRows.@Nullable Place> places,
      double left,
      double width,
      double bottom,
      double stemEnd) {
    var font = ink.plain(0.88);
    for (int i = 0; i < marks.size(); i++) {
      FlagRows.Place place = places.get(i);
      if (place == null) {
        continue;
      }
      Mark mark = marks.get(i);
      double x = markX(mark, left, width);
      double base = bottom - place.row() * 1.3 * u;
      stem(g, mark, x, base - 1.0 * u, stemEnd);
      double textX = place.toTheLeft() ? x - Ink.width(words(mark), font) - 0.4 * u : x + 0.4 * u;
      Ink.write(g, words(mark), font, ink.text, textX, base - 0.15 * u);
    }
  }

  private void rail(Graphics2D g, double left, double width, double y, double height) {
    var font = ink.plain(0.8);
    for (Sheet.RailPiece piece : sheet.rail()) {
      Span time = sheet.time();
      double from =
          left + width * Math.max(0, (piece.part().fromS() - time.fromS()) / time.lengthS());
      double to = left + width * Math.min(1, (piece.part().toS() - time.fromS()) / time.lengthS());
      if (to - from < 0.5) {
        continue;
      }
      g.setColor(Ink.pale(ink.accent, 0.1 + 0.28 * piece.emphasis()));
      g.fill(new Rectangle2D.Double(from, y, to - from, height));
      if (Ink.width(piece.word(), font) + 0.6 * u < to - from) {
        double w = Ink.width(piece.word(), font);
        Ink.write(
            g, piece.word(), font, ink.text, from + (to - from - w) / 2, y + height / 2 + 0.28 * u);
      }
    }
  }
}
