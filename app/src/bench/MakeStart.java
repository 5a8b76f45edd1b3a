import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.SplittableRandom;

/**
 * Writes an invented start as waveforms: time, three currents, three line voltages, speed.
 *
 * <p>Rest to 2 s, current limit with the voltage pulled down to full speed at 14 s, then running. The
 * noise is seeded, so that everybody gets the same file.
 *
 * <pre>java MakeStart.java start.csv 600000 10000</pre>
 */
public final class MakeStart {
  private static final double BEGIN_S = 2;
  private static final double FULL_SPEED_S = 14;
  private static final double LIMIT_PEAK_A = 510;
  private static final double RUN_PEAK_A = 170;
  private static final double LINE_PEAK_V = 566;
  private static final double DIP = 0.06;

  private final byte[] line = new byte[256];
  private int at;

  public static void main(String[] arguments) throws IOException {
    new MakeStart()
        .write(
            Path.of(arguments[0]),
            Integer.parseInt(arguments[1]),
            Double.parseDouble(arguments[2]));
  }

  private void write(Path file, int rows, double rateHz) throws IOException {
    SplittableRandom random = new SplittableRandom(1);
    int decimals = rateHz > 10_000 ? 7 : 6;
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file), 1 << 20)) {
      out.write("time_s,i1_A,i2_A,i3_A,v12_V,v23_V,v31_V,speed_rpm\n".getBytes());
      for (int row = 0; row < rows; row++) {
        double timeS = row / rateHz;
        double run = Math.min(1, Math.max(0, (timeS - BEGIN_S) / (FULL_SPEED_S - BEGIN_S)));
        boolean on = timeS >= BEGIN_S;
        double peakA =
            on ? RUN_PEAK_A + (LIMIT_PEAK_A - RUN_PEAK_A) * (1 - Math.pow(run, 12)) : 0;
        double peakV = LINE_PEAK_V * (on && run < 1 ? 1 - DIP : 1);
        double angle = 2 * Math.PI * 50 * timeS;
        at = 0;
        append(timeS, decimals, ',');
        for (int phase = 0; phase < 3; phase++) {
          double shift = phase * 2 * Math.PI / 3;
          append(peakA * Math.sin(angle - 0.6 - shift) + random.nextDouble(-1, 1), 6, ',');
        }
        for (int phase = 0; phase < 3; phase++) {
          double shift = phase * 2 * Math.PI / 3;
          append(peakV * Math.sin(angle + Math.PI / 6 - shift) + random.nextDouble(-1, 1), 4, ',');
        }
        append(1480 * Math.sin(run * Math.PI / 2), 3, '\n');
        out.write(line, 0, at);
      }
    }
  }

  private void append(double value, int decimals, char end) {
    long scaled = Math.round(Math.abs(value) * Math.pow(10, decimals));
    if (value < 0 && scaled > 0) {
      line[at++] = '-';
    }
    int from = at;
    for (int i = 0; i <= decimals || scaled > 0; i++) {
      if (i == decimals) {
        line[at++] = '.';
      }
      line[at++] = (byte) ('0' + scaled % 10);
      scaled /= 10;
    }
    for (int low = from, high = at - 1; low < high; low++, high--) {
      byte kept = line[low];
      line[low] = line[high];
      line[high] = kept;
    }
    line[at++] = (byte) end;
  }
}
