package rampwright.acquisition.file;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.zip.GZIPOutputStream;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;

/**
 * Writes traces as CSV in the program's own form: notes behind {@code #}, one header line, decimal
 * points, a blank cell where there is no value.
 */
public final class CsvTraceWriter {
  /** Write as many digits as it takes to read the same number back. */
  public static final int SHORTEST = -1;

  private static final int MOST_DECIMALS = 15;
  private static final int FLUSH = 1 << 16;
  private static final int PIECE = 4096;

  private final Trace trace;
  private final int decimals;
  private final CsvNumberText text = new CsvNumberText();

  private CsvTraceWriter(Trace trace, int decimals) {
    if (decimals < SHORTEST || decimals > MOST_DECIMALS) {
      throw new IllegalArgumentException(
          "decimals " + decimals + "; 0 to " + MOST_DECIMALS + ", or SHORTEST");
    }
    this.trace = trace;
    this.decimals = decimals;
  }

  /** Writes with the shortest digits that read back as the same numbers. */
  public static void write(Trace trace, Path file) throws TraceFileException {
    write(trace, file, SHORTEST);
  }

  /**
   * Writes a file whole or not at all: under another name first, then renamed. A name that ends in
   * {@code .gz} is packed.
   *
   * @param decimals decimals of channel values, or {@link #SHORTEST}
   */
  public static void write(Trace trace, Path file, int decimals) throws TraceFileException {
    String name = file.toString();
    Path folder = file.toAbsolutePath().getParent();
    if (folder == null || Files.isDirectory(file)) {
      throw new TraceFileException(name, "is a directory; name the file to write inside it");
    }
    requireFolder(name, folder);
    Path part = null;
    try {
      part = AtomicFile.part(folder, String.valueOf(file.getFileName()));
      try (OutputStream plain = Files.newOutputStream(part);
          OutputStream out =
              name.toLowerCase(Locale.ROOT).endsWith(".gz") ? new GZIPOutputStream(plain) : plain) {
        new CsvTraceWriter(trace, decimals).writeTo(out);
      }
      AtomicFile.force(part);
      move(part, file);
      AtomicFile.forceNames(folder);
    } catch (IOException e) {
      remove(part);
      throw new TraceFileException(
          name,
          0,
          0,
          "could not be written: "
              + e.getClass().getSimpleName()
              + " "
              + e.getMessage()
              + "; check that the folder exists, may be written and has room",
          e);
    }
  }

  /** Refuses a target whose folder is missing, by the folder's name. */
  static void requireFolder(String name, Path folder) throws TraceFileException {
    if (!Files.isDirectory(folder)) {
      throw new TraceFileException(
          name,
          "cannot be written: there is no folder "
              + folder
              + "; make it, or name another; nothing was written");
    }
  }

  /** Writes to a stream, which is flushed and left open. */
  public static void write(Trace trace, OutputStream out) throws IOException {
    new CsvTraceWriter(trace, SHORTEST).writeTo(out);
  }

  private static void move(Path part, Path file) throws IOException {
    try {
      Files.move(part, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
    }
  }

  private static void remove(@org.jspecify.annotations.Nullable Path part) {
    if (part != null) {
      try {
        Files.deleteIfExists(part);
      } catch (IOException e) {
        part.toFile().deleteOnExit();
      }
    }
  }

  private void writeTo(OutputStream out) throws IOException {
    List<ChannelName> names = new ArrayList<>(trace.names());
    StringBuilder head = new StringBuilder();
    for (String note : trace.provenance().notes()) {
      for (String line : note.split("\\R", -1)) {
        head.append("# ").append(line).append('\n');
      }
    }
    if (trace.provenance().startUtc() != null) {
      head.append("# ").append(CsvTraceReader.START_UTC).append(trace.provenance().startUtc());
      head.append('\n');
    }
    if (trace.declaredKind() != null) {
      head.append("# ").append(CsvTraceReader.KIND).append(trace.declaredKind().key());
      head.append('\n');
    }
    head.append("time_s");
    names.forEach(name -> head.append(',').append(name.column()));
    head.append('\n');
    out.write(head.toString().getBytes(StandardCharsets.UTF_8));

    int timeDecimals = timeDecimals(trace.time());
    double[][] pieces = new double[names.size()][PIECE];
    for (int from = 0; from < trace.size(); from += PIECE) {
      int count = Math.min(PIECE, trace.size() - from);
      for (int i = 0; i < pieces.length; i++) {
        Samples samples = trace.channel(names.get(i));
        if (samples != null) {
          samples.copy(from, pieces[i], 0, count);
        }
      }
      for (int row = 0; row < count; row++) {
        text.append(trace.time().atS(from + row), timeDecimals);
        for (double[] piece : pieces) {
          text.append(',');
          text.append(piece[row], decimals);
        }
        text.append('\n');
      }
      if (text.size() > FLUSH) {
        text.drainTo(out);
      }
    }
    text.drainTo(out);
    out.flush();
  }

  /**
   * Decimals that give an even time base back. Products of index and step carry rounding noise that
   * shortest digits would spell out.
   */
  private static int timeDecimals(TimeBase time) {
    if (!(time instanceof EvenTime even)) {
      return SHORTEST;
    }
    for (int decimals = 0; decimals <= 12; decimals++) {
      double scale = Math.pow(10, decimals);
      double step = Math.rint(even.stepS() * scale) / scale;
      double start = Math.rint(even.startS() * scale) / scale;
      if (step > 0
          && Math.abs(step - even.stepS()) * even.size() < 1e-9 * even.stepS()
          && Math.abs(start - even.startS()) < 1e-9 * even.stepS()) {
        return decimals;
      }
    }
    return 12;
  }
}
