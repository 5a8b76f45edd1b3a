package rampwright.app.usecase;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.AtomicFile;
import rampwright.app.page.record.RecordPage;
import rampwright.app.pdf.Paper;
import rampwright.app.report.Report;

/** Writes a record as a page of HTML or as a PDF, whole or not at all. */
public final class WriteRecord {
  private static final String NAME = "record";

  /** Name endings say which. */
  private enum Form {
    HTML,
    PDF
  }

  /**
   * Where a record goes.
   *
   * @param wanted the file a person named; null for {@code record.html} or {@code record.pdf} in
   *     the asset folder
   * @param pdf whether a PDF was asked for
   * @throws UsageProblem when the file's ending stands for neither, or against what was asked for
   */
  public static Path target(Path folder, @Nullable Path wanted, boolean pdf) throws UsageProblem {
    Path target = wanted == null ? folder.resolve(NAME + (pdf ? ".pdf" : ".html")) : wanted;
    if (pdf && form(target) != Form.PDF) {
      throw new UsageProblem(target + ": --pdf needs a file that ends in .pdf; name it so");
    }
    return target;
  }

  /** Writes the record over what was there. */
  public void run(Report report, Path target) throws InputProblem, UsageProblem {
    Form form = form(target);
    try {
      byte[] content =
          form == Form.PDF
              ? Paper.pdf(RecordPage.html(report, true), RecordPage.DRAWING)
              : RecordPage.html(report, false).getBytes(StandardCharsets.UTF_8);
      AtomicFile.write(target, content);
    } catch (IOException e) {
      throw InputProblem.of(e, target);
    }
  }

  private static Form form(Path target) throws UsageProblem {
    String name = String.valueOf(target.getFileName()).toLowerCase(Locale.ROOT);
    if (name.endsWith(".pdf")) {
      return Form.PDF;
    }
    if (name.endsWith(".html") || name.endsWith(".htm")) {
      return Form.HTML;
    }
    throw new UsageProblem(target + ": the record's ending must be .html or .pdf; name it so");
  }
}
