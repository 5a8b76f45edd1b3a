package rampwright.app.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.Charset;
import java.util.Locale;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;

/** Lines a person types while something runs, read by a thread that never holds the program up. */
final class KeyWords {
  private final BlockingQueue<String> typed = new LinkedBlockingQueue<>(100);

  /** Begins to listen to standard input. */
  KeyWords() {
    Thread thread = new Thread(this::listen, "keys");
    thread.setDaemon(true);
    thread.start();
  }

  private void listen() {
    try (BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset()))) {
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        if (!typed.offer(line.strip().toLowerCase(Locale.ROOT))) {
          return;
        }
      }
    } catch (IOException e) {
      // Nobody types any more.
      typed.clear();
    }
  }

  /** What was typed; empty when nothing came within the time. */
  String next(int waitMs) throws InterruptedException {
    String line = typed.poll(waitMs, TimeUnit.MILLISECONDS);
    return line == null ? "" : line;
  }
}
