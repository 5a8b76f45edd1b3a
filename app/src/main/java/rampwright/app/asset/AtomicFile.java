package rampwright.app.asset;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
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
    if (!Files.exists(folder)) {
      // A person has never heard of the file that is written first.
      throw new NoSuchFileException(folder.toString());
    }
    // Not Files.createTempFile: its files are for the owner's eyes only, and the move keeps that.
    Path temporary =
        folder.resolve(
            "."
                + whole.getFileName()
                + "."
                + ProcessHandle.current().pid()
                + "-"
                + SERIAL.incrementAndGet()
                + ".part");
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
}
