package rampwright.app.cli;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/**
 * Ctrl-C or the system's wish to end, while something runs that must end cleanly: tells it, and
 * holds the program's end up until it has finished.
 */
final class StopSignal {
  /** A trial under way is written in less; longer, and whoever wanted the end helps himself. */
  static final int USUAL_S = 20;

  private final CountDownLatch done = new CountDownLatch(1);
  private final Thread hook;

  /**
   * Begins to watch.
   *
   * @param stop tells the work to end; must not wait
   * @param longestS how long the end is held up at most, s
   */
  StopSignal(Runnable stop, int longestS) {
    hook =
        new Thread(
            () -> {
              stop.run();
              try {
                done.await(longestS, TimeUnit.SECONDS);
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
            },
            "stop");
    Runtime.getRuntime().addShutdownHook(hook);
  }

  /** The work has finished and said what it had to say. */
  void finished() {
    done.countDown();
    try {
      Runtime.getRuntime().removeShutdownHook(hook);
    } catch (IllegalStateException e) {
      // The program is ending already; the hook goes with it.
      return;
    }
  }
}
