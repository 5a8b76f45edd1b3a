package rampwright.acquisition.file;

/**
 * What reading a text file may cost.
 *
 * @param maxLineBytes longest line taken for a line of a table, bytes
 * @param maxColumns most cells in a line
 * @param heapBytes numbers up to this size stay in memory, bytes; more of them go to a mapped
 *     temporary file
 * @param threads threads that parse
 */
public record CsvLimits(int maxLineBytes, int maxColumns, long heapBytes, int threads) {
  private static final int HEAP_SHARE = 8;

  public CsvLimits {
    if (maxLineBytes < 1024 || maxLineBytes > 1 << 28 || maxColumns < 2 || heapBytes < 0) {
      throw new IllegalArgumentException(
          "limits: lines of 1024 to 2^28 bytes, 2 columns or more, heap share of 0 or more");
    }
    if (threads < 1) {
      throw new IllegalArgumentException("limits: " + threads + " threads; at least 1");
    }
  }

  /** Lines of 1 MiB, 10,000 columns, an eighth of the heap, as many threads as processors. */
  public static CsvLimits standard() {
    Runtime runtime = Runtime.getRuntime();
    return new CsvLimits(
        1 << 20, 10_000, runtime.maxMemory() / HEAP_SHARE, runtime.availableProcessors());
  }
}
