package rampwright.app.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * How large a terminal is now.
 *
 * @param columns characters a line
 * @param rows lines
 */
record TerminalSize(int columns, int rows) {
  private static final long LONGEST_MS = 500;
  private static final int LARGEST = 1000;

  /** Tells the size; null where it cannot be told. */
  interface Source {
    @Nullable TerminalSize now();
  }

  /**
   * Asks the system's own program; shells do not hand their columns on, and resizing changes them.
   */
  static @Nullable TerminalSize ofTerminal() {
    try {
      Process stty =
          new ProcessBuilder("stty", "size")
              .redirectInput(ProcessBuilder.Redirect.INHERIT)
              .redirectError(ProcessBuilder.Redirect.DISCARD)
              .start();
      if (!stty.waitFor(LONGEST_MS, TimeUnit.MILLISECONDS)) {
        stty.destroyForcibly();
        return null;
      }
      return parse(new String(stty.getInputStream().readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      return null;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return null;
    }
  }

  /** Rows and columns as the program prints them; null for anything else. */
  static @Nullable TerminalSize parse(String said) {
    String[] words = said.strip().split("\\s+", -1);
    try {
      int rows = words.length == 2 ? Integer.parseInt(words[0]) : 0;
      int columns = words.length == 2 ? Integer.parseInt(words[1]) : 0;
      boolean likely = rows > 0 && columns > 0 && rows <= LARGEST && columns <= LARGEST;
      return likely ? new TerminalSize(columns, rows) : null;
    } catch (NumberFormatException e) {
      return null;
    }
  }
}
