package rampwright.app.chart;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageTypeSpecifier;
import javax.imageio.ImageWriter;
import javax.imageio.metadata.IIOMetadata;
import javax.imageio.metadata.IIOMetadataNode;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/** PNG files that say how many dots an inch they have. */
final class PngOut {
  private static final String FORM = "javax_imageio_png_1.0";
  private static final double INCHES_PER_METRE = 1 / 0.0254;

  private PngOut() {}

  static byte[] write(BufferedImage image, double dotsPerInch) {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("png").next();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    // Kept in memory: the default would make a temporary file.
    try (var out = new MemoryCacheImageOutputStream(bytes)) {
      IIOMetadata metadata =
          writer.getDefaultImageMetadata(
              ImageTypeSpecifier.createFromRenderedImage(image), writer.getDefaultWriteParam());
      String dotsPerMetre = Long.toString(Math.round(dotsPerInch * INCHES_PER_METRE));
      IIOMetadataNode size = new IIOMetadataNode("pHYs");
      size.setAttribute("pixelsPerUnitXAxis", dotsPerMetre);
      size.setAttribute("pixelsPerUnitYAxis", dotsPerMetre);
      size.setAttribute("unitSpecifier", "meter");
      IIOMetadataNode root = new IIOMetadataNode(FORM);
      root.appendChild(size);
      metadata.mergeTree(FORM, root);
      writer.setOutput(out);
      writer.write(null, new IIOImage(image, null, metadata), null);
      out.flush();
    } catch (IOException e) {
      throw new UncheckedIOException("PNG could not be written to memory", e);
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }
}
