package rampwright.app.alert;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** A file that grows by a line for each alert. */
public final class AlertFile implements Teller {
  private final Path file;

  public AlertFile(Path file) {
    this.file = file;
  }

  @Override
  public String id() {
    return "file";
  }

  @Override
  public void tell(String line) throws TellException {
    try (FileChannel channel =
        FileChannel.open(
            file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
      long end = channel.size();
      // A line cut short by a power cut must not swallow the next one.
      ByteBuffer last = ByteBuffer.allocate(1);
      boolean whole = end == 0 || (channel.read(last, end - 1) == 1 && last.get(0) == '\n');
      ByteBuffer bytes =
          ByteBuffer.wrap(((whole ? "" : "\n") + line + "\n").getBytes(StandardCharsets.UTF_8));
      long at = end;
      while (bytes.hasRemaining()) {
        at += channel.write(bytes, at);
      }
      channel.force(true);
    } catch (IOException e) {
      throw new TellException(
          file
              + ": an alert could not be written: "
              + e.getMessage()
              + "; check folder and rights");
    }
  }
}
