package rampwright.acquisition.file;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.Samples;

/**
 * Columns of numbers being filled row by row: in arrays while they are small beside the heap, else
 * in a temporary file that is mapped when all rows are there, so that a record may be larger than
 * memory.
 */
final class ComtradeColumns implements AutoCloseable {
  private static final int BLOCK = 8192;
  private static final int MOST_ROWS = Integer.MAX_VALUE / Double.BYTES - 8;

  private final double[][] blocks;
  private final double[][] kept;
  private final long mostRows;
  private final @Nullable FileChannel spill;
  private final @Nullable ByteBuffer out;
  private int inBlock;
  private int rows;

  /**
   * Empty columns.
   *
   * @param mostRows no more rows than this will come
   * @param heapBytes bytes that may be held on the heap
   */
  ComtradeColumns(int columns, long mostRows, long heapBytes) throws IOException {
    this.mostRows = mostRows;
    this.blocks = new double[columns][(int) Math.max(1, Math.min(BLOCK, mostRows))];
    this.kept = new double[columns][0];
    if (mostRows * Double.BYTES > heapBytes / Math.max(1, columns)) {
      Path file = Files.createTempFile("rampwright", ".samples");
      file.toFile().deleteOnExit();
      this.spill =
          FileChannel.open(
              file,
              StandardOpenOption.READ,
              StandardOpenOption.WRITE,
              StandardOpenOption.DELETE_ON_CLOSE);
      this.out = ByteBuffer.allocate(BLOCK * Double.BYTES).order(ByteOrder.nativeOrder());
    } else {
      this.spill = null;
      this.out = null;
    }
  }

  /** Bytes of samples held on the heap before a file is used: a quarter of the heap. */
  static long usualHeapBytes() {
    return Runtime.getRuntime().maxMemory() / 4;
  }

  /** Puts a value into the row that is being filled. */
  void set(int column, double value) {
    blocks[column][inBlock] = value;
  }

  /** Closes the row. */
  void endRow() throws IOException, TooManyRows {
    inBlock++;
    rows++;
    if (inBlock == blocks[0].length) {
      flush();
    }
  }

  int rows() {
    return rows;
  }

  private void flush() throws IOException, TooManyRows {
    if (rows > mostRows || rows > MOST_ROWS) {
      throw new TooManyRows(Math.min(mostRows, MOST_ROWS));
    }
    int start = rows - inBlock;
    for (int c = 0; c < blocks.length; c++) {
      if (spill != null && out != null) {
        out.clear();
        out.asDoubleBuffer().put(blocks[c], 0, inBlock);
        out.limit(inBlock * Double.BYTES);
        long at = (c * mostRows + start) * Double.BYTES;
        while (out.hasRemaining()) {
          at += spill.write(out, at);
        }
      } else {
        if (kept[c].length < rows) {
          long longer = Math.max(rows, Math.min(mostRows, kept[c].length + (kept[c].length >> 1)));
          kept[c] = Arrays.copyOf(kept[c], (int) longer);
        }
        System.arraycopy(blocks[c], 0, kept[c], start, inBlock);
      }
    }
    inBlock = 0;
  }

  /** The columns, with all rows but the last {@code without} ones. */
  List<Samples> finish(int without) throws IOException, TooManyRows {
    flush();
    rows -= without;
    List<Samples> all = new ArrayList<>();
    for (int c = 0; c < blocks.length; c++) {
      if (spill != null) {
        all.add(
            Samples.owning(
                spill
                    .map(
                        FileChannel.MapMode.READ_ONLY,
                        c * mostRows * Double.BYTES,
                        (long) rows * Double.BYTES)
                    .order(ByteOrder.nativeOrder())
                    .asDoubleBuffer()));
      } else {
        double[] values = kept[c].length == rows ? kept[c] : Arrays.copyOf(kept[c], rows);
        kept[c] = new double[0];
        all.add(Samples.owning(values));
      }
    }
    return all;
  }

  /** Closes the file; what was mapped stays readable. */
  @Override
  public void close() throws IOException {
    if (spill != null) {
      spill.close();
    }
  }

  /** More rows than can be held. */
  static final class TooManyRows extends Exception {
    private static final long serialVersionUID = 1L;

    TooManyRows(long most) {
      super("more than " + most + " records");
    }
  }
}
