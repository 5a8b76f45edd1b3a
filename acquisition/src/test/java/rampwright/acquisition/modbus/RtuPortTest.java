package rampwright.acquisition.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.fail;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Queue;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.SerialSettings;

/**
 * Modbus RTU frame by frame. Frames and checksums: the examples of the Modbus Application Protocol
 * V1.1b3 (6.3, 6.4) framed for units 0x11 and 0x01, as found in several public notes and recomputed
 * with the polynomial A001 from FFFF, whose check value over "123456789" is 4B37.
 */
class RtuPortTest {
  private static final SerialSettings SETTINGS =
      new SerialSettings("/dev/none", 115200, 8, SerialSettings.Parity.EVEN, 1);

  /** A wire in memory: what was written, and what the other side says to it. */
  private static final class FakeWire implements SerialWire {
    private final List<byte[]> written = new ArrayList<>();
    private final Queue<byte[]> answers = new ArrayDeque<>();
    private final Queue<Byte> pending = new ArrayDeque<>();
    private boolean open;
    private boolean gone;

    FakeWire answering(String... hex) {
      for (String answer : hex) {
        answers.add(bytes(answer));
      }
      return this;
    }

    @Override
    public void open() {
      open = true;
    }

    @Override
    public boolean isOpen() {
      return open;
    }

    @Override
    public int available() {
      return gone ? -1 : pending.size();
    }

    @Override
    public int read(byte[] into, int count) {
      for (int i = 0; i < count; i++) {
        into[i] = pending.remove();
      }
      return count;
    }

    @Override
    public int write(byte[] from, int count) {
      byte[] frame = new byte[count];
      System.arraycopy(from, 0, frame, 0, count);
      written.add(frame);
      byte[] answer = answers.poll();
      if (answer != null) {
        for (byte b : answer) {
          pending.add(b);
        }
      }
      return count;
    }

    @Override
    public void close() {
      open = false;
    }
  }

  private static byte[] bytes(String hex) {
    return HexFormat.of().parseHex(hex.replace(" ", ""));
  }

  private static RtuPort port(FakeWire wire) {
    return new RtuPort(new Link.Rtu(SETTINGS), wire, new RealTime());
  }

  private static DeviceFault faultOf(RtuPort port, int unit, int function, int address, int count) {
    try {
      port.read(unit, function, address, count, 40);
      return fail("an answer came");
    } catch (DeviceFault fault) {
      return fault;
    }
  }

  @ParameterizedTest
  @CsvSource({
    "17, 3, 107, 3, 11 03 00 6B 00 03 76 87, 11 03 06 02 2B 00 00 00 64 C8 BA, 555 0 100",
    "17, 3, 107, 3, 11 03 00 6B 00 03 76 87, 11 03 06 AE 41 56 52 43 40 49 AD, 44609 22098 17216",
    "1, 3, 107, 3, 01 03 00 6B 00 03 74 17, 01 03 06 02 2B 00 00 00 64 05 7A, 555 0 100"
  })
  void framesAreThePublishedOnes(
      int unit,
      int function,
      int address,
      int count,
      String question,
      String answer,
      String expected)
      throws Exception {
    FakeWire wire = new FakeWire().answering(answer);
    int[] words = port(wire).read(unit, function, address, count, 2000).words();
    assertThat(wire.written).hasSize(1);
    assertThat(wire.written.get(0)).containsExactly(bytes(question));
    StringBuilder text = new StringBuilder();
    for (int word : words) {
      text.append(text.isEmpty() ? "" : " ").append(word);
    }
    assertThat(text.toString()).isEqualTo(expected);
  }

  @ParameterizedTest
  @CsvSource({
    "17, 4, 8, 1, 11 04 00 08 00 01 B2 98",
    "1, 3, 0, 2, 01 03 00 00 00 02 C4 0B",
    "1, 3, 0, 10, 01 03 00 00 00 0A C5 CD"
  })
  void questionsCarryThePublishedChecksums(
      int unit, int function, int address, int count, String question) {
    FakeWire wire = new FakeWire();
    assertThat(faultOf(port(wire), unit, function, address, count).kind())
        .isEqualTo(FaultKind.NO_ANSWER);
    assertThat(wire.written.get(0)).containsExactly(bytes(question));
  }

  @ParameterizedTest
  @CsvSource({"1, 01 83 02 C0 F1", "17, 11 83 02 C1 34"})
  void exceptionsAreUnderstood(int unit, String answer) {
    DeviceFault fault = faultOf(port(new FakeWire().answering(answer)), unit, 3, 107, 3);
    assertThat(fault.kind()).isEqualTo(FaultKind.REFUSED);
    assertThat(fault.text()).contains("exception 2 (illegal data address)");
  }

  @Test
  void aChecksumThatBelongsToAnotherUnitIsRefused() throws Exception {
    // As seen in the wild for a question; here as the checksum of an answer.
    FakeWire wire =
        new FakeWire()
            .answering("01 03 06 02 2B 00 00 00 64 C8 BA", "01 03 06 02 2B 00 00 00 64 05 7A");
    RtuPort port = port(wire);
    assertThat(faultOf(port, 1, 3, 107, 3).kind()).isEqualTo(FaultKind.BAD_CHECK);
    assertThat(port.read(1, 3, 107, 3, 2000).words()).containsExactly(555, 0, 100);
  }

  @Test
  void anotherUnitsAnswerIsRefused() {
    FakeWire wire = new FakeWire().answering("11 03 06 02 2B 00 00 00 64 C8 BA");
    DeviceFault fault = faultOf(port(wire), 1, 3, 107, 3);
    assertThat(fault.kind()).isEqualTo(FaultKind.WRONG_ANSWER);
    assertThat(fault.text()).isEqualTo("unit 17 answered a question to unit 1");
  }

  @Test
  void halfAnAnswerAndTooMuchOfOneAreFaultsOrReadRight() throws Exception {
    String good = "01 03 06 02 2B 00 00 00 64 05 7A";
    byte[] whole = bytes(good);
    for (int cut = 1; cut < whole.length; cut++) {
      byte[] part = new byte[cut];
      System.arraycopy(whole, 0, part, 0, cut);
      FakeWire wire = new FakeWire().answering(hex(part), good);
      RtuPort port = port(wire);
      assertThat(faultOf(port, 1, 3, 107, 3).kind()).isIn(FaultKind.GARBAGE, FaultKind.NO_ANSWER);
      assertThat(port.read(1, 3, 107, 3, 2000).words()).containsExactly(555, 0, 100);
    }
    FakeWire longer = new FakeWire().answering(good + " FF FF FF", good);
    RtuPort port = port(longer);
    for (int i = 0; i < 2; i++) {
      assertThat(port.read(1, 3, 107, 3, 2000).words()).containsExactly(555, 0, 100);
    }
  }

  @Test
  void everySingleBitErrorIsCaught() {
    byte[] whole = bytes("01 03 06 02 2B 00 00 00 64 05 7A");
    // The length byte is left alone here: a wrong length is waited for, see above.
    for (int at = 3 * 8; at < whole.length * 8; at++) {
      byte[] bent = whole.clone();
      bent[at / 8] ^= (byte) (1 << at % 8);
      assertThat(faultOf(port(new FakeWire().answering(hex(bent))), 1, 3, 107, 3).kind())
          .as("bit %d", at)
          .isEqualTo(FaultKind.BAD_CHECK);
    }
  }

  @Test
  void garbageIsAFaultAndTheNextQuestionWorks() throws Exception {
    Random random = new Random(3);
    for (int i = 0; i < 40; i++) {
      byte[] junk = new byte[1 + random.nextInt(300)];
      random.nextBytes(junk);
      FakeWire wire = new FakeWire().answering(hex(junk), "01 03 06 02 2B 00 00 00 64 05 7A");
      RtuPort port = port(wire);
      assertThat(faultOf(port, 1, 3, 107, 3).text()).isNotEmpty();
      assertThat(port.read(1, 3, 107, 3, 2000).words()).containsExactly(555, 0, 100);
    }
  }

  /** Two answers to what looks like one question: the first was owed to the one before. */
  @Test
  void aLateAnswerIsNotTakenForTheNextOne() throws Exception {
    String late = "01 03 06 AE 41 56 52 43 40 84 6D";
    String right = "01 03 06 02 2B 00 00 00 64 05 7A";
    FakeWire wire = new FakeWire().answering("", late + right, right);
    RtuPort port = port(wire);
    assertThat(faultOf(port, 1, 3, 107, 3).kind()).isEqualTo(FaultKind.NO_ANSWER);
    DeviceFault fault = faultOf(port, 1, 3, 107, 3);
    assertThat(fault.kind()).isEqualTo(FaultKind.WRONG_ANSWER);
    assertThat(fault.text()).contains("late answer");
    assertThat(port.read(1, 3, 107, 3, 2000).words()).containsExactly(555, 0, 100);
  }

  @Test
  void whatLiesOnTheLineBeforeAQuestionIsNoAnswerToIt() throws Exception {
    FakeWire wire = new FakeWire().answering("01 03 06 02 2B 00 00 00 64 05 7A");
    for (byte b : bytes("01 03 06 AE 41 56 52 43 40 84 6D")) {
      wire.pending.add(b);
    }
    assertThat(port(wire).read(1, 3, 107, 3, 2000).words()).containsExactly(555, 0, 100);
  }

  @Test
  void aPulledPortIsLostAndFoundAgain() throws Exception {
    FakeWire wire = new FakeWire();
    RtuPort port = port(wire);
    wire.gone = true;
    DeviceFault fault = faultOf(port, 1, 3, 107, 3);
    assertThat(fault.kind()).isEqualTo(FaultKind.LOST);
    assertThat(fault.text()).contains("is the cable in?");
    assertThat(wire.open).isFalse();
    wire.gone = false;
    wire.answering("01 03 06 02 2B 00 00 00 64 05 7A");
    assertThat(port.read(1, 3, 107, 3, 2000).words()).containsExactly(555, 0, 100);
  }

  @Test
  void onlyFunctionsThatReadGoOut() {
    FakeWire wire = new FakeWire();
    RtuPort port = port(wire);
    for (int function = 0; function < 256; function++) {
      try {
        port.read(1, function, 0, 1, 5);
      } catch (IllegalArgumentException | DeviceFault e) {
        assertThat(e).isNotNull();
      }
    }
    assertThat(wire.written).hasSize(4);
    assertThat(wire.written.stream().map(frame -> (int) frame[1])).containsExactly(1, 2, 3, 4);
  }

  private static String hex(byte[] bytes) {
    return HexFormat.of().formatHex(bytes).toUpperCase(Locale.ROOT);
  }
}
