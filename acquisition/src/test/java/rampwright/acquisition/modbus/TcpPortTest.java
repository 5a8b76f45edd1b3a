package rampwright.acquisition.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assertions.fail;

import java.io.IOException;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.device.RealTime;
import rampwright.acquisition.device.RegisterPort;
import rampwright.acquisition.map.Link;

/** Modbus TCP against peers that misbehave in every way; raw bytes on both sides. */
class TcpPortTest {
  private static final int TIMEOUT_MS = 150;

  /** A busy machine may be this late beyond a deadline; the deadline itself must hold. */
  private static final long SLACK_MS = 2000;

  private static TcpPort port(RawServer server) {
    return new TcpPort(new Link.Tcp("127.0.0.1", server.port()), new RealTime());
  }

  private static DeviceFault faultOf(TcpPort port) {
    try {
      port.read(1, 3, 100, 4, TIMEOUT_MS);
      return fail("an answer came");
    } catch (DeviceFault fault) {
      return fault;
    }
  }

  private static void works(TcpPort port) throws DeviceFault {
    assertThat(port.read(1, 3, 100, 4, 2000).words()).containsExactly(100, 101, 102, 103);
  }

  @Test
  void theRequestOnTheWireIsTheOneOfThePublishedExample() throws Exception {
    // Modbus/TCP framing of the example of Application Protocol V1.1b3, 6.3, to unit 0x11
    try (RawServer server = new RawServer((q, turn, out) -> out.write(RawServer.answer(q)))) {
      TcpPort port = port(server);
      port.read(0x11, 3, 0x6b, 3, 2000);
      assertThat(server.frames().get(0)).containsExactly(0, 1, 0, 0, 0, 6, 0x11, 3, 0, 0x6b, 0, 3);
      port.close();
    }
  }

  @Test
  void everyFunctionThatReadsReads() throws Exception {
    try (RawServer server = new RawServer((q, turn, out) -> out.write(RawServer.answer(q)))) {
      TcpPort port = port(server);
      assertThat(port.read(1, 4, 7, 2, 2000).words()).containsExactly(7, 8);
      assertThat(port.read(1, 1, 0, 10, 2000).words())
          .containsExactly(1, 0, 0, 1, 0, 0, 1, 0, 0, 1);
      assertThat(port.read(1, 2, 1, 3, 2000).words()).containsExactly(0, 0, 1);
      assertThat(port.read(255, 3, 65000, 125, 2000).words()).hasSize(125).contains(65124);
      port.close();
    }
  }

  @Test
  void nothingButFunctionsOneToFourEverGoesOut() throws Exception {
    try (RawServer server = new RawServer((q, turn, out) -> out.write(RawServer.answer(q)))) {
      TcpPort port = port(server);
      Random random = new Random(2);
      int sent = 0;
      for (int i = 0; i < 400; i++) {
        int function = random.nextInt(300) - 20;
        int count = 1 + random.nextInt(130);
        try {
          port.read(random.nextInt(256), function, random.nextInt(60000), count, 2000);
          sent++;
        } catch (IllegalArgumentException refusedBeforeItWasSent) {
          assertThat(function < 1 || function > 4 || count > 125).isTrue();
        }
      }
      for (int function = 1; function <= 4; function++) {
        port.read(1, function, 0, 1, 2000);
        sent++;
      }
      assertThat(server.frames()).hasSize(sent);
      for (byte[] frame : server.frames()) {
        assertThat(frame).hasSize(12);
        assertThat((int) frame[7]).isBetween(1, 4);
      }
      port.close();
    }
  }

  @Test
  void silenceIsATimeoutAndALateAnswerIsNotTakenForTheNext() throws Exception {
    try (RawServer server =
        new RawServer(
            (q, turn, out) -> {
              if (turn == 1) {
                TimeUnit.MILLISECONDS.sleep(2 * TIMEOUT_MS);
                byte[] late = RawServer.answer(q);
                late[10] = 99;
                out.write(late);
              } else {
                out.write(RawServer.answer(q));
              }
            })) {
      TcpPort port = port(server);
      DeviceFault fault = faultOf(port);
      assertThat(fault.kind()).isEqualTo(FaultKind.NO_ANSWER);
      assertThat(fault.text()).isEqualTo("no answer within 150 ms");
      works(port);
      port.close();
    }
  }

  @Test
  void aDeviceThatSendsOneByteAtATimeIsHeldToTheDeadline() throws Exception {
    try (RawServer server =
        new RawServer(
            (q, turn, out) -> {
              for (byte b : RawServer.answer(q)) {
                out.write(b);
                out.flush();
                TimeUnit.MILLISECONDS.sleep(turn == 1 ? TIMEOUT_MS / 2 : 0);
              }
            })) {
      TcpPort port = port(server);
      long began = System.nanoTime();
      DeviceFault fault = faultOf(port);
      long tookMs = TimeUnit.NANOSECONDS.toMillis(System.nanoTime() - began);
      assertThat(fault.kind()).isEqualTo(FaultKind.NO_ANSWER);
      // 17 bytes, each within the time allowed, would take 1275 ms.
      assertThat(tookMs).isLessThan(1000);
      works(port);
      port.close();
    }
  }

  @Test
  void anExceptionSaysItsCode() throws Exception {
    try (RawServer server =
        new RawServer(
            (q, turn, out) ->
                out.write(new byte[] {q[0], q[1], 0, 0, 0, 3, q[6], (byte) 0x83, 2}))) {
      TcpPort port = port(server);
      DeviceFault fault = faultOf(port);
      assertThat(fault.kind()).isEqualTo(FaultKind.REFUSED);
      assertThat(fault.text())
          .isEqualTo("exception 2 (illegal data address) to function 3, address 100, 4 long");
      port.close();
    }
  }

  @Test
  void anAnswerOfAnotherUnitFunctionOrLengthIsRefused() throws Exception {
    try (RawServer server =
        new RawServer(
            (q, turn, out) -> {
              byte[] answer = RawServer.answer(q);
              if (turn == 1) {
                answer[6] = 9;
              } else if (turn == 2) {
                answer[7] = 4;
              } else if (turn == 3) {
                q[11] = 3;
                answer = RawServer.answer(q);
              }
              out.write(answer);
            })) {
      TcpPort port = port(server);
      assertThat(faultOf(port).text()).isEqualTo("unit 9 answered a question to unit 1");
      assertThat(faultOf(port).text()).contains("function 4 to a question of function 3");
      assertThat(faultOf(port).text()).contains("3 registers answered where 4");
      works(port);
      port.close();
    }
  }

  @Test
  void garbageOfAnyKindIsAFaultAndTheNextQuestionWorks() throws Exception {
    Random random = new Random(7);
    try (RawServer server =
        new RawServer(
            (q, turn, out) -> {
              if (turn % 2 == 0) {
                out.write(RawServer.answer(q));
                return;
              }
              byte[] junk = new byte[1 + random.nextInt(400)];
              random.nextBytes(junk);
              if (random.nextBoolean()) {
                System.arraycopy(q, 0, junk, 0, Math.min(junk.length, 4));
              }
              out.write(junk);
            })) {
      for (int i = 0; i < 60; i++) {
        TcpPort port = port(server);
        assertThat(faultOf(port).text()).isNotEmpty();
        works(port);
        port.close();
      }
    }
  }

  @Test
  void aDeviceThatClosesOrRestartsIsFoundAgain() throws Exception {
    int number;
    TcpPort port;
    try (RawServer server =
        new RawServer(
            (q, turn, out) -> {
              if (turn == 2) {
                throw new IOException("pulled");
              }
              out.write(RawServer.answer(q));
            })) {
      number = server.port();
      port = port(server);
      works(port);
      assertThat(faultOf(port).kind()).isEqualTo(FaultKind.LOST);
      works(port);
    }
    FaultKind first = faultOf(port).kind();
    assertThat(first).isIn(FaultKind.LOST, FaultKind.UNREACHABLE);
    assertThat(faultOf(port).kind()).isEqualTo(FaultKind.UNREACHABLE);
    assertThat(faultOf(port).text()).contains("nobody listens there");
    try (RawServer again =
        new RawServer(number, (q, turn, out) -> out.write(RawServer.answer(q)))) {
      works(port);
      assertThat(again.frames()).isNotEmpty();
    }
    port.close();
  }

  @Test
  void theStampIsBetweenQuestionAndAnswer() throws Exception {
    try (RawServer server =
        new RawServer(
            (q, turn, out) -> {
              TimeUnit.MILLISECONDS.sleep(60);
              out.write(RawServer.answer(q));
            })) {
      TcpPort port = port(server);
      long before = System.nanoTime();
      RegisterPort.Answer answer = port.read(1, 3, 0, 1, 5000);
      long after = System.nanoTime();
      assertThat(answer.askedNs()).isBetween(before, after);
      assertThat(answer.answeredNs() - answer.askedNs())
          .isBetween(60_000_000L, (60 + SLACK_MS) * 1_000_000L);
      assertThat(answer.answeredNs()).isLessThanOrEqualTo(after);
      port.close();
    }
  }

  @Test
  void aHostThatIsNotThereIsSaidToBe() {
    TcpPort port = new TcpPort(new Link.Tcp("no-such-host.invalid", 502), new RealTime());
    assertThatThrownBy(() -> port.read(1, 3, 0, 1, 200))
        .isInstanceOf(DeviceFault.class)
        .hasMessageContaining("no such host");
  }
}
