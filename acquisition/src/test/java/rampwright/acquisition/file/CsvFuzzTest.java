package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.analysis.trace.Trace;

/** Damaged and random files give a trace or a message, soon, and nothing else. */
class CsvFuzzTest {
  private static final long SEED = 4711;
  private static final int MUTANTS_PER_SEED = 150;
  private static final CsvLimits SMALL = new CsvLimits(8192, 200, 1 << 16, 1);

  private static final String[] SEEDS = {
    "# a note\ntime_s,i1_A,i2_A,speed_rpm,run\n0.0,1.5,2.5,0,0\n0.1,4.5,5.5,10.25,1\n0.2,7.5,,20,1\n",
    "Zeit [s];Strom L1 [kA];Drehzahl [1/min]\n0,00;0,1;0\n0,02;0,2;5\n0,04;0,3;1.234,5\n",
    "X,CH1 (A),Start,Increment,\nSequence,Ampere,-0.5,0.25,\n0,1.5,\n1,2.5,\n2,3.5,\n",
    "Date\tTime\tI1 [A]\n14.03.2026\t23:59:59,5\t1\n15.03.2026\t00:00:00,5\t2\n",
    "when,\"Current\n L1\"\n2026-03-14T10:12:05.1+01:00,\"1,000.5\"\n2026-03-14T10:12:06Z,-1e-3\n",
    "t I_L1\n  0.0   1e5\n  0.1   NaN\n  0.1   OVERLOAD\n  0.3  -.5e+300\n",
    "time_s,i1_A\n1773479525.000001,1\n1773479525.000002,2\n1773479525.000003,3e999\n",
    "time_s,i1_A\n1.773479525D9,1d2\n1.773479526D9,2D-400\n1.773479527D9,9.91E37\n",
    "Zeit [s],Strom L1 [A]\n\"0,00\",\"-1,25\"\n\"0,02\",\"\u22121,5\"\n\"0,04\",7\n",
    "Sample interval, 0.0001\nRate: 10 kHz\n\nSample,I L1 [A]\n1,5\n2,-9999\n3,-9999\n4,6\n",
    "Timestamp;I L1 [A]\n46095,500000000;1\n46095,500000232;2\n46095,500000463;1\u202f234,5\n",
    "t [ms],I [A]\n65500,1\n65520,2\n4,3\nt [ms],I [A]\n24,4\nt [ms],U [V]\n44,5\n",
    "When,I [A]\n2026-10-25 02:59:59 GMT+2,1\n2026-10-25 02:00:00 UTC-1,2\n03/04/2026 1:00 AM,3\n",
  };

  @TempDir Path folder;

  @Test
  void mutantsGiveATraceOrAMessage() {
    SplittableRandom random = new SplittableRandom(SEED);
    int read = 0;
    int refused = 0;
    for (String seed : SEEDS) {
      for (int i = 0; i < MUTANTS_PER_SEED; i++) {
        byte[] bytes = mutant(seed.getBytes(StandardCharsets.UTF_8), random);
        if (isRead(bytes, i)) {
          read++;
        } else {
          refused++;
        }
      }
    }
    // Both outcomes must occur, or the mutations are too weak or too wild to show anything.
    assertThat(read).isGreaterThan(50);
    assertThat(refused).isGreaterThan(50);
  }

  @Test
  void randomBytesGiveAMessage() {
    SplittableRandom random = new SplittableRandom(SEED + 1);
    String letters = "0123456789.,;-+eE \t\r\n\"#:/aitsAV\u0000\u00e9";
    for (int i = 0; i < 300; i++) {
      byte[] bytes = new byte[random.nextInt(1, 3000)];
      if (i % 3 == 0) {
        random.nextBytes(bytes);
      } else {
        for (int j = 0; j < bytes.length; j++) {
          bytes[j] = (byte) letters.charAt(random.nextInt(letters.length()));
        }
      }
      isRead(bytes, i);
    }
  }

  @Test
  void damagedArchivesGiveATraceOrAMessage() throws IOException {
    SplittableRandom random = new SplittableRandom(SEED + 2);
    ByteArrayOutputStream packed = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(packed)) {
      out.write(SEEDS[0].repeat(20).getBytes(StandardCharsets.UTF_8));
    }
    for (int i = 0; i < 150; i++) {
      isRead(mutant(packed.toByteArray(), random), i);
    }
  }

  private boolean isRead(byte[] bytes, int number) {
    Path file = folder.resolve("fuzz.csv");
    try {
      Files.write(file, bytes);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
    return Assertions.assertTimeout(
        Duration.ofSeconds(5),
        () -> {
          try {
            Trace trace =
                CsvTraceReader.read(file, ColumnMapping.NONE, null, ReadContext.NONE, SMALL);
            assertThat(trace.size()).isGreaterThan(1);
            return true;
          } catch (TraceFileException e) {
            assertThat(e.getMessage()).startsWith(file.toString()).doesNotContain("Exception");
            return false;
          } catch (RuntimeException e) {
            throw new AssertionError(
                "seed "
                    + SEED
                    + " number "
                    + number
                    + ": "
                    + Arrays.toString(bytes)
                    + "\n"
                    + new String(bytes, StandardCharsets.UTF_8),
                e);
          }
        });
  }

  private static byte[] mutant(byte[] seed, SplittableRandom random) {
    byte[] bytes = seed.clone();
    int changes = random.nextInt(1, 6);
    for (int i = 0; i < changes && bytes.length > 2; i++) {
      int at = random.nextInt(bytes.length);
      switch (random.nextInt(6)) {
        case 0 -> bytes[at] = (byte) random.nextInt(256);
        case 1 -> bytes[at] = (byte) ",;\t\n\r\"#-.0e /:".charAt(random.nextInt(14));
        case 2 -> bytes = Arrays.copyOf(bytes, at + 1);
        case 3 -> {
          int end = Math.min(bytes.length, at + random.nextInt(1, 20));
          byte[] shorter = Arrays.copyOf(bytes, bytes.length - (end - at));
          System.arraycopy(bytes, end, shorter, at, bytes.length - end);
          bytes = shorter;
        }
        case 4 -> {
          int end = Math.min(bytes.length, at + random.nextInt(1, 40));
          byte[] longer = new byte[bytes.length + end - at];
          System.arraycopy(bytes, 0, longer, 0, end);
          System.arraycopy(bytes, at, longer, end, bytes.length - at);
          bytes = longer;
        }
        default -> {
          int other = random.nextInt(bytes.length);
          byte kept = bytes[at];
          bytes[at] = bytes[other];
          bytes[other] = kept;
        }
      }
    }
    return bytes;
  }
}
