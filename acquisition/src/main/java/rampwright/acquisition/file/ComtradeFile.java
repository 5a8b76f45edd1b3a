package rampwright.acquisition.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HexFormat;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.Samples;

/**
 * A COMTRADE record (IEEE C37.111 / IEC 60255-24, editions 1991, 1999 and 2013) as it stands:
 * configuration and any channel's values, whatever the record is about. {@link ComtradeReader}
 * makes a trace of one.
 *
 * <p>Each call that yields values reads the data file once. Valid: up to 268 million records.
 * Checked by ComtradeOpenDataReferenceTest.
 */
public final class ComtradeFile {
  private final ComtradeParts parts;
  private final ComtradeConfig config;
  private final String textEncoding;
  private final List<String> warnings;
  private final ComtradeData data;

  private ComtradeFile(
      ComtradeParts parts, ComtradeConfig config, String textEncoding, List<String> warnings) {
    this.parts = parts;
    this.config = config;
    this.textEncoding = textEncoding;
    this.warnings = warnings;
    this.data = ComtradeData.of(parts, config);
  }

  /** The record that a .cfg, .dat or .cff file belongs to. */
  public static ComtradeFile open(Path file) throws TraceFileException {
    try {
      return open(ComtradeParts.of(file));
    } catch (IOException e) {
      throw unreadable(file, e);
    }
  }

  /** The record in two files that may have any names. */
  public static ComtradeFile open(Path configFile, Path dataFile) throws TraceFileException {
    try {
      return open(ComtradeParts.of(configFile, dataFile));
    } catch (IOException e) {
      throw unreadable(configFile, e);
    }
  }

  private static ComtradeFile open(ComtradeParts parts) throws TraceFileException {
    List<String> warnings = new ArrayList<>(parts.warnings());
    ComtradeText text = parts.config();
    String name = ComtradeParts.name(parts.configFile());
    ComtradeConfig config =
        ComtradeConfigParser.parse(name, text.lines(), parts.configLinesBefore(), warnings);
    ComtradeEncoding section = parts.sectionEncoding();
    if (section != null && section != config.encoding()) {
      warnings.add(
          name
              + ": the data section is headed "
              + section
              + ", the configuration says "
              + config.encoding()
              + "; the latter taken");
    }
    return new ComtradeFile(parts, config, text.encoding(), warnings);
  }

  public ComtradeConfig config() {
    return config;
  }

  /** What in the configuration had to be guessed or passed over, one line each. */
  public List<String> warnings() {
    return List.copyOf(warnings);
  }

  /** Encoding its text was read in. */
  public String textEncoding() {
    return textEncoding;
  }

  /** Free text about the record (.hdr); empty when there is none. */
  public String header() {
    return parts.header();
  }

  /** The record's information section (.inf); empty when there is none. */
  public String information() {
    return parts.information();
  }

  /** Name of the file that holds the data, for messages. */
  public String dataName() {
    return ComtradeParts.name(parts.dataFile());
  }

  /**
   * Values of an analog channel, a x + b in the channel's own unit, on the side of the transformer
   * the file says; NaN where the file marks a value as missing.
   *
   * @param index place among the analog channels, from 0
   */
  public double[] analog(int index) throws TraceFileException {
    ComtradeAnalog channel = config.analogs().get(index);
    return column(ComtradeField.analog(index, channel, 1, 0));
  }

  /** Numbers of an analog channel as stored, before a x + b; NaN where missing. */
  public double[] stored(int index) throws TraceFileException {
    ComtradeAnalog channel = config.analogs().get(index);
    return column(
        new ComtradeField(ComtradeField.Kind.ANALOG, index, 1, 0, channel.min(), channel.max()));
  }

  /** States of a status channel, 0 or 1. */
  public double[] status(int index) throws TraceFileException {
    config.statuses().get(index);
    return column(ComtradeField.status(index, 1, 0));
  }

  /** Stamps in seconds, as in the data; NaN where missing. */
  public double[] stampsS() throws TraceFileException {
    return column(ComtradeField.stamp(config.stampUnitS()));
  }

  /** Instants of all records in seconds, out of rates and stamps as {@link ComtradeReader} does. */
  public double[] timesS() throws TraceFileException {
    try {
      ComtradeTiming timing =
          timing(
              stamps(ComtradeColumns.usualHeapBytes(), new ArrayList<>()),
              null,
              ComtradeColumns.usualHeapBytes(),
              new ArrayList<>());
      double[] times = new double[timing.time().size()];
      for (int i = 0; i < times.length; i++) {
        times[i] = timing.time().atS(i);
      }
      return times;
    } catch (IOException e) {
      throw unreadable(parts.dataFile(), e);
    }
  }

  private double[] column(ComtradeField field) throws TraceFileException {
    return read(List.of(field), null, Long.MAX_VALUE, new ArrayList<>()).get(0).toArray();
  }

  Samples stamps(long heapBytes, List<String> notes) throws TraceFileException {
    return read(List.of(ComtradeField.stamp(config.stampUnitS())), null, heapBytes, notes).get(0);
  }

  ComtradeTiming timing(
      Samples stampsS, @Nullable BitSet leaveOut, long heapBytes, List<String> notes)
      throws IOException, TraceFileException {
    return ComtradeTiming.of(dataName(), config, stampsS, leaveOut, heapBytes, notes);
  }

  List<Samples> read(
      List<ComtradeField> fields, @Nullable BitSet keep, long heapBytes, List<String> notes)
      throws TraceFileException {
    try {
      return data.read(fields, keep, heapBytes, notes);
    } catch (IOException e) {
      throw unreadable(parts.dataFile(), e);
    }
  }

  /**
   * Lower-case hex SHA-256 of the file, or of configuration and data one after the other where they
   * are two files.
   */
  public String sha256() throws TraceFileException {
    Set<Path> files = new LinkedHashSet<>(List.of(parts.configFile()));
    files.add(parts.dataFile());
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      byte[] chunk = new byte[1 << 16];
      for (Path file : files) {
        try (InputStream in = Files.newInputStream(file)) {
          for (int got = in.read(chunk); got >= 0; got = in.read(chunk)) {
            digest.update(chunk, 0, got);
          }
        }
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    } catch (IOException e) {
      throw unreadable(parts.dataFile(), e);
    }
  }

  private static TraceFileException unreadable(Path file, IOException e) {
    return new TraceFileException(
        ComtradeParts.name(file),
        0,
        0,
        "cannot be read (" + e.getMessage() + "); check its rights and the disk",
        e);
  }
}
