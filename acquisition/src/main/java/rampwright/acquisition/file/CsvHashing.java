package rampwright.acquisition.file;

import java.io.IOException;
import java.io.InputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import org.jspecify.annotations.Nullable;

/**
 * A stream that takes the SHA-256 of all that passes through it, on another thread once there is
 * more than a little, so that hashing a large file does not wait for parsing it nor the reverse.
 */
final class CsvHashing extends InputStream {
  private static final int PIECE = 1 << 18;
  private static final int PIECES = 4;

  /** A run of bytes on its way to the digest. */
  private static final class Piece {
    private final byte[] bytes;
    private final int count;

    Piece(byte[] bytes, int count) {
      this.bytes = bytes;
      this.count = count;
    }
  }

  private final InputStream in;
  private final MessageDigest digest;
  private final BlockingQueue<Piece> full = new ArrayBlockingQueue<>(PIECES);
  private final BlockingQueue<byte[]> empty = new ArrayBlockingQueue<>(PIECES);
  private byte[] piece = new byte[PIECE];
  private int pieceEnd;
  private int pieceAt;
  private @Nullable Thread worker;
  private volatile boolean abandoned;

  CsvHashing(InputStream in) {
    this.in = in;
    try {
      this.digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
  }

  @Override
  public int read(byte[] into, int from, int count) throws IOException {
    if (pieceAt == pieceEnd && !nextPiece()) {
      return -1;
    }
    int given = Math.min(count, pieceEnd - pieceAt);
    System.arraycopy(piece, pieceAt, into, from, given);
    pieceAt += given;
    return given;
  }

  private boolean nextPiece() throws IOException {
    if (pieceEnd > 0) {
      passOn();
    }
    pieceAt = 0;
    pieceEnd = Math.max(0, in.readNBytes(piece, 0, PIECE));
    return pieceEnd > 0;
  }

  private void passOn() throws IOException {
    if (worker == null && pieceEnd < PIECE) {
      digest.update(piece, 0, pieceEnd);
      return;
    }
    if (worker == null) {
      worker = new Thread(this::digestAll, "trace-file-sha256");
      worker.setDaemon(true);
      worker.start();
      for (int i = 1; i < PIECES; i++) {
        empty.add(new byte[PIECE]);
      }
    }
    try {
      full.put(new Piece(piece, pieceEnd));
      piece = empty.take();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("reading was cancelled", e);
    }
  }

  private void digestAll() {
    try {
      for (Piece next = full.take(); next.count > 0 && !abandoned; next = full.take()) {
        digest.update(next.bytes, 0, next.count);
        empty.put(next.bytes);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Lower-case hex of the digest of the whole stream, the rest of which is read. */
  String sha256() throws IOException {
    while (nextPiece()) {
      pieceAt = pieceEnd;
    }
    Thread running = worker;
    if (running != null) {
      try {
        full.put(new Piece(piece, 0));
        running.join();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IOException("reading was cancelled", e);
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  @Override
  public void close() throws IOException {
    abandoned = true;
    Thread running = worker;
    if (running != null) {
      running.interrupt();
    }
    in.close();
  }
}
