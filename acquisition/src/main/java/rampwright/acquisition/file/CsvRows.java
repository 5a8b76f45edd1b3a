package rampwright.acquisition.file;

import java.util.Arrays;

/** Which line of the file each good row stood on. */
final class CsvRows {
  private static final int MOST = 1 << 20;

  private final long firstLine;
  private int[] skipsBefore = new int[16];
  private int count;

  /**
   * Rows of a table.
   *
   * @param firstLine line of the first row, 1 based
   */
  CsvRows(long firstLine) {
    this.firstLine = firstLine;
  }

  /** Adds a block's lines without rows; {@code rowsBefore} rows came before the block. */
  void add(int rowsBefore, int[] skips) {
    for (int skip : skips) {
      if (count == MOST) {
        return;
      }
      if (count == skipsBefore.length) {
        skipsBefore = Arrays.copyOf(skipsBefore, count * 2);
      }
      skipsBefore[count++] = rowsBefore + skip;
    }
  }

  /** Line of a row, 1 based; of 0 based row. */
  long lineOf(int row) {
    int low = 0;
    int high = count;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (skipsBefore[middle] <= row) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return firstLine + row + low;
  }
}
