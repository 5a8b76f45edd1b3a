package rampwright.acquisition.file;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.Samples;

/**
 * Reads a table's text in blocks of whole lines, has them parsed on several threads and puts the
 * numbers together in order. A table that fits in one block is parsed where it is.
 */
final class CsvPipeline implements AutoCloseable {
  /** Bytes read at a time: large against the cost of handing a block over, small against memory. */
  static final int BLOCK = 1 << 20;

  private final CsvSource source;
  private final CsvPlan plan;
  private final CsvLimits limits;
  private final CsvRows rows;
  private final long firstLine;
  private final CsvProblems problems = new CsvProblems();
  private final List<CsvStore> stores = new ArrayList<>();
  private final ConcurrentLinkedQueue<CsvBlockParser> parsers = new ConcurrentLinkedQueue<>();
  private final ConcurrentLinkedQueue<byte[]> spare = new ConcurrentLinkedQueue<>();
  private final Deque<Future<CsvBlock>> running = new ArrayDeque<>();
  private @Nullable ExecutorService pool;
  private long linesDone;
  private int rowsDone;
  private boolean endsInLineEnd = true;
  private double bytesPerRow = 16;
  private final double[] lowest;
  private final double[] highest;

  CsvPipeline(CsvSource source, CsvPlan plan, CsvLimits limits, long firstLine) {
    this.source = source;
    this.plan = plan;
    this.limits = limits;
    this.firstLine = firstLine;
    this.rows = new CsvRows(firstLine);
    for (int i = 0; i < plan.slots().size(); i++) {
      stores.add(new CsvStore());
    }
    this.lowest = new double[stores.size()];
    this.highest = new double[stores.size()];
    Arrays.fill(lowest, Double.POSITIVE_INFINITY);
    Arrays.fill(highest, Double.NEGATIVE_INFINITY);
  }

  /** A buffer to start with, of the size {@link #run} needs. */
  static byte[] buffer(CsvLimits limits) {
    return new byte[BLOCK + limits.maxLineBytes() + 8];
  }

  /**
   * Parses everything.
   *
   * @param head a buffer from {@link #buffer} that holds text already read
   * @param from where the first row begins in it
   * @param count bytes in it
   */
  void run(byte[] head, int from, int count) throws TraceFileException {
    byte[] bytes = head;
    int start = from;
    int end = count;
    int got = source.read(bytes, end, BLOCK - Math.min(BLOCK, end));
    boolean over = end + got < BLOCK;
    end += got;
    try {
      while (true) {
        int whole = over ? closed(bytes, start, end) : lastLineEnd(bytes, start, end);
        if (over && running.isEmpty()) {
          take(parse(bytes, start, whole));
          return;
        }
        byte[] next = over ? bytes : nextBuffer();
        int carried = over ? 0 : end - whole;
        if (carried > limits.maxLineBytes()) {
          finishRunning();
          throw new TraceFileException(
              source.file(),
              firstLine + linesDone,
              0,
              "is longer than "
                  + limits.maxLineBytes()
                  + " bytes; this is not a table of readings, or its line ends are lost;"
                  + " export it anew",
              null);
        }
        System.arraycopy(bytes, whole, next, 0, carried);
        submit(bytes, start, whole);
        if (over) {
          finishRunning();
          return;
        }
        bytes = next;
        start = 0;
        got = source.read(bytes, carried, BLOCK);
        over = got < BLOCK;
        end = carried + got;
      }
    } catch (IOException e) {
      throw new TraceFileException(
          source.file(),
          0,
          0,
          "its numbers do not fit in memory and could not be kept in a temporary file ("
              + e.getMessage()
              + "); make room on the disk that java.io.tmpdir names",
          e);
    }
  }

  private byte[] nextBuffer() {
    byte[] buffer = spare.poll();
    return buffer != null ? buffer : buffer(limits);
  }

  private int lastLineEnd(byte[] bytes, int start, int end) {
    int at = end;
    while (at > start && bytes[at - 1] != plan.dialect().lineEnd()) {
      at--;
    }
    return at;
  }

  /** Ends the last line of the file where it does not end itself. */
  private int closed(byte[] bytes, int start, int end) {
    if (end == start || bytes[end - 1] == plan.dialect().lineEnd()) {
      return end;
    }
    endsInLineEnd = false;
    bytes[end] = (byte) plan.dialect().lineEnd();
    return end + 1;
  }

  private CsvBlock parse(byte[] bytes, int from, int to) {
    CsvBlockParser parser = parsers.poll();
    if (parser == null) {
      parser = new CsvBlockParser(plan);
    }
    CsvBlock block = parser.parse(bytes, from, to, (int) ((to - from) / bytesPerRow * 1.05) + 16);
    parsers.add(parser);
    return block;
  }

  private void submit(byte[] bytes, int from, int to) throws TraceFileException, IOException {
    ExecutorService executor = pool;
    if (executor == null) {
      // The first rows tell how long a row is, which sizes all other blocks.
      int probe = Math.min(to, from + (1 << 14));
      CsvBlock first = parse(bytes, from, lastLineEnd(bytes, from, probe));
      bytesPerRow = Math.max(2, (double) (probe - from) / Math.max(1, first.rows()));
      executor =
          Executors.newFixedThreadPool(
              limits.threads(),
              task -> {
                Thread thread = new Thread(task, "trace-file-parse");
                thread.setDaemon(true);
                return thread;
              });
      pool = executor;
    }
    running.add(
        executor.submit(
            () -> {
              CsvBlock block = parse(bytes, from, to);
              spare.add(bytes);
              return block;
            }));
    while (running.size() > 2 * limits.threads()) {
      takeOldest();
    }
  }

  private void finishRunning() throws TraceFileException, IOException {
    while (!running.isEmpty()) {
      takeOldest();
    }
  }

  private void takeOldest() throws TraceFileException, IOException {
    try {
      take(running.remove().get());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new TraceFileException(source.file(), 0, 0, "reading was cancelled", e);
    } catch (ExecutionException e) {
      throw new IllegalStateException("a block could not be parsed", e.getCause());
    }
  }

  private void take(CsvBlock block) throws TraceFileException, IOException {
    if (block.dateChangeLine() >= 0) {
      throw new TraceFileException(
          source.file(),
          firstLine + linesDone + block.dateChangeLine(),
          0,
          ColumnHelp.withExample(
              "the date changes and could be day first or month first; no value above 12 tells"
                  + " which",
              "time = { index = " + (timeColumn() + 1) + ", unit = \"dd/mm/yyyy\" }",
              "# or: time = { index = " + (timeColumn() + 1) + ", unit = \"mm/dd/yyyy\" }"),
          null);
    }
    if (block.otherHeaderLine() >= 0) {
      throw new TraceFileException(
          source.file(),
          firstLine + linesDone + block.otherHeaderLine(),
          0,
          "another header begins here, with other columns than the one above the first rows; the"
              + " file holds several records: split it at this line",
          null);
    }
    problems.merge(block.problems(), firstLine + linesDone);
    rows.add(rowsDone, block.skips());
    linesDone += block.lines();
    if ((long) rowsDone + block.rows() > CsvStore.MOST_ROWS_IN_FILE) {
      throw new TraceFileException(
          source.file(),
          firstLine + linesDone,
          0,
          "has more than " + CsvStore.MOST_ROWS_IN_FILE + " rows; split the file",
          null);
    }
    rowsDone += block.rows();
    boolean tooMuch =
        !stores.get(0).inFile()
            && (long) rowsDone * Double.BYTES * stores.size() > limits.heapBytes();
    for (int i = 0; i < stores.size(); i++) {
      lowest[i] = block.lowest(i) < lowest[i] ? block.lowest(i) : lowest[i];
      highest[i] = block.highest(i) > highest[i] ? block.highest(i) : highest[i];
      if (tooMuch) {
        stores.get(i).moveToFile();
      }
      stores.get(i).append(block.columns()[i], block.rows());
    }
  }

  private int timeColumn() {
    return plan.slots().stream()
        .filter(CsvPlan.Slot::isTime)
        .mapToInt(CsvPlan.Slot::column)
        .findFirst()
        .orElse(0);
  }

  int rowCount() {
    return rowsDone;
  }

  long lineCount() {
    return linesDone;
  }

  CsvRows rows() {
    return rows;
  }

  CsvProblems problems() {
    return problems;
  }

  boolean inFile() {
    return stores.get(0).inFile();
  }

  /** Whether the file's last line was complete. */
  boolean endsInLineEnd() {
    return endsInLineEnd;
  }

  /** Lowest number of a slot; infinite when there is none. */
  double lowest(int slot) {
    return lowest[slot];
  }

  /** Highest number of a slot; infinite when there is none. */
  double highest(int slot) {
    return highest[slot];
  }

  /** The numbers of a slot; once for each. */
  Samples samples(int slot) throws TraceFileException {
    try {
      return stores.get(slot).finish();
    } catch (IOException e) {
      throw new TraceFileException(
          source.file(), 0, 0, "its temporary file cannot be mapped: " + e.getMessage(), e);
    }
  }

  @Override
  public void close() {
    if (pool != null) {
      pool.shutdownNow();
    }
    stores.forEach(CsvStore::close);
  }
}
