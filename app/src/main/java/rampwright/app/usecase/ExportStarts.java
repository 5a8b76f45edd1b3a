package rampwright.app.usecase;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import rampwright.app.envelope.FigureKey;
import rampwright.app.logbook.LogEntry;

/** The starts in force as the table that {@link ImportStarts} reads. */
public final class ExportStarts {
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
          List<LogEntry> entries = new ArrayList<>();
          for (String asset : book.assets()) {
            entries.addAll(book.starts(asset));
          }
          return csv(entries);
        });
  }

  private static String csv(List<LogEntry> entries) {
    Set<String> figures = new TreeSet<>(Comparator.comparingInt(FigureKey.keys()::indexOf));
    entries.forEach(
        entry ->
            entry.figures().keySet().stream()
                .filter(key -> FigureKey.ofKey(key).isPresent())
                .forEach(figures::add));
    StringWriter text = new StringWriter();
    List<String> header =
        new ArrayList<>(
            List.of(
                "asset",
                "time",
                "settings",
                "outcome",
                "representative",
                "reason",
                "note",
                "author"));
    header.addAll(figures);
    try (CsvWriter out = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(text)) {
      out.writeRecord(header);
      entries.forEach(entry -> out.writeRecord(cells(entry, figures)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  private static List<String> cells(LogEntry entry, Set<String> figures) {
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
