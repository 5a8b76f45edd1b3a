package rampwright.acquisition.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Trace;

/** Numbers are those of {@link Double#parseDouble}, to the last bit. */
class CsvNumbersTest {
  private static final long SEED = 20260314;

  @TempDir Path folder;

  @Test
  void everyNumberIsThatOfTheLanguage() throws Exception {
    List<String> numbers = numbers(60_000);
    for (char decimal : new char[] {'.', ','}) {
      StringBuilder text = new StringBuilder("time_s;i1_A\n");
      for (int i = 0; i < numbers.size(); i++) {
        text.append(i).append(';').append(numbers.get(i).replace('.', decimal)).append('\n');
      }
      Trace trace = new CsvFiles(folder).read(text.toString());
      double[] read = CsvFiles.values(trace, ChannelName.I1);
      for (int i = 0; i < read.length; i++) {
        double expected = Double.parseDouble(numbers.get(i));
        if (Double.isInfinite(expected)) {
          assertThat(read[i]).as(numbers.get(i)).isNaN();
        } else {
          assertThat(Double.doubleToRawLongBits(read[i]))
              .as("seed %d, number %s", SEED, numbers.get(i))
              .isEqualTo(Double.doubleToRawLongBits(expected));
        }
      }
    }
  }

  private static List<String> numbers(int count) {
    SplittableRandom random = new SplittableRandom(SEED);
    List<String> numbers =
        new ArrayList<>(
            List.of(
                // Edges of the exact way and of the format; halfway cases.
                "0.5",
                "-0",
                "0",
                "+1",
                ".5",
                "5.",
                "-.25",
                "9007199254740992",
                "9007199254740993",
                "9007199254740993.0000000000000000000000001",
                "1e22",
                "1e23",
                "1e-22",
                "1e-23",
                "1.7976931348623157e308",
                "4.9e-324",
                "2.4703282292062328e-324",
                "1e400",
                "1e-400",
                "0000000000000000000000012",
                "0.00000000000000000000000000012",
                "123456789012345678901234567890",
                "2.2250738585072011e-308",
                "1E5",
                "1e+05"));
    while (numbers.size() < count) {
      switch (random.nextInt(5)) {
        case 0 -> numbers.add(Double.toString(Double.longBitsToDouble(random.nextLong())));
        case 1 -> numbers.add(String.format(Locale.ROOT, "%.6f", random.nextDouble(-1e3, 1e3)));
        case 2 -> numbers.add(Double.toString(random.nextDouble(-700, 700)));
        case 3 -> numbers.add(random.nextLong() + "." + random.nextLong(0, Long.MAX_VALUE));
        default ->
            numbers.add(
                random.nextInt(-99_999, 99_999)
                    + "."
                    + random.nextInt(1_000_000)
                    + "e"
                    + random.nextInt(-40, 40));
      }
    }
    numbers.removeIf(number -> number.contains("NaN") || number.contains("Inf"));
    return numbers;
  }
}
