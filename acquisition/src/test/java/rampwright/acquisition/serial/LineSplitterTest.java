package rampwright.acquisition.serial;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import rampwright.acquisition.device.LinePort;

/** Lines out of bytes, whatever pieces they come in. */
class LineSplitterTest {
  private static final int LONGEST = 40;

  @ParameterizedTest
  @ValueSource(strings = {"\n", "\r", "\r\n"})
  void aLineSplitAnywhereIsTheSameLine(String end) {
    String text = "1482.5 rpm" + end + end + "x".repeat(LONGEST) + end + "0;1;2" + end;
    byte[] bytes = text.getBytes(StandardCharsets.ISO_8859_1);
    Random random = new Random(9);
    for (int round = 0; round < 200; round++) {
      LineSplitter splitter = new LineSplitter(end, LONGEST);
      List<String> lines = new ArrayList<>();
      int at = 0;
      while (at < bytes.length) {
        int count = Math.min(bytes.length - at, 1 + random.nextInt(9));
        byte[] piece = new byte[count];
        System.arraycopy(bytes, at, piece, 0, count);
        splitter.take(piece, count, 0, 0);
        at += count;
        for (LinePort.Line l = splitter.next(); l != null; l = splitter.next()) {
          lines.add(l.text());
        }
      }
      assertThat(lines).containsExactly("1482.5 rpm", "", "x".repeat(LONGEST), "0;1;2");
      assertThat(splitter.overruns()).isZero();
    }
  }

  @Test
  void aLineWithoutEndTakesNoMemoryAndTheNextOneIsRead() {
    LineSplitter splitter = new LineSplitter("\r\n", LONGEST);
    byte[] junk = new byte[1000];
    java.util.Arrays.fill(junk, (byte) 'j');
    for (int i = 0; i < 100; i++) {
      splitter.take(junk, junk.length, 0, 0);
    }
    assertThat(splitter.next()).isNull();
    byte[] rest = "\r\nok\r\n".getBytes(StandardCharsets.ISO_8859_1);
    splitter.take(rest, rest.length, 0, 0);
    LinePort.Line line = splitter.next();
    assertThat(line == null ? "" : line.text()).isEqualTo("ok");
    assertThat(splitter.overruns()).isEqualTo(1);
  }

  @Test
  void theStampIsThatOfTheFirstByte() {
    LineSplitter splitter = new LineSplitter("\n", LONGEST);
    byte[] bytes = "12\n".getBytes(StandardCharsets.ISO_8859_1);
    // three bytes of 1000 ns each, the last came at 10000
    splitter.take(bytes, 3, 10_000, 1000);
    LinePort.Line line = splitter.next();
    assertThat(line == null ? -1 : line.beganNs()).isEqualTo(8000);
  }
}
