package rampwright.acquisition.modbus;

import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.concurrent.CopyOnWriteArrayList;

/** A Modbus TCP peer that sees raw bytes and answers with raw bytes, as odd as a test wants. */
final class RawServer implements AutoCloseable {
  /** What is done with one question. */
  @FunctionalInterface
  interface Script {
    void answer(byte[] frame, int turn, OutputStream out) throws IOException, InterruptedException;
  }

  private final ServerSocket listener;
  private final Script script;
  private final Thread acceptor;
  private final CopyOnWriteArrayList<byte[]> frames = new CopyOnWriteArrayList<>();
  private final CopyOnWriteArrayList<Socket> open = new CopyOnWriteArrayList<>();

  RawServer(Script script) throws IOException {
    this(0, script);
  }

  RawServer(int port, Script script) throws IOException {
    this.script = script;
    listener = new ServerSocket();
    listener.setReuseAddress(true);
    listener.bind(new java.net.InetSocketAddress(InetAddress.getLoopbackAddress(), port));
    acceptor = new Thread(this::accept, "raw server");
    acceptor.setDaemon(true);
    acceptor.start();
  }

  int port() {
    return listener.getLocalPort();
  }

  /** Every frame that was received, header included. */
  CopyOnWriteArrayList<byte[]> frames() {
    return frames;
  }

  private void accept() {
    while (!listener.isClosed()) {
      try {
        Socket socket = listener.accept();
        open.add(socket);
        if (listener.isClosed()) {
          // One connection may still slip through while the listener closes.
          socket.close();
        }
        Thread thread = new Thread(() -> serve(socket), "raw server connection");
        thread.setDaemon(true);
        thread.start();
      } catch (IOException e) {
        return;
      }
    }
  }

  private void serve(Socket socket) {
    try (socket) {
      DataInputStream in = new DataInputStream(socket.getInputStream());
      while (true) {
        byte[] head = in.readNBytes(6);
        if (head.length < 6) {
          return;
        }
        int length = (head[4] & 0xff) << 8 | head[5] & 0xff;
        ByteArrayOutputStream frame = new ByteArrayOutputStream();
        frame.writeBytes(head);
        frame.writeBytes(in.readNBytes(length));
        frames.add(frame.toByteArray());
        script.answer(frame.toByteArray(), frames.size(), socket.getOutputStream());
      }
    } catch (IOException | InterruptedException e) {
      // The other side has gone; so does this one.
      return;
    }
  }

  /** A right answer: register k of the question holds address + k. */
  static byte[] answer(byte[] question) {
    int address = (question[8] & 0xff) << 8 | question[9] & 0xff;
    int count = (question[10] & 0xff) << 8 | question[11] & 0xff;
    boolean bits = question[7] <= 2;
    int bytes = bits ? (count + 7) / 8 : 2 * count;
    byte[] out = new byte[9 + bytes];
    System.arraycopy(question, 0, out, 0, 4);
    out[4] = (byte) ((bytes + 3) >> 8);
    out[5] = (byte) (bytes + 3);
    out[6] = question[6];
    out[7] = question[7];
    out[8] = (byte) bytes;
    for (int i = 0; i < count; i++) {
      if (bits) {
        out[9 + i / 8] |= (byte) ((address + i) % 3 == 0 ? 1 << i % 8 : 0);
      } else {
        out[9 + 2 * i] = (byte) ((address + i) >> 8);
        out[10 + 2 * i] = (byte) (address + i);
      }
    }
    return out;
  }

  @Override
  public void close() throws IOException {
    listener.close();
    boolean interrupted = false;
    try {
      acceptor.join();
    } catch (InterruptedException e) {
      interrupted = true;
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
    for (Socket socket : open) {
      socket.close();
    }
  }
}
