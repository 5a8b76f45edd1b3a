package rampwright.app.pdf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.app.CommandRun;
import rampwright.app.fixture.Commissioned;

/** The record on paper, read back by the library below the one that sets it, and by Poppler. */
class PaperTest {
  @TempDir private Path folder;

  private Path pdf(Path pump) {
    CommandRun.Answer answer = CommandRun.run("report", pump, "--pdf", "--by", "Łucja Žák");
    assertThat(answer.exit()).as(answer.err()).isZero();
    return pump.resolve("record.pdf");
  }

  @Test
  void theSheetsHoldTheNumbersAsText() throws IOException {
    Path pump = Commissioned.pump(folder);
    Commissioned.sheet(pump, "\"Booster pump 2\"", "\"насос Ω № 2\"");
    JsonNode figures =
        CommandRun.run("report", pump, "--json")
            .json()
            .at("/trials/0/entry/result/starts/0/figures");
    try (PDDocument document = Loader.loadPDF(pdf(pump).toFile())) {
      String text = new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
      assertThat(text).contains("насос Ω № 2", "Łucja Žák", "ACCEPTED");
      double start = figures.at("/start_time_s/value").asDouble();
      assertThat(text).contains("start time " + String.format(Locale.ROOT, "%.3f", start));
      assertThat(text).contains("Electricity and moving machines kill", "3.5 x rated current");
      int pages = document.getNumberOfPages();
      assertThat(pages).isGreaterThan(4);
      assertThat(text).contains("page 1 of " + pages, "page " + pages + " of " + pages);
      assertThat(text.split("ticked by, when", -1))
          .as("the head of a table that goes over a page stands on both")
          .hasSizeGreaterThan(2);
      for (PDPage page : document.getPages()) {
        // A4, ISO 216: 210 mm by 297 mm; in points of 1/72 inch.
        assertThat(page.getMediaBox().getWidth()).isCloseTo(210 / 25.4f * 72, within(1f));
        assertThat(page.getMediaBox().getHeight()).isCloseTo(297 / 25.4f * 72, within(1f));
        for (COSName name : page.getResources().getFontNames()) {
          PDFont font = page.getResources().getFont(name);
          assertThat(font.isEmbedded()).as(font.getName()).isTrue();
        }
      }
    }
  }

  /** Poppler's pdftotext and pdffonts: a reader that shares no code with what set the sheets. */
  @Test
  void anotherReaderFindsTheSameText() throws Exception {
    Path pump = Commissioned.pump(folder);
    Commissioned.sheet(pump, "inertia_kgm2 = 2.0\n", "");
    Path pdf = pdf(pump);
    String text = poppler("pdftotext", "-layout", pdf.toString(), "-").replaceAll("\\s+", " ");
    assertThat(text).contains("Booster pump 2", "ACCEPTED", "Łucja Žák", "not given", "page 2 of");
    assertThat(text).contains("peak current / rated 3.00", "20 of 20 checks are OPEN");
    String fonts = poppler("pdffonts", pdf.toString());
    assertThat(fonts.lines().skip(2)).isNotEmpty().allMatch(line -> line.contains(" yes yes yes "));
  }

  private static String poppler(String... words) throws Exception {
    Process process;
    try {
      process = new ProcessBuilder(words).redirectErrorStream(true).start();
    } catch (IOException e) {
      Assumptions.abort("no " + words[0] + " here");
      return "";
    }
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).as(text).isZero();
    return text;
  }

  @Test
  void aSignTheFontLacksIsShownAsThat() throws IOException {
    Path pump = Commissioned.pump(folder);
    Commissioned.sheet(pump, "\"Booster pump 2\"", "\"pump 水 2\"");
    try (PDDocument document = Loader.loadPDF(pdf(pump).toFile())) {
      String text = new PDFTextStripper().getText(document);
      assertThat(text).contains("pump \ufffd 2");
    }
  }

  /** The page may name what it likes; nothing is fetched. */
  @Test
  void nothingOutsideThePageIsFetched() throws IOException {
    Path secret = Files.writeString(folder.resolve("s.css"), "p{color:red}");
    byte[] pdf =
        Paper.pdf(
            "<html><head><link rel=\"stylesheet\" href=\""
                + secret.toUri()
                + "\"/></head><body style=\"font-family:Record\"><p>text</p><img src=\""
                + secret.toUri()
                + "\" alt=\"\"/></body></html>",
            "none/none");
    try (PDDocument document = Loader.loadPDF(pdf)) {
      assertThat(new PDFTextStripper().getText(document)).contains("text");
      String content =
          new String(document.getPage(0).getContents().readAllBytes(), StandardCharsets.ISO_8859_1);
      assertThat(content).doesNotContain("1 0 0 rg");
    }
  }
}
