package rampwright.acquisition.watch;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.temporal.ChronoUnit;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.device.Timekeeper;

/**
 * A log that never takes more room than it may: a full file is put aside as {@code .1}, the older
 * ones move up, the oldest goes. A disk that takes nothing stops nobody.
 */
public final class RotatingLog {
  private static final int REMEMBERED = 20;
  private static final int LONGEST_LINE = 1000;

  private final @Nullable Path file;
  private final long mostBytes;
  private final int keep;
  private final Timekeeper time;
  private final Consumer<String> talk;
  private final Deque<String> newest = new ArrayDeque<>();
  private boolean broken;

  /**
   * A log.
   *
   * @param file null for none on disk
   * @param mostBytes size at which a file is put aside
   * @param keep how many are kept aside
   * @param talk gets every line too
   */
  public RotatingLog(
      @Nullable Path file, long mostBytes, int keep, Timekeeper time, Consumer<String> talk) {
    this.file = file;
    this.mostBytes = mostBytes;
    this.keep = keep;
    this.time = time;
    this.talk = talk;
  }

  /** Adds a line. */
  public synchronized void say(String text) {
    String clean = text.replaceAll("\\p{Cntrl}", "?");
    String line =
        time.utc().truncatedTo(ChronoUnit.SECONDS)
            + " "
            + (clean.length() > LONGEST_LINE ? clean.substring(0, LONGEST_LINE) : clean);
    newest.addLast(line);
    if (newest.size() > REMEMBERED) {
      newest.removeFirst();
    }
    talk.accept(line);
    Path path = file;
    if (path == null) {
      return;
    }
    try {
      if (Files.exists(path) && Files.size(path) >= mostBytes) {
        turn(path);
      }
      Files.writeString(
          path,
          line + "\n",
          StandardCharsets.UTF_8,
          StandardOpenOption.CREATE,
          StandardOpenOption.APPEND);
      broken = false;
    } catch (IOException e) {
      if (!broken) {
        broken = true;
        talk.accept("the log " + path + " cannot be written: " + e);
      }
    }
  }

  private void turn(Path path) throws IOException {
    for (int i = keep; i >= 1; i--) {
      Path from = i == 1 ? path : aside(path, i - 1);
      if (Files.exists(from)) {
        Files.move(from, aside(path, i), StandardCopyOption.REPLACE_EXISTING);
      }
    }
    Files.deleteIfExists(path);
  }

  private static Path aside(Path path, int number) {
    return path.resolveSibling(path.getFileName() + "." + number);
  }

  /** The newest lines, oldest first. */
  public synchronized List<String> newest() {
    return List.copyOf(newest);
  }
}
