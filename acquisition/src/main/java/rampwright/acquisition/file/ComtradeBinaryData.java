package rampwright.acquisition.file;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.StandardOpenOption;
import java.util.BitSet;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.Samples;

/** BINARY, BINARY32 and FLOAT32 data: records of one length, low byte first. */
final class ComtradeBinaryData implements ComtradeData {
  private static final int CHUNK = 1 << 20;
  private static final int STAMP_AT = 4;
  private static final int ANALOGS_AT = 8;
  private static final double WRAP = 4294967296.0;
  private static final int NO_STAMP = -1;
  private static final double FLOAT_EDGE = 3.4028234e38;

  private final ComtradeParts parts;
  private final ComtradeConfig config;
  private final String name;
  private final long recordBytes;

  ComtradeBinaryData(ComtradeParts parts, ComtradeConfig config) {
    this.parts = parts;
    this.config = config;
    this.name = ComtradeParts.name(parts.dataFile());
    this.recordBytes =
        config.encoding().recordBytes(config.analogs().size(), config.statuses().size());
  }

  @Override
  public List<Samples> read(
      List<ComtradeField> fields, @Nullable BitSet keep, long heapBytes, List<String> warnings)
      throws IOException, TraceFileException {
    long bytes = parts.dataEnd() - parts.dataStart();
    long records = bytes / recordBytes;
    if (records == 0) {
      throw new TraceFileException(
          name,
          "holds "
              + bytes
              + " bytes of data, but one record of "
              + shape()
              + " needs "
              + recordBytes
              + "; the file is cut off or does not belong to this configuration");
    }
    if (bytes % recordBytes != 0) {
      warnings.add(
          name
              + ": "
              + bytes
              + " bytes of data are no whole number of records of "
              + recordBytes
              + " bytes; the "
              + records
              + " whole ones are used, "
              + bytes % recordBytes
              + " bytes at the end left out");
    }
    long wanted = keep == null ? records : Math.min(records, keep.cardinality());
    try (FileChannel in = FileChannel.open(parts.dataFile(), StandardOpenOption.READ);
        ComtradeColumns columns = new ComtradeColumns(fields.size(), wanted, heapBytes)) {
      Numbering numbering = new Numbering();
      Stamps stamps = new Stamps();
      int inChunk = (int) Math.max(1, Math.min(records, CHUNK / recordBytes));
      ByteBuffer buffer =
          ByteBuffer.allocate((int) (inChunk * recordBytes)).order(ByteOrder.LITTLE_ENDIAN);
      ComtradeField[] list = fields.toArray(new ComtradeField[0]);
      for (long done = 0; done < records; done += inChunk) {
        int now = (int) Math.min(inChunk, records - done);
        fill(in, buffer, parts.dataStart() + done * recordBytes, (int) (now * recordBytes));
        for (int r = 0; r < now; r++) {
          int at = (int) (r * recordBytes);
          numbering.see(buffer.getInt(at));
          double stamp = stamps.unwrap(buffer.getInt(at + STAMP_AT));
          if (keep == null || keep.get((int) (done + r))) {
            for (int f = 0; f < list.length; f++) {
              columns.set(f, value(buffer, at, list[f], stamp));
            }
            columns.endRow();
          }
        }
      }
      numbering.judge(records, warnings);
      return columns.finish(0);
    } catch (ComtradeColumns.TooManyRows e) {
      throw new TraceFileException(name, 0, 0, tooMany(e), e);
    }
  }

  static String tooMany(ComtradeColumns.TooManyRows problem) {
    return problem.getMessage() + " are too many for one trace; cut the record into shorter ones";
  }

  private double value(ByteBuffer buffer, int record, ComtradeField field, double stamp) {
    int width = config.encoding().analogBytes();
    int analogsAt = record + ANALOGS_AT;
    return field.value(
        switch (field.kind()) {
          case STAMP -> stamp;
          case ANALOG -> analog(buffer, analogsAt + field.index() * width);
          case STATUS -> bit(buffer, analogsAt + config.analogs().size() * width, field.index());
        });
  }

  private static double bit(ByteBuffer buffer, int statusesAt, int index) {
    return (buffer.getShort(statusesAt + index / 16 * 2) >> (index % 16)) & 1;
  }

  private double analog(ByteBuffer buffer, int at) {
    return switch (config.encoding()) {
      case BINARY -> {
        short small = buffer.getShort(at);
        yield small == Short.MIN_VALUE ? MISSING : small;
      }
      case BINARY32 -> {
        int whole = buffer.getInt(at);
        yield whole == Integer.MIN_VALUE ? MISSING : whole;
      }
      default -> {
        float real = buffer.getFloat(at);
        // The ends of the range are what some writers put where they have nothing.
        yield Math.abs(real) < FLOAT_EDGE ? real : MISSING;
      }
    };
  }

  private void fill(FileChannel in, ByteBuffer buffer, long from, int count)
      throws IOException, TraceFileException {
    buffer.clear().limit(count);
    long at = from;
    while (buffer.hasRemaining()) {
      int got = in.read(buffer, at);
      if (got < 0) {
        throw new TraceFileException(
            name, "became shorter while it was read; read it again when it is complete");
      }
      at += got;
    }
  }

  private String shape() {
    return config.analogs().size()
        + " analog and "
        + config.statuses().size()
        + " status channels in "
        + config.encoding();
  }

  /** Stamps have 32 bits and start again at 0 when they are full. */
  private static final class Stamps {
    private double turns;
    private long before = NO_STAMP;

    double unwrap(int bits) {
      if (bits == NO_STAMP) {
        return MISSING;
      }
      long stamp = Integer.toUnsignedLong(bits);
      if (before == NO_STAMP) {
        // A record that starts before its stamps' zero: the first ones are negative.
        turns = stamp >= WRAP / 2 ? -WRAP : 0;
      } else if (before - stamp > WRAP / 2) {
        turns += WRAP;
      }
      before = stamp;
      return stamp + turns;
    }
  }

  /** Record numbers count in even steps; where they do not, records are missing or misread. */
  private final class Numbering {
    private long seen;
    private long breaks;
    private long firstBreak;
    private int step;
    private int before;

    void see(int number) {
      seen++;
      if (seen == 2) {
        step = number - before;
      } else if (seen > 2 && number - before != step) {
        breaks++;
        if (firstBreak == 0) {
          firstBreak = seen;
        }
      }
      before = number;
    }

    void judge(long records, List<String> warnings) throws TraceFileException {
      // Misread data have no order at all; a recorder that drops records now and then keeps one.
      if (records > 8 && breaks > records / 2) {
        throw new TraceFileException(
            name,
            "record numbers jump at "
                + breaks
                + " of "
                + records
                + " records of "
                + recordBytes
                + " bytes ("
                + shape()
                + "); the data do not fit the configuration: check its numbers of channels and"
                + " its data type");
      }
      if (breaks > 0) {
        warnings.add(
            name
                + ": record numbers jump at "
                + breaks
                + " places, first at record "
                + firstBreak
                + "; records may be missing");
      }
    }
  }
}
