package rampwright.acquisition.file;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;
import org.jspecify.annotations.Nullable;

/**
 * The sole right to read a small file, change it and write it back, among programs that ask for it
 * as well. It lies in a hidden file beside; the system takes it back from a program that dies.
 */
public final class UpdateLock implements AutoCloseable {
  private static final AtomicLong SERIAL = new AtomicLong();
  private static final long PATIENCE_NS = TimeUnit.SECONDS.toNanos(10);
  private static final long PAUSE_NS = TimeUnit.MILLISECONDS.toNanos(20);

  private final Path path;
  private final FileChannel channel;
  private final FileLock lock;

  private UpdateLock(Path path, FileChannel channel, FileLock lock) {
    this.path = path;
    this.channel = channel;
    this.lock = lock;
  }

  /**
   * Waits for the right to change a file.
   *
   * @throws IOException when the folder cannot be written to, or another program keeps the right
   *     for ten seconds
   */
  public static UpdateLock of(Path file) throws IOException {
    Path whole = file.toAbsolutePath();
    Path path = whole.resolveSibling("." + whole.getFileName() + ".lock");
    for (long waitedNs = 0; waitedNs < PATIENCE_NS; waitedNs += PAUSE_NS) {
      UpdateLock lock = once(path);
      if (lock != null) {
        return lock;
      }
      LockSupport.parkNanos(PAUSE_NS);
    }
    throw new FileSystemException(
        file.toString(),
        null,
        "another program is changing it; end that program, or take "
            + path
            + " away, and try again");
  }

  private static @Nullable UpdateLock once(Path path) throws IOException {
    FileChannel channel =
        FileChannel.open(path, StandardOpenOption.WRITE, StandardOpenOption.CREATE);
    try {
      FileLock lock = channel.tryLock();
      if (lock != null && isStillThere(path, channel)) {
        return new UpdateLock(path, channel, lock);
      }
    } catch (OverlappingFileLockException | NoSuchFileException taken) {
      // Another thread of this program has it, or it was taken away just now.
    } catch (IOException | RuntimeException e) {
      channel.close();
      throw e;
    }
    channel.close();
    return null;
  }

  /** Whoever had the right takes the file away when he is done; a lock on what is gone is none. */
  private static boolean isStillThere(Path path, FileChannel channel) throws IOException {
    String token = ProcessHandle.current().pid() + "-" + SERIAL.incrementAndGet() + "\n";
    channel.truncate(0);
    channel.write(ByteBuffer.wrap(token.getBytes(StandardCharsets.US_ASCII)));
    return Files.readString(path, StandardCharsets.US_ASCII).equals(token);
  }

  @Override
  public void close() throws IOException {
    try {
      Files.deleteIfExists(path);
    } catch (FileSystemException stillOpen) {
      // Some systems take no open file away; it is empty and does no harm.
    }
    lock.release();
    channel.close();
  }
}
