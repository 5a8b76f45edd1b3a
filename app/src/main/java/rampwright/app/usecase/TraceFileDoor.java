package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.ColumnMapping;
import rampwright.acquisition.file.ComtradeEdition;
import rampwright.acquisition.file.ReadContext;
import rampwright.acquisition.file.TraceFileException;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/** Port: trace files in and out. */
public interface TraceFileDoor {
  /**
   * The trace of a file.
   *
   * @throws TraceFileException when the file is broken or cannot be understood
   * @throws IOException when it cannot be read at all
   */
  Trace read(ReadRequest request) throws TraceFileException, IOException;

  /**
   * Writes a trace, whole or not at all, and says which files were made.
   *
   * @throws TraceFileException when the trace cannot be held by the format
   */
  List<Path> write(WriteRequest request) throws TraceFileException, IOException;

  /**
   * What to read and what a person says about it.
   *
   * @param file the file; of a pair the configuration file
   * @param columns a person's word on its columns
   * @param declaredKind what a person says the values are; null to find it out
   * @param secondary whether COMTRADE values are wanted at the secondary side of the transformers
   * @param context rated values, for columns in per cent or multiples of them
   */
  record ReadRequest(
      Path file,
      ColumnMapping columns,
      @Nullable TraceKind declaredKind,
      boolean secondary,
      ReadContext context) {}

  /**
   * What to write where.
   *
   * @param trace the trace
   * @param target the file; of a pair the configuration file
   * @param format the format
   * @param edition the edition COMTRADE is written by
   * @param frequencyHz supply frequency to be noted in the file; null when not known
   */
  record WriteRequest(
      Trace trace,
      Path target,
      TraceFormat format,
      ComtradeEdition edition,
      @Nullable Double frequencyHz) {}
}
