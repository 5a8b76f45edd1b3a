package rampwright.app.usecase;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import rampwright.app.envelope.FigureKey;
import rampwright.app.logbook.LogEntry;
import rampwright.app.logbook.LoggedFigure;
import rampwright.app.logbook.Origin;

/**
 * A CSV of figures without traces: {@code asset,time,settings,} then figure keys as columns;
 * besides {@code outcome}, {@code representative}, {@code reason}, {@code note} and {@code author}.
 * A row that is wrong is left out and named; the others are kept.
 */
final class StartTable {
  private static final int MOST_PROBLEMS = 20;

  private final Path file;
  private final List<LogEntry> entries = new ArrayList<>();
  private final List<String> problems = new ArrayList<>();
  private final List<String> remarks = new ArrayList<>();
  private int wrongRows;

  private StartTable(Path file) {
    this.file = file;
  }

  /**
   * Reads a table.
   *
   * @throws InputProblem where the file is not such a table at all
   */
  static StartTable read(Path file) throws InputProblem {
    StartTable table = new StartTable(file);
    try (CsvReader<CsvRecord> rows = CsvTables.reader(file).ofCsvRecord(file)) {
      table.rows(rows);
    } catch (CsvParseException e) {
      throw new InputProblem(file + ": is not CSV: " + e.getMessage());
    } catch (UncheckedIOException e) {
      throw InputProblem.of(new IOException(e.getMessage(), e), file);
    } catch (IOException e) {
      throw InputProblem.of(e, file);
    }
    return table;
  }

  private void rows(CsvReader<CsvRecord> rows) throws InputProblem {
    Header header = null;
    for (CsvRecord row : rows) {
      List<String> cells = row.getFields();
      if (cells.size() == 1 && cells.get(0).isBlank()) {
        continue;
      }
      if (header == null) {
        header = Header.of(file, cells, remarks);
        continue;
      }
      try {
        entries.add(entry(header, cells));
      } catch (IllegalArgumentException e) {
        wrongRows++;
        if (problems.size() < MOST_PROBLEMS) {
          problems.add(file + " line " + row.getStartingLineNumber() + ": " + e.getMessage());
        }
      }
    }
    if (header == null) {
      throw new InputProblem(file + ": is empty; the first line names the columns");
    }
    if (wrongRows > problems.size()) {
      problems.add(file + ": and " + (wrongRows - problems.size()) + " more lines like these");
    }
  }

  /** Where the columns are. */
  private record Header(Map<String, Integer> words, Map<FigureKey, Integer> figures) {
    private static final List<String> WORDS =
        List.of(
            "asset", "time", "settings", "outcome", "representative", "reason", "note", "author");

    static Header of(Path file, List<String> cells, List<String> remarks) throws InputProblem {
      Map<String, Integer> words = new LinkedHashMap<>();
      Map<FigureKey, Integer> figures = new LinkedHashMap<>();
      List<String> unknown = new ArrayList<>();
      for (int i = 0; i < cells.size(); i++) {
        String name = cells.get(i).strip();
        Optional<FigureKey> figure = FigureKey.ofKey(name);
        String word = name.toLowerCase(Locale.ROOT);
        boolean twice =
            figure.isPresent()
                ? figures.put(figure.get(), i) != null
                : WORDS.contains(word) && words.put(word, i) != null;
        if (twice) {
          throw new InputProblem(file + " line 1: the column " + name + " is there twice");
        }
        if (figure.isEmpty() && !WORDS.contains(word)) {
          unknown.add(name.isEmpty() ? "column " + (i + 1) : name);
        }
      }
      if (!words.containsKey("asset") || !words.containsKey("time")) {
        throw new InputProblem(
            file + " line 1: a table of starts has the columns asset and time, then figure keys");
      }
      if (figures.isEmpty()) {
        throw new InputProblem(
            file
                + " line 1: names no figure; figures are called start_time_s, peak_current_ratio"
                + " and so on (rampwright schema lists them)");
      }
      if (!unknown.isEmpty()) {
        remarks.add(file + ": left out, no figure keys: " + String.join(", ", unknown));
      }
      return new Header(words, figures);
    }

    String word(List<String> cells, String word) {
      Integer at = words.get(word);
      return at == null || at >= cells.size() ? "" : cells.get(at).strip();
    }
  }

  private LogEntry entry(Header header, List<String> cells) {
    String asset = header.word(cells, "asset");
    if (asset.isEmpty()) {
      throw new IllegalArgumentException("column asset is empty");
    }
    Instant at = instant(header.word(cells, "time"));
    Map<String, LoggedFigure> figures = new LinkedHashMap<>();
    header
        .figures()
        .forEach(
            (figure, column) -> {
              String cell = column < cells.size() ? cells.get(column).strip() : "";
              if (!cell.isEmpty()) {
                figures.put(
                    figure.key(),
                    new LoggedFigure(number(figure.key(), cell), figure.unit(), Double.NaN, ""));
              }
            });
    String representative = header.word(cells, "representative").toLowerCase(Locale.ROOT);
    boolean counts = !List.of("false", "no", "0").contains(representative);
    return new LogEntry(
        asset,
        at,
        header.word(cells, "settings"),
        header.word(cells, "outcome"),
        counts,
        header.word(cells, "reason"),
        header.word(cells, "note"),
        header.word(cells, "author"),
        Origin.withoutTrace("table " + file.getFileName()),
        figures);
  }

  private static double number(String column, String cell) {
    try {
      double value = Double.parseDouble(cell);
      if (Double.isFinite(value)) {
        return value;
      }
      if (Double.isNaN(value)) {
        return Double.NaN;
      }
    } catch (NumberFormatException e) {
      // said below
    }
    throw new IllegalArgumentException(
        "column "
            + column
            + ": '"
            + cell
            + "' is no number; leave the cell empty where none was had");
  }

  /** ISO 8601; without a zone it is UTC. */
  private static Instant instant(String cell) {
    @Nullable Instant read = zoned(cell);
    if (read == null) {
      try {
        read = LocalDateTime.parse(cell.replace(' ', 'T')).toInstant(ZoneOffset.UTC);
      } catch (DateTimeParseException e) {
        throw new IllegalArgumentException(
            "column time: '" + cell + "' is no ISO 8601 time such as 2026-03-14T09:12:05Z");
      }
    }
    return read;
  }

  private static @Nullable Instant zoned(String cell) {
    try {
      return OffsetDateTime.parse(cell.replace(' ', 'T')).toInstant();
    } catch (DateTimeParseException e) {
      return null;
    }
  }

  List<LogEntry> entries() {
    return entries;
  }

  List<String> problems() {
    return problems;
  }

  List<String> remarks() {
    return remarks;
  }
}
