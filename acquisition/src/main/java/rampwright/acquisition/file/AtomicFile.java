package rampwright.acquisition.file;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Writes a file whole or not at all: a reader never sees half of it, a crash leaves the old one.
 */
public final class AtomicFile {
  private static final AtomicLong SERIAL = new AtomicLong();

  private AtomicFile() {}

  /** Replaces the file's content. */
  public static void write(Path path, byte[] content) throws IOException {
    Path whole = path.toAbsolutePath();
    Path folder = whole.getParent();
    if (folder == null) {
      throw new FileSystemException(path.toString(), null, "names no file");
    }
    if (!Files.isDirectory(folder)) {
      throw new FileSystemException(
          path.toString(), null, "there is no folder " + folder + "; make it, or name another");
    }
    Path temporary = part(folder, String.valueOf(whole.getFileName()));
    try {
      try (FileChannel channel =
          FileChannel.open(temporary, StandardOpenOption.WRITE, StandardOpenOption.CREATE_NEW)) {
        ByteBuffer buffer = ByteBuffer.wrap(content);
        while (buffer.hasRemaining()) {
          channel.write(buffer);
        }
        channel.force(true);
      }
      try {
        Files.move(temporary, whole, StandardCopyOption.ATOMIC_MOVE);
      } catch (AtomicMoveNotSupportedException e) {
        Files.move(temporary, whole, StandardCopyOption.REPLACE_EXISTING);
      }
    } finally {
      Files.deleteIfExists(temporary);
    }
  }

  /**
   * The name under which a file is written before it is whole, hidden and in the same folder. Not
   * Files.createTempFile: its files are for the owner's eyes only, and the move keeps that.
   */
  static Path part(Path folder, String name) {
    return folder.resolve(
        "."
            + name
            + "."
            + ProcessHandle.current().pid()
            + "-"
            + SERIAL.incrementAndGet()
            + ".part");
  }

  /** Returns once what a file holds would survive a loss of power. */
  public static void force(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }

  /** The same for the names in a folder; where the system knows no such thing, nothing is done. */
  public static void forceNames(Path folder) {
    try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
      channel.force(true);
    } catch (IOException e) {
      // Some systems do not open folders; there the names are the system's affair.
      return;
    }
  }
}
