package rampwright.acquisition.modbus;

import com.ghgande.j2mod.modbus.ModbusIOException;
import com.ghgande.j2mod.modbus.io.ModbusRTUTransport;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import java.io.IOException;
import java.util.concurrent.locks.LockSupport;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.device.RegisterPort;
import rampwright.acquisition.device.Timekeeper;
import rampwright.acquisition.map.Link;
import rampwright.acquisition.map.SerialSettings;

/**
 * Modbus RTU. An answer on a serial line carries no number of its question. So after a silence the
 * line is listened to for as long again before anything is asked; and the first answer after it is
 * believed only when no other follows, which would show it to be the late one. A device that is
 * later still and then leaves a question out cannot be told from one that answers in time.
 */
public final class RtuPort implements RegisterPort {
  /**
   * Above 19200 baud the pause between frames is fixed (Modbus over serial line V1.02, 2.5.1.1).
   */
  private static final int FIXED_ABOVE_BAUD = 19200;

  private static final long FIXED_PAUSE_NS = 1_750_000;

  /** A device that works off what it was asked takes no longer for the second answer than this. */
  private static final double TRIPS_OBSERVED = 3;

  private static final double NEWEST_SHARE = 0.1;

  private final SerialSettings settings;
  private final Timekeeper time;
  private final DeadlineSerial line;
  private final ModbusRTUTransport transport = new ModbusRTUTransport();
  private final long pauseNs;
  private long quietFromNs = Long.MIN_VALUE;

  /** A question was met with silence, and its answer may still come. */
  private boolean owed;

  /** Question to answer, running mean. */
  private double usualTripNs;

  /** A port of this machine; nothing is opened yet. */
  public RtuPort(Link.Rtu link, Timekeeper time) {
    this(link, new JSerialWire(link.serial()), time);
  }

  RtuPort(Link.Rtu link, SerialWire wire, Timekeeper time) {
    this.settings = link.serial();
    this.time = time;
    this.line = new DeadlineSerial(settings, wire, time);
    this.pauseNs =
        settings.baud() > FIXED_ABOVE_BAUD
            ? FIXED_PAUSE_NS
            : settings.lineTimeNs(7) / 2; // 3.5 characters
    try {
      transport.setCommPort(line);
    } catch (IOException e) {
      throw new IllegalStateException("a closed port cannot fail to be noted", e);
    }
  }

  @Override
  public Answer read(int unit, int function, int address, int count, int timeoutMs)
      throws DeviceFault {
    ReadQuestion question = new ReadQuestion(unit, function, address, count);
    try {
      line.open();
    } catch (IOException e) {
      throw new DeviceFault(FaultKind.UNREACHABLE, String.valueOf(e.getMessage()), e);
    }
    pause();
    long timeoutNs = timeoutMs * 1_000_000L;
    long askedNs = time.nanos();
    // The question's own time on the line is not the device's.
    line.until(askedNs + settings.lineTimeNs(8) + timeoutNs);
    try {
      transport.writeRequest(question.message());
      ModbusResponse response = transport.readResponse();
      long answeredNs = time.nanos();
      int[] words = question.answer(response);
      believe(answeredNs - askedNs, timeoutNs);
      return new Answer(words, askedNs, answeredNs);
    } catch (ModbusIOException e) {
      throw failed(e, timeoutMs);
    } catch (DeviceFault fault) {
      line.drain(pauseNs, time.nanos() + timeoutNs);
      throw fault;
    } catch (IndexOutOfBoundsException | IllegalArgumentException | NullPointerException e) {
      // The library takes lengths from the wire as they are.
      line.drain(pauseNs, time.nanos() + timeoutNs);
      throw new DeviceFault(FaultKind.GARBAGE, "bytes that are no Modbus answer", e);
    } finally {
      quietFromNs = time.nanos();
    }
  }

  /**
   * After a silence, waits whether the answer that has come is followed by another.
   *
   * @throws DeviceFault when it is: then it was the one that was owed
   */
  private void believe(long tripNs, long timeoutNs) throws DeviceFault {
    if (owed) {
      double waitNs = usualTripNs == 0 ? (double) timeoutNs : TRIPS_OBSERVED * usualTripNs;
      if (line.hearsWithin(Math.round(Math.min(waitNs, (double) timeoutNs)))) {
        throw new DeviceFault(
            FaultKind.WRONG_ANSWER, "a late answer to the question before; two came for one");
      }
      owed = false;
    }
    usualTripNs += ((double) tripNs - usualTripNs) * (usualTripNs == 0 ? 1 : NEWEST_SHARE);
  }

  private DeviceFault failed(ModbusIOException e, int timeoutMs) {
    long now = time.nanos();
    if (line.isGone()) {
      owed = false;
      close();
      return new DeviceFault(
          FaultKind.LOST, "serial port " + settings.port() + " is gone; is the cable in?", e);
    }
    if (String.valueOf(e.getMessage()).contains("CRC Error")) {
      line.drain(pauseNs, now + timeoutMs * 1_000_000L);
      return new DeviceFault(FaultKind.BAD_CHECK, "checksum of the answer is wrong", e);
    }
    if (line.received() == 0) {
      // A late answer must be over before the next question.
      owed = true;
      line.drain(timeoutMs * 1_000_000L, now + timeoutMs * 1_000_000L);
      return new DeviceFault(FaultKind.NO_ANSWER, "no answer within " + timeoutMs + " ms", e);
    }
    line.drain(pauseNs, now + timeoutMs * 1_000_000L);
    return new DeviceFault(
        FaultKind.GARBAGE, "no whole Modbus answer within " + timeoutMs + " ms", e);
  }

  /** Frames are told apart by the silence before them. */
  private void pause() {
    if (quietFromNs == Long.MIN_VALUE) {
      return;
    }
    long left = quietFromNs + pauseNs - time.nanos();
    while (left > 0) {
      LockSupport.parkNanos(this, left);
      left = quietFromNs + pauseNs - time.nanos();
    }
  }

  @Override
  public void close() {
    line.close();
  }
}
