package rampwright.app.usecase;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.app.envelope.FigureKey;
import rampwright.app.logbook.LogEntry;
import rampwright.app.logbook.Logbook;
import rampwright.app.logbook.LogbookException;

/**
 * The starts in force, asset by asset: as the CSV table that {@link ImportStarts} reads, or as
 * Parquet for other tools.
 */
public final class ExportStarts {
  private static final List<String> WORDS =
      List.of("asset", "time", "settings", "outcome", "representative", "reason", "note", "author");

  private final LogbookUse logbooks;

  public ExportStarts(LogbookUse logbooks) {
    this.logbooks = logbooks;
  }

  /**
   * CSV, comma separated, decimal points, header first; an empty cell where a figure is missing.
   */
  public String csv(@Nullable String logbook)
      throws InputProblem, UsageProblem, InterruptedException {
    return logbooks.run(
        logbook,
        book -> {
          StringWriter text = new StringWriter();
          csv(book, text);
          return text.toString();
        });
  }

  /** Writes a file, whole or not at all: Parquet where its name ends so, else CSV. */
  public void file(@Nullable String logbook, Path target)
      throws InputProblem, UsageProblem, InterruptedException {
    Path name = target.getFileName();
    Path part = target.resolveSibling("." + name + ".part");
    boolean parquet = String.valueOf(name).toLowerCase(Locale.ROOT).endsWith(".parquet");
    logbooks.run(
        logbook,
        book -> {
          try {
            Files.deleteIfExists(part);
            if (parquet) {
              book.exportParquet(part);
            } else {
              try (Writer out = Files.newBufferedWriter(part, StandardCharsets.UTF_8)) {
                csv(book, out);
              }
            }
            Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
            return true;
          } catch (UncheckedIOException e) {
            throw InputProblem.of(new IOException(e.getMessage(), e), target);
          } catch (IOException e) {
            throw InputProblem.of(e, target);
          } finally {
            delete(part);
          }
        });
  }

  private static void delete(Path part) {
    try {
      Files.deleteIfExists(part);
    } catch (IOException e) {
      // Nothing is lost by a file that nobody asked for.
    }
  }

  private static void csv(Logbook book, Writer text) throws LogbookException {
    List<String> figures =
        book.figures().stream().filter(key -> FigureKey.ofKey(key).isPresent()).toList();
    List<String> header = new ArrayList<>(WORDS);
    header.addAll(figures);
    try (CsvWriter out = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(text)) {
      out.writeRecord(header);
      for (String asset : book.assets()) {
        for (LogEntry entry : book.starts(asset)) {
          out.writeRecord(cells(entry, figures));
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<String> cells(LogEntry entry, List<String> figures) {
    List<String> cells =
        new ArrayList<>(
            List.of(
                entry.asset(),
                entry.at().toString(),
                entry.settings(),
                entry.outcome(),
                Boolean.toString(entry.counts()),
                entry.reason(),
                entry.note(),
                entry.author()));
    for (String figure : figures) {
      double value = entry.value(figure);
      cells.add(Double.isFinite(value) ? Double.toString(value) : "");
    }
    return cells;
  }
}
