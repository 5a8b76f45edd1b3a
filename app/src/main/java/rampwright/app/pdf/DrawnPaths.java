package rampwright.app.pdf;

import com.openhtmltopdf.extend.FSObjectDrawer;
import com.openhtmltopdf.extend.OutputDevice;
import com.openhtmltopdf.render.RenderingContext;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.w3c.dom.Element;

/**
 * Draws the paths of a box of 1000 by 1000, stretched to its place: {@code look:path} parted by
 * bars. A path knows M, L and Z. No text is drawn here, so no font of the machine is asked for.
 */
final class DrawnPaths implements FSObjectDrawer {
  private static final Pattern STEP = Pattern.compile("([MLZ])(?:(-?\\d+) (-?\\d+))?");
  private static final double SIDE = 1000;

  @Override
  public @Nullable Map<Shape, String> drawObject(
      Element element,
      double x,
      double y,
      double width,
      double height,
      OutputDevice outputDevice,
      RenderingContext context,
      int dotsPerPixel) {
    String drawing = element.getAttribute("data-paths");
    outputDevice.drawWithGraphics(
        (float) x,
        (float) y,
        (float) width,
        (float) height,
        graphics -> draw(graphics, drawing, width / dotsPerPixel, height / dotsPerPixel));
    return null;
  }

  private static void draw(Graphics2D graphics, String drawing, double width, double height) {
    graphics.clip(new Rectangle2D.Double(0, 0, width, height));
    for (String one : drawing.split("\\|", -1)) {
      int colon = one.indexOf(':');
      if (colon > 0) {
        draw(graphics, one.substring(0, colon), path(one.substring(colon + 1), width, height));
      }
    }
  }

  private static void draw(Graphics2D graphics, String look, Shape path) {
    switch (look) {
      case "band" -> {
        graphics.setPaint(new Color(0xd5d5d5));
        graphics.fill(path);
      }
      case "grid" -> stroke(graphics, path, 0xdddddd, 0.6f);
      case "mark" -> stroke(graphics, path, 0x777777, 0.7f);
      case "limit" -> stroke(graphics, path, 0x333333, 1.2f, 9, 4);
      case "dashes" -> stroke(graphics, path, 0x111111, 1.2f, 2.5f, 2.5f);
      default -> stroke(graphics, path, 0x111111, 1.2f);
    }
  }

  private static void stroke(
      Graphics2D graphics, Shape path, int color, float width, float... dashes) {
    graphics.setPaint(new Color(color));
    graphics.setStroke(
        new BasicStroke(
            width,
            BasicStroke.CAP_BUTT,
            BasicStroke.JOIN_ROUND,
            1,
            dashes.length == 0 ? null : dashes,
            0));
    graphics.draw(path);
  }

  private static Shape path(String d, double width, double height) {
    Path2D path = new Path2D.Double();
    Matcher step = STEP.matcher(d);
    while (step.find()) {
      if (step.group(2) == null) {
        path.closePath();
        continue;
      }
      double x = Double.parseDouble(step.group(2)) * width / SIDE;
      double y = Double.parseDouble(step.group(3)) * height / SIDE;
      if (step.group(1).equals("M") || path.getCurrentPoint() == null) {
        path.moveTo(x, y);
      } else {
        path.lineTo(x, y);
      }
    }
    return path;
  }
}
