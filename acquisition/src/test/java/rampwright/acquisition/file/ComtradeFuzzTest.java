package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Provenance;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.TimeBase;
import rampwright.analysis.trace.Trace;

/**
 * Seeded damage to good records: only a {@link TraceFileException} may come out, with a message
 * that names the file, and what is read must be no larger than its file can hold.
 */
class ComtradeFuzzTest {
  private static final long SEED = 60_255_24;
  private static final int CASES = 300;
  private static final String[] NASTY = {
    "2147483648",
    "-1",
    "99999999999999999999",
    "NaN",
    "1e308",
    "",
    ",,,,",
    "\u0000",
    "\r",
    "0x10",
    "--- file type: DAT BINARY: 99999999999999999999 ---\r\n",
    "1e-320",
    "0",
    "A",
    "D"
  };

  @TempDir Path folder;

  @ParameterizedTest
  @EnumSource(ComtradeEncoding.class)
  void damagedRecordsNeverGiveAnythingButATraceOrAMessage(ComtradeEncoding encoding)
      throws Exception {
    Path single = folder.resolve("good.cff");
    Path config = folder.resolve("good.cfg");
    ComtradeWriter.write(trace(), single, ComtradeForm.of2013(encoding));
    ComtradeWriter.write(trace(), config, ComtradeForm.of2013(encoding));
    byte[] wholeSingle = Files.readAllBytes(single);
    byte[] wholeConfig = Files.readAllBytes(config);
    byte[] wholeData = Files.readAllBytes(folder.resolve("good.dat"));
    Random random = new Random(SEED + encoding.ordinal());
    Path damagedSingle = folder.resolve("bad.cff");
    Path damagedConfig = folder.resolve("bad.cfg");
    Path damagedData = folder.resolve("bad.dat");
    int refused = 0;
    for (int i = 0; i < CASES; i++) {
      if (i % 3 == 0) {
        Files.write(damagedSingle, damaged(wholeSingle, random));
        refused += attempt(damagedSingle, i) ? 0 : 1;
      } else {
        Files.write(damagedConfig, i % 3 == 1 ? damaged(wholeConfig, random) : wholeConfig);
        Files.write(damagedData, i % 3 == 2 ? damaged(wholeData, random) : wholeData);
        refused += attempt(damagedConfig, i) ? 0 : 1;
      }
    }
    // Damage must matter, or this test would prove nothing; and it must not always be fatal.
    assertThat(refused).isBetween(CASES / 10, CASES * 9 / 10);
  }

  private boolean attempt(Path file, int number) throws IOException {
    long bytes = Files.size(file);
    try {
      Trace trace = ComtradeReader.read(file, ReadOptions.DEFAULT);
      Path data = folder.resolve("bad.dat");
      long most = bytes + (Files.exists(data) ? Files.size(data) : 0);
      assertThat((long) trace.size()).isLessThanOrEqualTo(most / 2);
      return true;
    } catch (TraceFileException e) {
      assertThat(e).hasMessageMatching("(?s)bad\\.(cff|cfg|dat).{20,}");
      return false;
    } catch (RuntimeException | Error e) {
      return fail("seed " + SEED + ", case " + number + ": " + e, e);
    }
  }

  private static byte[] damaged(byte[] good, Random random) {
    byte[] bytes = good.clone();
    int wounds = 1 + random.nextInt(3);
    for (int w = 0; w < wounds && bytes.length > 0; w++) {
      int at = random.nextInt(bytes.length);
      switch (random.nextInt(6)) {
        case 0 -> bytes[at] = (byte) random.nextInt(256);
        case 1 -> bytes = Arrays.copyOf(bytes, at);
        case 2 ->
            bytes =
                joined(bytes, at, new byte[0], Math.min(bytes.length - at, 1 + random.nextInt(40)));
        case 3 ->
            bytes =
                joined(
                    bytes,
                    at,
                    NASTY[random.nextInt(NASTY.length)].getBytes(StandardCharsets.ISO_8859_1),
                    random.nextInt(2) * Math.min(bytes.length - at, 5));
        case 4 -> {
          byte[] noise = new byte[random.nextInt(200)];
          random.nextBytes(noise);
          bytes = joined(bytes, at, noise, 0);
        }
        default -> {
          int digit = at;
          while (digit < bytes.length && (bytes[digit] < '0' || bytes[digit] > '9')) {
            digit++;
          }
          if (digit < bytes.length) {
            bytes[digit] = (byte) ('0' + random.nextInt(10));
          }
        }
      }
    }
    return bytes;
  }

  private static byte[] joined(byte[] bytes, int at, byte[] middle, int without) {
    byte[] all = new byte[bytes.length + middle.length - without];
    System.arraycopy(bytes, 0, all, 0, at);
    System.arraycopy(middle, 0, all, at, middle.length);
    System.arraycopy(bytes, at + without, all, at + middle.length, bytes.length - at - without);
    return all;
  }

  private static Trace trace() {
    int size = 60;
    double[] times = new double[size];
    Map<ChannelName, Samples> channels = new EnumMap<>(ChannelName.class);
    for (ChannelName name : ChannelName.CURRENTS) {
      double[] values = new double[size];
      for (int i = 0; i < size; i++) {
        values[i] = 10 * Math.sin(i + name.ordinal());
        times[i] = i * 0.001 + (i > 30 ? 0.5 : 0);
      }
      channels.put(name, Samples.owning(values));
    }
    return new Trace(
        TimeBase.listed(Samples.owning(times)), channels, null, Provenance.computed("made here"));
  }
}
