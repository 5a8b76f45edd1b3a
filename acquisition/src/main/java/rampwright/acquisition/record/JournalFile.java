package rampwright.acquisition.record;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.jspecify.annotations.Nullable;

/** The bytes of a journal on disk. A seam, so that a test can let the disk be full. */
interface JournalFile {
  /** Appends all of it or, after an error, as if nothing had been appended. */
  void append(byte[] bytes) throws IOException;

  /** Returns once what was appended is on disk. */
  void force() throws IOException;

  /** Throws everything away that was appended. */
  void clear() throws IOException;

  void close() throws IOException;

  /** Opens files for journals. */
  @FunctionalInterface
  interface Opener {
    JournalFile open(Path path) throws IOException;
  }

  /** A new file; nobody else may hold it. */
  static JournalFile create(Path path) throws IOException {
    FileChannel channel =
        FileChannel.open(path, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    FileLock lock = lock(channel);
    if (lock == null) {
      channel.close();
      throw new IOException(path + " is being written by another process");
    }
    return new JournalFile() {
      private long good;

      @Override
      public void append(byte[] bytes) throws IOException {
        ByteBuffer buffer = ByteBuffer.wrap(bytes);
        try {
          while (buffer.hasRemaining()) {
            if (channel.write(buffer, good + buffer.position()) == 0) {
              throw new IOException(path + ": the disk takes no more");
            }
          }
          good += bytes.length;
        } catch (IOException e) {
          channel.truncate(good);
          throw e;
        }
      }

      @Override
      public void force() throws IOException {
        channel.force(false);
      }

      @Override
      public void clear() throws IOException {
        channel.truncate(0);
        good = 0;
      }

      @Override
      public void close() throws IOException {
        channel.close();
      }
    };
  }

  /** The lock of a journal that nobody writes; null while somebody does. */
  static @Nullable FileLock lock(FileChannel channel) throws IOException {
    try {
      return channel.tryLock();
    } catch (OverlappingFileLockException e) {
      return null;
    }
  }
}
