package rampwright.acquisition.file;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/**
 * COMTRADE records to traces.
 *
 * <p>What is read and the choices made are told in acquisition/docs/comtrade.md. Valid: up to 268
 * million records; samples beyond a quarter of the heap go to a temporary file. Checked by
 * ComtradeReaderTest and ComtradeOpenDataReferenceTest.
 */
public final class ComtradeReader {
  private static final int SAMPLES_A_CYCLE = 8;
  private static final double SKEW_TOLD_S = 1e-6;

  private ComtradeReader() {}

  /**
   * The trace in a record.
   *
   * @param file its .cfg, .dat or .cff file
   */
  public static Trace read(Path file, ReadOptions options) throws TraceFileException {
    return read(ComtradeFile.open(file), options, ComtradeColumns.usualHeapBytes());
  }

  /** The trace in a record that was opened before. */
  public static Trace read(ComtradeFile record, ReadOptions options) throws TraceFileException {
    return read(record, options, ComtradeColumns.usualHeapBytes());
  }

  static Trace read(ComtradeFile record, ReadOptions options, long heapBytes)
      throws TraceFileException {
    ComtradeConfig config = record.config();
    String name = record.dataName();
    ComtradeAssignment assignment = ComtradeAssignment.of(name, config, options);
    Set<String> warnings = new LinkedHashSet<>(record.warnings());
    warnings.addAll(assignment.warnings());
    List<String> understood = new ArrayList<>(assignment.understood());
    List<String> notes = new ArrayList<>();
    Samples stampsS = record.stamps(heapBytes, notes);
    try {
      BitSet slow = slow(config, stampsS.size(), options.declaredKind());
      if (slow != null) {
        warnings.add(
            String.format(
                Locale.ROOT,
                "%s: %d of %d samples are left out: their stretches have fewer than %d samples a"
                    + " cycle of %.4g Hz, among faster ones, and cannot be waveform samples",
                name,
                slow.cardinality(),
                stampsS.size(),
                SAMPLES_A_CYCLE,
                config.lineFrequencyHz()));
      }
      ComtradeTiming timing = record.timing(stampsS, slow, heapBytes, notes);
      List<ChannelName> names = List.copyOf(assignment.fields().keySet());
      List<Samples> columns =
          record.read(List.copyOf(assignment.fields().values()), timing.keep(), heapBytes, notes);
      Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
      for (int i = 0; i < names.size(); i++) {
        channels.put(names.get(i), columns.get(i));
      }
      warnings.addAll(notes);
      understood.add(0, form(record));
      understood.add(1, time(config, timing));
      skew(config, assignment).ifPresent(understood::add);
      Provenance provenance =
          new Provenance(
              name,
              record.sha256(),
              startUtc(config, timing),
              understood,
              List.copyOf(warnings),
              comments(record));
      return new Trace(timing.time(), channels, options.declaredKind(), provenance);
    } catch (IOException e) {
      throw new TraceFileException(
          name,
          0,
          0,
          "its samples do not fit on the disk for temporary files (" + e.getMessage() + ")",
          e);
    }
  }

  /**
   * Rows of stretches too slow to be waveform samples, in a record that also has fast ones; null
   * when there are none. Recorders put peaks or averages there and do not say which.
   */
  private static @Nullable BitSet slow(
      ComtradeConfig config, int size, @Nullable TraceKind declared) {
    if (declared == TraceKind.RMS || !config.hasRates() || !(config.lineFrequencyHz() > 0)) {
      return null;
    }
    double least = SAMPLES_A_CYCLE * config.lineFrequencyHz();
    BitSet slow = new BitSet();
    int from = 0;
    List<ComtradeRate> rates = config.rates();
    for (int r = 0; r < rates.size(); r++) {
      int to = r == rates.size() - 1 ? size : (int) Math.min(size, rates.get(r).lastSample());
      if (rates.get(r).rateHz() < least) {
        slow.set(from, Math.max(from, to));
      }
      from = Math.max(from, to);
    }
    return slow.isEmpty() || size - slow.cardinality() < 2 ? null : slow;
  }

  private static String form(ComtradeFile record) {
    ComtradeConfig config = record.config();
    return "COMTRADE "
        + config.edition().year()
        + ", "
        + config.encoding()
        + ", "
        + config.analogs().size()
        + " analog and "
        + config.statuses().size()
        + " status channels, text in "
        + record.textEncoding();
  }

  private static String time(ComtradeConfig config, ComtradeTiming timing) {
    StringBuilder text = new StringBuilder("time <- ").append(timing.rule());
    for (ComtradeRate rate : config.hasRates() ? config.rates() : List.<ComtradeRate>of()) {
      text.append(", ")
          .append(ComtradeUnit.plain(rate.rateHz()))
          .append(" Hz to sample ")
          .append(rate.lastSample());
      if (text.length() > 400) {
        text.append(", ...");
        break;
      }
    }
    return text.toString();
  }

  /** Skews of the channels used, which are told and not taken out. */
  private static Optional<String> skew(ComtradeConfig config, ComtradeAssignment assignment) {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (ComtradeAnalog source : assignment.sources().values()) {
      least = Math.min(least, source.skewS());
      most = Math.max(most, source.skewS());
    }
    double spreadS = most - least;
    if (!(spreadS > SKEW_TOLD_S)) {
      return Optional.empty();
    }
    String angle =
        config.lineFrequencyHz() > 0
            ? String.format(
                Locale.ROOT,
                ", %.2g degrees at %.4g Hz",
                360 * config.lineFrequencyHz() * spreadS,
                config.lineFrequencyHz())
            : "";
    return Optional.of(
        String.format(
            Locale.ROOT,
            "channels are sampled up to %.3g us apart%s (skew); not taken out",
            spreadS * 1e6,
            angle));
  }

  /** Instant of the trace's time 0; only the 2013 edition tells the zone of its dates. */
  private static @Nullable String startUtc(ComtradeConfig config, ComtradeTiming timing) {
    LocalDateTime first = config.firstSample();
    Integer ahead = config.utcOffsetMinutes();
    if (first == null || ahead == null) {
      return null;
    }
    return first
        .minusMinutes(ahead)
        .minus(Math.round(timing.firstRecordS() * 1e9), ChronoUnit.NANOS)
        .toInstant(ZoneOffset.UTC)
        .toString();
  }

  private static List<String> comments(ComtradeFile record) {
    ComtradeConfig config = record.config();
    List<String> notes = new ArrayList<>();
    notes.add("station " + config.station() + ", device " + config.device());
    if (config.firstSample() != null) {
      notes.add("first sample " + config.firstSample() + zone(config));
    }
    if (config.trigger() != null) {
      notes.add("trigger " + config.trigger() + zone(config));
    }
    record.header().lines().filter(line -> !line.isBlank()).limit(100).forEach(notes::add);
    return notes;
  }

  private static String zone(ComtradeConfig config) {
    return config.utcOffsetMinutes() == null ? " (zone not told)" : "";
  }
}
