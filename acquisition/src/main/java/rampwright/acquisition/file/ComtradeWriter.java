package rampwright.acquisition.file;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import rampwright.analysis.trace.Trace;

/**
 * Traces to COMTRADE files.
 *
 * <p>Values are primary values in the channels' own units, ratio 1 : 1. Stored steps are at most
 * the channel's range / 65000 and named in the report. Missing samples become the edition's missing
 * marks. A run command of zeros and ones becomes a status channel. Nothing is left behind when
 * writing fails: files are written beside their place and moved there when complete.
 *
 * <p>Checked by ComtradeWriterTest.
 */
public final class ComtradeWriter {
  private static final int BUFFER = 1 << 18;

  private ComtradeWriter() {}

  /**
   * What was written.
   *
   * @param files the files, configuration first
   * @param statements what was lost or decided on the way, one line each: resolution of each
   *     channel and of the time stamps
   */
  public record Report(List<Path> files, List<String> statements) {
    public Report {
      files = List.copyOf(files);
      statements = List.copyOf(statements);
    }
  }

  /**
   * Writes a trace.
   *
   * @param target a .cff file (2013 edition only), or a .cfg file that gets a .dat file beside it
   */
  public static Report write(Trace trace, Path target, ComtradeForm form)
      throws TraceFileException {
    boolean single = ComtradeParts.extension(target).equals("cff");
    String name = ComtradeParts.name(target);
    if (!single && !ComtradeParts.extension(target).equals("cfg")) {
      throw new TraceFileException(
          name, "a COMTRADE record is written to a .cfg file (with its .dat) or a .cff file");
    }
    if (single && form.edition() != ComtradeEdition.E2013) {
      throw new TraceFileException(
          name, "a single .cff file came with the 2013 edition; write .cfg, or the 2013 edition");
    }
    Path folder = target.toAbsolutePath().getParent();
    if (folder != null) {
      CsvTraceWriter.requireFolder(name, folder);
    }
    Path data = single ? target : data(target);
    if (!form.replace() && (Files.exists(target) || Files.exists(data))) {
      throw new TraceFileException(
          name, "exists already; nothing was written. Choose another name or ask to replace it");
    }
    ComtradeLayout layout = ComtradeLayout.of(name, trace, form);
    List<Path> temporary = new ArrayList<>();
    try {
      if (single) {
        Path whole = beside(target, temporary);
        writeSingle(whole, layout);
        move(whole, target);
        return new Report(List.of(target), layout.statements());
      }
      Path newData = beside(data, temporary);
      try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(newData), BUFFER)) {
        layout.writeData(out);
      }
      Path newConfig = beside(target, temporary);
      Files.writeString(newConfig, layout.config(), StandardCharsets.UTF_8);
      move(newData, data);
      move(newConfig, target);
      return new Report(List.of(target, data), layout.statements());
    } catch (IOException e) {
      throw new TraceFileException(
          name,
          0,
          0,
          "cannot be written (" + e.getMessage() + "); check the folder, its rights and the disk",
          e);
    } finally {
      for (Path file : temporary) {
        discard(file);
      }
    }
  }

  private static void writeSingle(Path file, ComtradeLayout layout) throws IOException {
    StringBuilder head = new StringBuilder();
    head.append("--- file type: CFG ---\r\n").append(layout.config());
    head.append("--- file type: INF ---\r\n\r\n");
    head.append("--- file type: HDR ---\r\n");
    for (String statement : layout.statements()) {
      head.append(statement).append("\r\n");
    }
    head.append("--- file type: DAT ").append(layout.encoding());
    if (layout.encoding() != ComtradeEncoding.ASCII) {
      head.append(": ").append(layout.binaryBytes());
    }
    head.append(" ---\r\n");
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file), BUFFER)) {
      out.write(head.toString().getBytes(StandardCharsets.UTF_8));
      layout.writeData(out);
    }
  }

  private static Path data(Path config) {
    String name = ComtradeParts.name(config);
    String stem = name.substring(0, name.length() - ".cfg".length());
    String extension = name.endsWith(".CFG") ? ".DAT" : ".dat";
    return config.resolveSibling(stem + extension);
  }

  private static Path beside(Path target, List<Path> temporary) {
    Path file = target.resolveSibling(ComtradeParts.name(target) + ".part");
    temporary.add(file);
    return file;
  }

  private static void move(Path from, Path to) throws IOException {
    try {
      Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
    }
  }

  private static void discard(Path file) {
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      file.toFile().deleteOnExit();
    }
  }
}
