package rampwright.acquisition.modbus;

import com.ghgande.j2mod.modbus.ModbusIOException;
import com.ghgande.j2mod.modbus.io.ModbusTCPTransport;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import java.io.IOException;
import java.net.ConnectException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.device.RegisterPort;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.map.Link;

/** Modbus TCP. Answers are matched by transaction number; late ones are thrown away. */
public final class TcpPort implements RegisterPort {
  /** A device that keeps sending answers to nothing is broken. */
  private static final int MOST_LATE = 16;

  /** So many silences in a row, and the connection is made anew. */
  private static final int MOST_SILENCES = 2;

  private final Link.Tcp link;
  private final Timekeeper time;
  private @Nullable DeadlineSocket socket;
  private @Nullable ModbusTCPTransport transport;
  private int transaction;
  private int silences;

  /** A port; nothing is opened yet. */
  public TcpPort(Link.Tcp link, Timekeeper time) {
    this.link = link;
    this.time = time;
  }

  @Override
  public Answer read(int unit, int function, int address, int count, int timeoutMs)
      throws DeviceFault {
    ReadQuestion question = new ReadQuestion(unit, function, address, count);
    connect(timeoutMs);
    DeadlineSocket open = socket;
    ModbusTCPTransport way = transport;
    if (open == null || way == null) {
      throw new DeviceFault(FaultKind.LOST, "the connection was closed");
    }
    ModbusRequest message = question.message();
    transaction = (transaction + 1) & 0xffff;
    message.setTransactionID(transaction);
    long askedNs = time.nanos();
    open.until(askedNs + timeoutMs * 1_000_000L);
    try {
      way.writeRequest(message);
    } catch (ModbusIOException e) {
      close();
      throw new DeviceFault(FaultKind.LOST, "the connection broke while asking", e);
    }
    try {
      for (int late = 0; late <= MOST_LATE; late++) {
        ModbusResponse response = way.readResponse();
        long answeredNs = time.nanos();
        if (response.getTransactionID() == transaction && response.getProtocolID() == 0) {
          silences = 0;
          return new Answer(question.answer(response), askedNs, answeredNs);
        }
      }
      close();
      throw new DeviceFault(FaultKind.WRONG_ANSWER, "answers to other questions keep coming");
    } catch (ModbusIOException e) {
      throw unanswered(open, askedNs, timeoutMs, e);
    } catch (IndexOutOfBoundsException | IllegalArgumentException | NullPointerException e) {
      // The library takes lengths from the wire as they are.
      close();
      throw new DeviceFault(FaultKind.GARBAGE, "bytes that are no Modbus answer", e);
    }
  }

  private DeviceFault unanswered(
      DeadlineSocket open, long askedNs, int timeoutMs, ModbusIOException e) {
    boolean inTime = time.nanos() - askedNs < timeoutMs * 1_000_000L;
    if (inTime) {
      close();
      boolean closed = String.valueOf(e.getMessage()).startsWith("Premature end");
      return closed
          ? new DeviceFault(FaultKind.LOST, "the device closed the connection", e)
          : new DeviceFault(FaultKind.GARBAGE, "bytes that are no Modbus answer", e);
    }
    silences++;
    if (open.received() > 0) {
      // Half an answer: what comes next cannot be told apart from the rest of it.
      close();
      return new DeviceFault(FaultKind.NO_ANSWER, "no whole answer within " + timeoutMs + " ms", e);
    }
    if (silences >= MOST_SILENCES) {
      close();
    }
    return new DeviceFault(FaultKind.NO_ANSWER, "no answer within " + timeoutMs + " ms", e);
  }

  private void connect(int timeoutMs) throws DeviceFault {
    if (transport != null) {
      return;
    }
    DeadlineSocket fresh = new DeadlineSocket(time);
    try {
      fresh.setTcpNoDelay(true);
      fresh.connect(
          new InetSocketAddress(InetAddress.getByName(link.host()), link.port()), timeoutMs);
      fresh.until(time.nanos() + timeoutMs * 1_000_000L);
      transport = new ModbusTCPTransport(fresh);
      socket = fresh;
      silences = 0;
    } catch (IOException | IllegalStateException e) {
      try {
        fresh.close();
      } catch (IOException ignored) {
        // It was never open.
        socket = null;
      }
      throw new DeviceFault(FaultKind.UNREACHABLE, link.shared() + ": " + reason(e), e);
    }
  }

  private static String reason(Exception e) {
    if (e instanceof UnknownHostException) {
      return "no such host";
    }
    if (e instanceof SocketTimeoutException) {
      return "does not answer at all";
    }
    return e instanceof ConnectException ? "nobody listens there" : "cannot be connected to";
  }

  @Override
  public void close() {
    DeadlineSocket open = socket;
    socket = null;
    transport = null;
    if (open != null) {
      try {
        open.close();
      } catch (IOException e) {
        // It is given up either way.
        socket = null;
      }
    }
  }
}
