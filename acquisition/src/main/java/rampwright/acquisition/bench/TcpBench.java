package rampwright.acquisition.bench;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;

/**
 * The bench as a Modbus TCP device on 127.0.0.1, unit 1. Nothing can be written to it.
 *
 * <p>Frames: MODBUS Messaging on TCP/IP Implementation Guide V1.0b, 3.1.
 */
public final class TcpBench implements AutoCloseable {
  /** Unit id answered. */
  public static final int UNIT = 1;

  /** A late answer comes after this, ms; maps give up after 300 unless they say otherwise. */
  static final int SLOW_MS = 900;

  /** A client beyond these is turned away. */
  static final int MOST_CLIENTS = 32;

  private static final int HEADER_BYTES = 7;
  private static final int LONGEST = 254;
  private static final int IDLE_MS = 120_000;
  private static final byte[] LOOPBACK = {127, 0, 0, 1};

  private final ServerSocket server = new ServerSocket();
  private final BenchAnswers answers;
  private final FaultDice dice;
  private final Set<Socket> clients = ConcurrentHashMap.newKeySet();
  private volatile boolean closed;

  /**
   * Listens.
   *
   * @param port of 127.0.0.1; 0 = any that is free
   * @throws java.net.BindException when the port is taken or not allowed
   */
  public TcpBench(int port, BenchRegisters registers, FaultDice dice) throws IOException {
    this.answers = new BenchAnswers(registers);
    this.dice = dice;
    try {
      server.bind(new InetSocketAddress(InetAddress.getByAddress(LOOPBACK), port));
    } catch (IOException e) {
      server.close();
      throw e;
    }
    daemon("bench", this::accept);
  }

  /** Address it listens on. */
  InetAddress address() {
    return server.getInetAddress();
  }

  /** Port it listens on. */
  public int port() {
    return server.getLocalPort();
  }

  private static void daemon(String name, Runnable work) {
    Thread thread = new Thread(work, name);
    thread.setDaemon(true);
    thread.start();
  }

  private void accept() {
    while (!closed) {
      try {
        Socket client = server.accept();
        if (closed || clients.size() >= MOST_CLIENTS) {
          client.close();
          continue;
        }
        clients.add(client);
        daemon("bench client", () -> serve(client));
      } catch (IOException e) {
        if (!closed) {
          pause(100);
        }
      }
    }
  }

  private void serve(Socket client) {
    try (client) {
      client.setTcpNoDelay(true);
      client.setSoTimeout(IDLE_MS);
      InputStream in = client.getInputStream();
      OutputStream out = client.getOutputStream();
      DataInputStream frames = new DataInputStream(in);
      byte[] header = new byte[HEADER_BYTES];
      while (!closed) {
        frames.readFully(header);
        int length = BenchAnswers.word(header, 4);
        if (BenchAnswers.word(header, 2) != 0 || length < 2 || length > LONGEST) {
          // What follows cannot be told from the rest of this.
          return;
        }
        byte[] question = new byte[length - 1];
        frames.readFully(question);
        byte[] answer = answer(header, question);
        if (answer.length > 0) {
          out.write(answer);
          out.flush();
        }
      }
    } catch (IOException e) {
      // The client has gone, or the bench has been closed; either ends the connection.
      clients.remove(client);
    } finally {
      clients.remove(client);
    }
  }

  private byte[] answer(byte[] header, byte[] question) {
    int function = question[0] & 0xff;
    byte[] data =
        (header[6] & 0xff) == UNIT
            ? answers.answer(question)
            : BenchAnswers.refusal(function, BenchAnswers.NO_SUCH_UNIT);
    BenchFault fault = dice.next();
    switch (fault) {
      case DROP -> {
        return new byte[0];
      }
      case GARBAGE -> {
        return dice.garbage(HEADER_BYTES + data.length);
      }
      case EXCEPTION -> data = BenchAnswers.refusal(function, BenchAnswers.DEVICE_FAILURE);
      case SLOW -> pause(SLOW_MS);
      case NONE -> {
        // Most answers are right.
      }
    }
    byte[] frame = new byte[HEADER_BYTES + data.length];
    System.arraycopy(header, 0, frame, 0, HEADER_BYTES);
    frame[4] = (byte) ((data.length + 1) >>> 8);
    frame[5] = (byte) (data.length + 1);
    System.arraycopy(data, 0, frame, HEADER_BYTES, data.length);
    return frame;
  }

  private static void pause(int ms) {
    try {
      TimeUnit.MILLISECONDS.sleep(ms);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Stops listening and lets everybody go. */
  @Override
  public void close() throws IOException {
    closed = true;
    server.close();
    for (Socket client : clients) {
      client.close();
    }
  }
}
