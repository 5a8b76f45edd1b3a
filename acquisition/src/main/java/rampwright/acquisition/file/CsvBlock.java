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

  CsvBlock(int slots, int rowsExpected) {
    columns = new double[slots][Math.max(16, rowsExpected)];
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
