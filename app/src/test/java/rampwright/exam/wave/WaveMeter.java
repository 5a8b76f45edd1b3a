package rampwright.exam.wave;

import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import java.util.zip.Deflater;
import java.util.zip.GZIPOutputStream;

/**
 * A recorder for waveforms: gain errors of 0.3 %, noise and quantisation of a 12-bit converter.
 *
 * @param rangeA full scale of the currents, crest
 * @param rangeV full scale of the voltages, crest
 * @param withSpeed a speed column is written
 * @param withVoltage voltage columns are written
 */
public record WaveMeter(
    double rangeA, double rangeV, boolean withSpeed, boolean withVoltage, long seed) {

  /** Writes the trace, gzip-compressed. */
  public void write(WaveRecord record, String notes, Path file) {
    Random random = new Random(seed);
    double[] gains = new double[6];
    for (int c = 0; c < 6; c++) {
      gains[c] = 1 + 0.003 * random.nextGaussian();
    }
    try {
      Files.createDirectories(file.getParent());
      try (OutputStream out = Files.newOutputStream(file);
          OutputStream zip = new TightGzip(out);
          Writer text = new OutputStreamWriter(zip, StandardCharsets.UTF_8)) {
        text.write(notes);
        text.write("time_s,i1_A,i2_A,i3_A");
        text.write(withVoltage ? ",v12_V,v23_V,v31_V" : "");
        text.write(withSpeed ? ",speed_rpm\n" : "\n");
        for (int n = 0; n < record.size(); n++) {
          text.write(String.format(Locale.ROOT, "%.6f", n / record.rateHz()));
          for (int c = 0; c < (withVoltage ? 6 : 3); c++) {
            double step = (c < 3 ? rangeA : rangeV) / 2048;
            double value = record.value(c, n) * gains[c] + 0.5 * step * random.nextGaussian();
            double rounded = Math.rint(value / step) * step;
            text.write(',');
            text.write(short5(Math.max(-2047 * step, Math.min(2047 * step, rounded))));
          }
          if (withSpeed) {
            double rpm = Math.max(0, record.value(6, n) + 0.3 * random.nextGaussian());
            text.write(',');
            text.write(Long.toString(Math.round(rpm)));
          }
          text.write('\n');
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException("cannot write " + file, e);
    }
  }

  private static String short5(double value) {
    if (value == 0) {
      return "0";
    }
    String text =
        new java.math.BigDecimal(value)
            .round(new java.math.MathContext(5))
            .stripTrailingZeros()
            .toPlainString();
    return text;
  }

  /** Best compression and no time stamp, so that the same seed gives the same bytes. */
  private static final class TightGzip extends GZIPOutputStream {
    TightGzip(OutputStream out) throws IOException {
      super(out, 1 << 16);
      def.setLevel(Deflater.BEST_COMPRESSION);
    }
  }
}
