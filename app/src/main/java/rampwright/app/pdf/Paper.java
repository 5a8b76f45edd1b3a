package rampwright.app.pdf;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.outputdevice.helper.ExternalResourceControlPriority;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.render.DefaultObjectDrawerFactory;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.logging.Level;
import java.util.logging.Logger;

/** Sets a page of HTML as a PDF of A4 sheets. */
public final class Paper {
  /** The family a page names to be set in the font that is embedded. */
  public static final String FONT = "Record";

  private static final String FOLDER = "/com/formdev/flatlaf/fonts/roboto/";
  private static final int NORMAL = 400;
  private static final int BOLD = 700;

  /** Held, since a logger nobody holds forgets its level. */
  private static final Logger LIBRARY = Logger.getLogger("org.apache");

  private Paper() {}

  /**
   * The PDF.
   *
   * @param html well-formed as XML; nothing it might name outside itself is fetched
   * @param drawing type of the objects whose attribute {@code data-paths} is to be drawn
   * @throws IOException when the page cannot be set
   */
  public static byte[] pdf(String html, String drawing) throws IOException {
    LIBRARY.setLevel(Level.OFF);
    XRLog.setLoggingEnabled(false);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    DefaultObjectDrawerFactory drawers = new DefaultObjectDrawerFactory();
    drawers.registerDrawer(drawing, new DrawnPaths());
    PdfRendererBuilder builder = new PdfRendererBuilder();
    builder.withHtmlContent(html, null);
    builder.useFont(() -> font("Roboto-Regular.ttf"), FONT, NORMAL, FontStyle.NORMAL, true);
    builder.useFont(() -> font("Roboto-Bold.ttf"), FONT, BOLD, FontStyle.NORMAL, true);
    builder.useFont(() -> font("Roboto-Italic.ttf"), FONT, NORMAL, FontStyle.ITALIC, true);
    // What the font has no sign for is shown as the sign for that, never left out.
    builder.useReplacementText("\ufffd");
    builder.useObjectDrawerFactory(drawers);
    builder.useUriResolver((base, uri) -> null);
    builder.useExternalResourceAccessControl(
        (uri, type) -> false, ExternalResourceControlPriority.RUN_BEFORE_RESOLVING_URI);
    builder.withProducer("rampwright");
    builder.toStream(out);
    try {
      builder.run();
    } catch (IOException | RuntimeException e) {
      throw new IOException("the page cannot be set on paper: " + e.getMessage(), e);
    }
    return out.toByteArray();
  }

  private static InputStream font(String name) {
    InputStream font = Paper.class.getResourceAsStream(FOLDER + name);
    if (font == null) {
      throw new IllegalStateException("this build of the program has no font " + name + " in it");
    }
    return font;
  }
}
