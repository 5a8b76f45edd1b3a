package rampwright.acquisition.file;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/**
 * Reads CSV files to traces: the program's own and those of loggers, scopes and spreadsheets.
 *
 * <p>What is understood, with all words and units, is in {@code acquisition/docs/csv.md}.
 */
public final class CsvTraceReader {
  private static final int SAMPLE = 1 << 15;
  private static final int LARGEST_SAMPLE = 1 << 18;
  private static final int LINES_WANTED = 300;
  private static final double MOST_LOST = 0.5;

  /** Note written by {@link CsvTraceWriter} for what a table has no column for. */
  static final String START_UTC = "start_utc = ";

  static final String KIND = "kind = ";

  private final String file;
  private final ColumnMapping columns;
  private final ReadContext context;
  private final CsvLimits limits;

  private CsvTraceReader(
      String file, ColumnMapping columns, ReadContext context, CsvLimits limits) {
    this.file = file;
    this.columns = columns;
    this.context = context;
    this.limits = limits;
  }

  /** A trace, nothing being known of the motor, within the usual limits. */
  public static Trace read(Path file, ColumnMapping columns, @Nullable TraceKind declaredKind)
      throws TraceFileException {
    return read(file, columns, declaredKind, ReadContext.NONE, CsvLimits.standard());
  }

  /**
   * A trace.
   *
   * @param columns a person's word on the columns
   * @param declaredKind what the values are, where a person says so
   * @param context what is known of the motor and the place
   * @param limits what reading may cost
   */
  public static Trace read(
      Path file,
      ColumnMapping columns,
      @Nullable TraceKind declaredKind,
      ReadContext context,
      CsvLimits limits)
      throws TraceFileException {
    try (CsvSource source = CsvSource.open(file)) {
      return new CsvTraceReader(source.file(), columns, context, limits)
          .trace(source, declaredKind);
    }
  }

  /** What is understood of a file from its beginning, without reading all of it. */
  public static CsvUnderstanding understand(
      Path file, ColumnMapping columns, ReadContext context, CsvLimits limits)
      throws TraceFileException {
    try (CsvSource source = CsvSource.open(file)) {
      CsvTraceReader reader = new CsvTraceReader(source.file(), columns, context, limits);
      Beginning beginning = reader.begin(source);
      return reader.understanding(source, beginning);
    }
  }

  /** The first bytes of a file and what they tell. */
  private static final class Beginning {
    private final byte[] bytes;
    private final int count;
    private final CsvLayout layout;
    private final ColumnPlanner.Decision decision;

    Beginning(byte[] bytes, int count, CsvLayout layout, ColumnPlanner.Decision decision) {
      this.bytes = bytes;
      this.count = count;
      this.layout = layout;
      this.decision = decision;
    }
  }

  private Beginning begin(CsvSource source) throws TraceFileException {
    byte[] bytes = CsvPipeline.buffer(limits);
    int count = source.read(bytes, 0, SAMPLE);
    boolean whole = count < SAMPLE;
    while (!whole && wantsMore(bytes, count)) {
      int wanted = Math.min(SAMPLE, limits.maxLineBytes() - count);
      int got = source.read(bytes, count, wanted);
      whole = got < wanted;
      count += got;
    }
    CsvLayout layout = CsvLayout.of(file, bytes, count, whole, source.charset(), limits);
    ColumnPlanner.Decision decision = new ColumnPlanner(file, layout, columns, context).decide();
    return new Beginning(bytes, count, layout, decision);
  }

  /** Whether the sample is too small to hold a preamble, a header and some rows. */
  private boolean wantsMore(byte[] bytes, int count) {
    int lines = 0;
    for (int i = 0; i < count; i++) {
      lines += bytes[i] == '\n' || bytes[i] == '\r' ? 1 : 0;
    }
    int most = lines == 0 ? limits.maxLineBytes() : Math.min(LARGEST_SAMPLE, limits.maxLineBytes());
    return lines < LINES_WANTED && count < most;
  }

  private CsvUnderstanding understanding(CsvSource source, Beginning beginning) {
    CsvLayout layout = beginning.layout;
    ColumnPlanner.Decision decision = beginning.decision;
    String header =
        layout.headerLine() == 0 ? "no header" : "header on line " + layout.headerLine();
    return new CsvUnderstanding(
        file,
        String.format(
            Locale.ROOT,
            "table: %s; %s; %s, rows from line %d",
            source.encoding(),
            layout.dialect().inWords(),
            header,
            layout.dataLine()),
        decision.readings(),
        decision.notUsed(),
        decision.warnings(),
        layout.notes());
  }

  private Trace trace(CsvSource source, @Nullable TraceKind declaredKind)
      throws TraceFileException {
    Beginning beginning = begin(source);
    ColumnPlanner.Decision decision = beginning.decision;
    CsvLayout layout = beginning.layout;
    try (CsvPipeline pipeline =
        new CsvPipeline(source, decision.plan(), limits, layout.dataLine())) {
      pipeline.run(beginning.bytes, layout.dataAt(), beginning.count);
      refuseIfMostIsLost(pipeline);
      CsvUnderstanding understanding = understanding(source, beginning);
      List<String> warnings = new ArrayList<>(understanding.warnings());
      CsvTimeAxis.Axis axis = axis(pipeline, decision);
      warnings.addAll(axis.warnings());
      Map<ChannelName, Samples> channels = channels(pipeline, decision, axis.dropped(), warnings);
      warnings.addAll(pipeline.problems().warnings());
      if (!pipeline.endsInLineEnd()
          && pipeline.problems().count(CsvProblems.Kind.WRONG_COUNT) > 0) {
        warnings.add("the last line has no line end; the file may be cut off");
      }
      String sha256 = source.sha256();
      warnings.addAll(source.warnings());
      List<String> understood = new ArrayList<>(understanding.lines());
      understood.set(1, understood.get(1) + "; " + axis.description());
      Noted noted = Noted.of(layout.notes());
      String startUtc = decision.time().startUtc();
      Provenance provenance =
          new Provenance(
              file,
              sha256,
              startUtc != null ? startUtc : noted.startUtc(),
              understood,
              warnings,
              noted.notes());
      return new Trace(
          axis.time(), channels, declaredKind != null ? declaredKind : noted.kind(), provenance);
    } catch (IOException e) {
      throw new TraceFileException(
          file, 0, 0, "its numbers could not be kept in a temporary file: " + e.getMessage(), e);
    }
  }

  private CsvTimeAxis.Axis axis(CsvPipeline pipeline, ColumnPlanner.Decision decision)
      throws TraceFileException, IOException {
    ColumnTime.Choice time = decision.time();
    if (time.slot() == null) {
      int rows = pipeline.rowCount();
      if (rows < 2) {
        throw new TraceFileException(file, "holds fewer than two rows; a trace needs at least two");
      }
      double stepS = time.reading().factor();
      return new CsvTimeAxis.Axis(
          TimeBase.even(0, stepS, rows),
          null,
          String.format(
              Locale.ROOT, "%d rows at that rate, %s Hz", rows, CsvTimeAxis.number(1 / stepS)),
          List.of());
    }
    return new CsvTimeAxis(file, pipeline.rows(), time.stamps(), pipeline.inFile())
        .axis(pipeline.samples(0));
  }

  private static Map<ChannelName, Samples> channels(
      CsvPipeline pipeline,
      ColumnPlanner.Decision decision,
      @Nullable BitSet dropped,
      List<String> warnings)
      throws TraceFileException, IOException {
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    int time = decision.time().slot() == null ? 0 : 1;
    int slot = time;
    for (ChannelName channel : decision.channels()) {
      CsvPlan.Slot rule = decision.plan().slots().get(slot);
      Samples samples = pipeline.samples(slot);
      if (rule.kind() == CsvPlan.Kind.NUMBER) {
        // The first reading is that of the time; then they come in the order of the slots.
        ColumnReading reading = decision.readings().get(slot - time + 1);
        samples =
            new CsvMarks(reading.place(), rule, warnings)
                .without(samples, pipeline.lowest(slot), pipeline.highest(slot), pipeline.inFile());
      }
      channels.put(
          channel,
          dropped == null ? samples : CsvTimeAxis.without(samples, dropped, pipeline.inFile()));
      slot++;
    }
    return channels;
  }

  private void refuseIfMostIsLost(CsvPipeline pipeline) throws TraceFileException {
    long lost = pipeline.problems().rowsLost();
    long all = lost + pipeline.rowCount();
    if (all > 0 && lost > MOST_LOST * all) {
      CsvProblems problems = pipeline.problems();
      long line = 0;
      for (CsvProblems.Kind kind : CsvProblems.Kind.values()) {
        if (kind.losesRow() && problems.count(kind) > 0) {
          long at = problems.places(kind).get(0).line();
          line = line == 0 ? at : Math.min(line, at);
        }
      }
      throw new TraceFileException(
          file,
          line,
          0,
          lost
              + " of "
              + all
              + " rows cannot be used ("
              + String.join("; ", problems.warnings())
              + "); export it anew or mend these lines",
          null);
    }
  }

  /** What the notes of a file written by this program carry besides remarks. */
  private record Noted(@Nullable String startUtc, @Nullable TraceKind kind, List<String> notes) {
    static Noted of(List<String> lines) {
      String startUtc = null;
      TraceKind kind = null;
      List<String> notes = new ArrayList<>();
      for (String line : lines) {
        if (line.startsWith(START_UTC)) {
          startUtc = instant(line.substring(START_UTC.length()).strip());
        } else if (line.equals(KIND + TraceKind.WAVEFORM.key())) {
          kind = TraceKind.WAVEFORM;
        } else if (line.equals(KIND + TraceKind.RMS.key())) {
          kind = TraceKind.RMS;
        } else {
          notes.add(line);
        }
      }
      return new Noted(startUtc, kind, notes);
    }

    private static @Nullable String instant(String text) {
      try {
        return Instant.parse(text).toString();
      } catch (DateTimeParseException e) {
        return null;
      }
    }
  }
}
