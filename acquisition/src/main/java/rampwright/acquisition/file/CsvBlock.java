package rampwright.acquisition.file;

import java.util.Arrays;

/** Numbers parsed from a run of whole lines. Filled by one parser, then handed on. */
final class CsvBlock {
  private static final int SKIPS_KEPT = 100_000;

  private final CsvProblems problems = new CsvProblems();
  private double[][] columns;
  private int rows;
  private long lines;
  private int[] skips = new int[8];
  private int skipCount;
  private long dateChangeLine = -1;
  private long otherHeaderLine = -1;
  private final double[] lowest;
  private final double[] highest;

  CsvBlock(int slots, int rowsExpected) {
    columns = new double[slots][Math.max(16, rowsExpected)];
    lowest = new double[slots];
    highest = new double[slots];
  }

  double[][] columns() {
    return columns;
  }

  int rows() {
    return rows;
  }

  /** Lines seen, with or without a row. */
  long lines() {
    return lines;
  }

  CsvProblems problems() {
    return problems;
  }

  /** For each line without a good row: how many good rows came before it. */
  int[] skips() {
    return Arrays.copyOf(skips, skipCount);
  }

  /** First line, 0 based in the block, on which an ambiguous date changed; -1 when none did. */
  long dateChangeLine() {
    return dateChangeLine;
  }

  /** First line, 0 based in the block, that is a header unlike the file's; -1 when none is. */
  long otherHeaderLine() {
    return otherHeaderLine;
  }

  void noteOtherHeader() {
    if (otherHeaderLine < 0) {
      otherHeaderLine = lines;
    }
  }

  /** Lowest number of a slot; NaN when there is none. */
  double lowest(int slot) {
    return lowest[slot];
  }

  /** Highest number of a slot; NaN when there is none. */
  double highest(int slot) {
    return highest[slot];
  }

  /** Finds the range of each slot, while its numbers are still near the processor. */
  void findRange() {
    for (int slot = 0; slot < columns.length; slot++) {
      double low = Double.NaN;
      double high = Double.NaN;
      double[] column = columns[slot];
      for (int row = 0; row < rows; row++) {
        double value = column[row];
        low = value < low || Double.isNaN(low) ? value : low;
        high = value > high || Double.isNaN(high) ? value : high;
      }
      lowest[slot] = low;
      highest[slot] = high;
    }
  }

  void noteDateChange() {
    if (dateChangeLine < 0) {
      dateChangeLine = lines;
    }
  }

  void keepRow() {
    rows++;
    lines++;
    if (rows == columns[0].length) {
      for (int i = 0; i < columns.length; i++) {
        columns[i] = Arrays.copyOf(columns[i], rows * 2);
      }
    }
  }

  void skipLine() {
    lines++;
    if (skipCount < SKIPS_KEPT) {
      if (skipCount == skips.length) {
        skips = Arrays.copyOf(skips, skipCount * 2);
      }
      skips[skipCount++] = rows;
    }
  }
}
