package rampwright.app.logbook;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.apache.hadoop.conf.Configuration;
import org.apache.parquet.hadoop.ParquetWriter;
import org.apache.parquet.hadoop.api.WriteSupport;
import org.apache.parquet.io.LocalOutputFile;
import org.apache.parquet.io.OutputFile;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.io.api.RecordConsumer;
import org.apache.parquet.schema.LogicalTypeAnnotation;
import org.apache.parquet.schema.LogicalTypeAnnotation.TimeUnit;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;
import org.apache.parquet.schema.Types;
import org.jspecify.annotations.Nullable;

/**
 * Starts as a Parquet file: a row for each, the figures as columns of their key with a column
 * {@code KEY_uncertainty} beside; a figure that could not be had is null. Uncompressed.
 */
final class ParquetStarts implements AutoCloseable {
  private static final String UNCERTAINTY = "_uncertainty";
  private static final List<String> WORDS =
      List.of(
          "asset",
          "settings",
          "outcome",
          "reason",
          "note",
          "author",
          "source",
          "tool_version",
          "definitions",
          "trace_sha256");

  private final ParquetWriter<LogEntry> writer;

  /**
   * Begins a file.
   *
   * @param file that is not there yet
   * @param figures keys, in the order of the columns
   */
  ParquetStarts(Path file, List<String> figures) throws IOException {
    writer =
        new Builder(new LocalOutputFile(file), figures)
            .withExtraMetaData(Map.of("rampwright.rows", "starts in force"))
            .build();
  }

  void write(LogEntry entry) throws IOException {
    writer.write(entry);
  }

  @Override
  public void close() throws IOException {
    writer.close();
  }

  private static final class Builder extends ParquetWriter.Builder<LogEntry, Builder> {
    private final List<String> figures;

    Builder(OutputFile file, List<String> figures) {
      super(file);
      this.figures = figures;
    }

    @Override
    protected Builder self() {
      return this;
    }

    @Override
    @SuppressWarnings("deprecation") // still abstract in the library
    protected WriteSupport<LogEntry> getWriteSupport(Configuration configuration) {
      return new Rows(figures);
    }
  }

  private static final class Rows extends WriteSupport<LogEntry> {
    private final List<String> figures;
    private @Nullable RecordConsumer out;
    private int column;

    Rows(List<String> figures) {
      this.figures = List.copyOf(figures);
    }

    @Override
    @SuppressWarnings("deprecation") // still abstract in the library
    public WriteContext init(Configuration configuration) {
      return new WriteContext(schema(), Map.of());
    }

    private MessageType schema() {
      Types.MessageTypeBuilder message = Types.buildMessage();
      message
          .required(PrimitiveTypeName.INT64)
          .as(LogicalTypeAnnotation.timestampType(true, TimeUnit.MILLIS))
          .named("at");
      for (String word : WORDS) {
        message
            .required(PrimitiveTypeName.BINARY)
            .as(LogicalTypeAnnotation.stringType())
            .named(word);
      }
      message.required(PrimitiveTypeName.BOOLEAN).named("representative");
      for (String figure : figures) {
        message.optional(PrimitiveTypeName.DOUBLE).named(figure);
        message.optional(PrimitiveTypeName.DOUBLE).named(figure + UNCERTAINTY);
      }
      return message.named("starts");
    }

    @Override
    public void prepareForWrite(RecordConsumer consumer) {
      out = consumer;
    }

    @Override
    public void write(LogEntry entry) {
      RecordConsumer row = Objects.requireNonNull(out);
      column = 0;
      row.startMessage();
      field(row, "at", () -> row.addLong(entry.at().toEpochMilli()));
      Origin origin = entry.origin();
      List<String> words =
          List.of(
              entry.asset(),
              entry.settings(),
              entry.outcome(),
              entry.reason(),
              entry.note(),
              entry.author(),
              origin.source(),
              origin.toolVersion(),
              origin.definitions(),
              origin.traceSha256());
      for (int i = 0; i < words.size(); i++) {
        String word = words.get(i);
        field(row, WORDS.get(i), () -> row.addBinary(Binary.fromString(word)));
      }
      field(row, "representative", () -> row.addBoolean(entry.counts()));
      for (String key : figures) {
        LoggedFigure figure = entry.figures().get(key);
        number(row, key, figure == null ? Double.NaN : figure.value());
        number(row, key + UNCERTAINTY, figure == null ? Double.NaN : figure.uncertainty());
      }
      row.endMessage();
    }

    private void number(RecordConsumer row, String name, double value) {
      if (Double.isFinite(value)) {
        field(row, name, () -> row.addDouble(value));
      } else {
        column++;
      }
    }

    private void field(RecordConsumer row, String name, Runnable value) {
      row.startField(name, column);
      value.run();
      row.endField(name, column);
      column++;
    }
  }
}
