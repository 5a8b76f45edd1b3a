package rampwright.acquisition.file;

import java.io.IOException;
import java.util.BitSet;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.Samples;

/** The records of COMTRADE data, read in one pass over the file at each call. */
interface ComtradeData {

  /** Stored missing marks become NaN; everything else becomes the field's value. */
  double MISSING = Double.NaN;

  /**
   * Reads columns.
   *
   * @param fields columns wanted
   * @param keep rows wanted; null for all of them
   * @param heapBytes bytes of samples that may be held on the heap
   * @param warnings gets a line for everything passed over
   * @return one column for each field
   */
  List<Samples> read(
      List<ComtradeField> fields, @Nullable BitSet keep, long heapBytes, List<String> warnings)
      throws IOException, TraceFileException;

  /** The data of a record. */
  static ComtradeData of(ComtradeParts parts, ComtradeConfig config) {
    return config.encoding() == ComtradeEncoding.ASCII
        ? new ComtradeAsciiData(parts, config)
        : new ComtradeBinaryData(parts, config);
  }
}
