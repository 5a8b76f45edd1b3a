package rampwright.acquisition.file;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.FileSystemException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.jspecify.annotations.Nullable;

/**
 * The sole right to read a small file of a folder, change it and write it back, among programs that
 * ask for it as well. An empty hidden file in the folder carries it and stays there; the system
 * takes the right back from a program that dies.
 */
public final class UpdateLock implements AutoCloseable {
  /** The file that carries the right. */
  public static final String NAME = ".rampwright.lock";

  private static final long PATIENCE_NS = TimeUnit.SECONDS.toNanos(10);
  private static final long PAUSE_NS = TimeUnit.MILLISECONDS.toNanos(20);

  // On some systems a program loses its lock when it closes the file anywhere, so it may be open
  // but once in a program.
  private static final Set<Path> HERE = ConcurrentHashMap.newKeySet();

  private final Path path;
  private final FileChannel channel;
  private final FileLock lock;

  private UpdateLock(Path path, FileChannel channel, FileLock lock) {
    this.path = path;
    this.channel = channel;
    this.lock = lock;
  }

  /**
   * Waits for the right to change files of a folder.
   *
   * @throws IOException when the folder cannot be written to, or another program keeps the right
   *     for ten seconds
   */
  public static UpdateLock of(Path folder) throws IOException {
    Path path = folder.toRealPath().resolve(NAME);
    for (long waitedNs = 0; waitedNs < PATIENCE_NS; waitedNs += PAUSE_NS) {
      UpdateLock lock = once(path);
      if (lock != null) {
        return lock;
      }
      LockSupport.parkNanos(PAUSE_NS);
    }
    throw new FileSystemException(
        folder.toString(), null, "another program is changing it; end that program and try again");
  }

  private static @Nullable UpdateLock once(Path path) throws IOException {
    if (!HERE.add(path)) {
      return null;
    }
    FileChannel channel = null;
    FileLock lock = null;
    try {
      channel = FileChannel.open(path, StandardOpenOption.WRITE, StandardOpenOption.CREATE);
      lock = channel.tryLock();
      return lock == null ? null : new UpdateLock(path, channel, lock);
    } finally {
      if (lock == null) {
        if (channel != null) {
          channel.close();
        }
        HERE.remove(path);
      }
    }
  }

  @Override
  public void close() throws IOException {
    try {
      lock.release();
      channel.close();
    } finally {
      HERE.remove(path);
    }
  }
}
