package rampwright.acquisition.file;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;

/** How a trace lies in a COMTRADE record: its configuration, and its records as bytes. */
final class ComtradeLayout {
  private static final double MOST_STAMPS = 2_000_000_000;
  private static final double FINEST_S = 1e-9;

  /** Stamps of the 1991 edition count microseconds; it has no multiplier. */
  private static final double UNIT_1991_S = 1e-6;

  /** What 32 bits can count. */
  private static final double MOST_BITS = 4_294_967_295d;

  private final ComtradeForm form;
  private final TimeBase time;
  private final @Nullable LocalDateTime firstSample;
  private final double stampUnitS;
  private final List<ChannelName> analogs = new ArrayList<>();
  private final List<Samples> values = new ArrayList<>();
  private final List<ComtradeScaling> scalings = new ArrayList<>();
  private final @Nullable Samples run;
  private final List<String> statements = new ArrayList<>();

  private ComtradeLayout(Trace trace, ComtradeForm form) {
    this.form = form;
    this.time = trace.time();
    this.stampUnitS =
        form.edition() == ComtradeEdition.E1991 ? UNIT_1991_S : stampUnitS(trace.time());
    this.firstSample = firstSample(trace);
    Samples command = trace.channel(ChannelName.RUN);
    this.run = command != null && isCommand(command) ? command : null;
    for (ChannelName channel : trace.names()) {
      Samples samples = trace.channel(channel);
      if (samples == null || samples == run) {
        continue;
      }
      ComtradeScaling scaling = ComtradeScaling.of(form.encoding(), samples);
      analogs.add(channel);
      values.add(samples);
      scalings.add(scaling);
      statements.add(
          String.format(
              Locale.ROOT,
              "%s: stored in steps of at most %.3g %s (range %.6g to %.6g)",
              channel.key(),
              scaling.stepUnit(),
              channel.quantity().unit(),
              scaling.min(),
              scaling.max()));
    }
    statements.add(String.format(Locale.ROOT, "time stamps in steps of %.0e s", stampUnitS));
    if (firstSample == null) {
      statements.add("the instant of the first sample is not known; its date is left blank");
    } else if (form.edition() != ComtradeEdition.E2013) {
      statements.add(
          "dates are in UTC, to the microsecond; the "
              + form.edition().year()
              + " edition cannot say the zone");
    }
    if (form.edition() == ComtradeEdition.E1991) {
      statements.add("values are primary ones; the 1991 edition cannot say so");
    }
  }

  /**
   * Plans a record.
   *
   * @throws TraceFileException when the trace is empty or its instants cannot be told apart
   */
  static ComtradeLayout of(String name, Trace trace, ComtradeForm form) throws TraceFileException {
    if (trace.size() == 0 || trace.names().isEmpty()) {
      throw new TraceFileException(name, "the trace has no samples; there is nothing to write");
    }
    ComtradeLayout layout = new ComtradeLayout(trace, form);
    if (!(trace.time() instanceof EvenTime)) {
      double longestS = trace.time().atS(trace.size() - 1) - Math.min(0, trace.time().atS(0));
      if (form.encoding() != ComtradeEncoding.ASCII && longestS / layout.stampUnitS > MOST_BITS) {
        throw new TraceFileException(
            name,
            String.format(
                Locale.ROOT,
                "lasts %.0f s at uneven times; the 1991 edition's BINARY counts microseconds in 32"
                    + " bits, which is %.0f s; write ASCII, or a later edition",
                longestS,
                MOST_BITS * layout.stampUnitS));
      }
      for (int i = 1; i < trace.size(); i++) {
        if (layout.stamp(i) <= layout.stamp(i - 1)) {
          throw new TraceFileException(
              name,
              String.format(
                  Locale.ROOT,
                  "samples %d and %d are %.3g s apart, less than the %.0e s that a stamp of 32 bits"
                      + " can tell in so long a record; write shorter parts, or CSV",
                  i,
                  i + 1,
                  trace.time().atS(i) - trace.time().atS(i - 1),
                  layout.stampUnitS));
        }
      }
    }
    return layout;
  }

  /** Finest decimal unit in which every stamp stays well inside 31 bits. */
  private static double stampUnitS(TimeBase time) {
    double longestS = Math.max(Math.abs(time.atS(0)), Math.abs(time.atS(time.size() - 1)));
    double unit = FINEST_S;
    int power = -9;
    while (longestS / unit > MOST_STAMPS) {
      power++;
      unit = Double.parseDouble("1e" + power);
    }
    return unit;
  }

  private static @Nullable LocalDateTime firstSample(Trace trace) {
    String start = trace.provenance().startUtc();
    if (start == null) {
      return null;
    }
    try {
      return LocalDateTime.ofInstant(Instant.parse(start), ZoneOffset.UTC)
          .plus(Math.round(trace.time().atS(0) * 1e9), ChronoUnit.NANOS);
    } catch (DateTimeException e) {
      return null;
    }
  }

  private static boolean isCommand(Samples samples) {
    for (int i = 0; i < samples.size(); i++) {
      if (samples.at(i) != 0 && samples.at(i) != 1) {
        return false;
      }
    }
    return true;
  }

  ComtradeEncoding encoding() {
    return form.encoding();
  }

  List<String> statements() {
    return statements;
  }

  /** Bytes of all records in a binary encoding. */
  long binaryBytes() {
    return form.encoding().recordBytes(analogs.size(), run == null ? 0 : 1) * time.size();
  }

  /** The configuration's text. */
  String config() {
    return new ComtradeConfigText(
            form, analogs, scalings, run != null, time, firstSample, stampUnitS)
        .text();
  }

  private long stamp(int i) {
    return Math.round(time.atS(i) / stampUnitS);
  }

  /** Writes all records. */
  void writeData(OutputStream out) throws IOException {
    if (form.encoding() == ComtradeEncoding.ASCII) {
      writeText(out);
    } else {
      writeBinary(out);
    }
  }

  private void writeText(OutputStream out) throws IOException {
    String missing =
        switch (form.edition()) {
          case E1991 -> "999999";
          case E1999 -> "99999";
          case E2013 -> "";
        };
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < time.size(); i++) {
      line.setLength(0);
      line.append(i + 1L).append(',').append(stamp(i));
      for (int c = 0; c < values.size(); c++) {
        double value = values.get(c).at(i);
        line.append(',');
        if (Double.isFinite(value)) {
          line.append(scalings.get(c).stored(value));
        } else {
          line.append(missing);
        }
      }
      if (run != null) {
        line.append(',').append(run.at(i) == 1 ? '1' : '0');
      }
      line.append("\r\n");
      out.write(line.toString().getBytes(StandardCharsets.US_ASCII));
    }
  }

  private void writeBinary(OutputStream out) throws IOException {
    int size = (int) form.encoding().recordBytes(values.size(), run == null ? 0 : 1);
    ByteBuffer record = ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
    for (int i = 0; i < time.size(); i++) {
      record.clear();
      record.putInt(i + 1).putInt((int) stamp(i));
      for (int c = 0; c < values.size(); c++) {
        put(record, values.get(c).at(i), scalings.get(c));
      }
      if (run != null) {
        record.putShort((short) run.at(i));
      }
      out.write(record.array(), 0, size);
    }
  }

  private void put(ByteBuffer record, double value, ComtradeScaling scaling) {
    boolean isThere = Double.isFinite(value);
    switch (form.encoding()) {
      case BINARY -> record.putShort(isThere ? (short) scaling.stored(value) : Short.MIN_VALUE);
      case BINARY32 -> record.putInt(isThere ? (int) scaling.stored(value) : Integer.MIN_VALUE);
      default -> record.putFloat(isThere ? scaling.real(value) : Float.NaN);
    }
  }
}
