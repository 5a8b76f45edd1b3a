package rampwright.app.cli;

import java.util.Locale;
import rampwright.app.usecase.Progress;

/**
 * Progress as a bar on one line where a person watches; elsewhere failures are said as they come,
 * and long work says each tenth. Short work shows nothing.
 */
final class ProgressLine implements Progress {
  private static final int WIDTH = 30;
  private static final int FEWEST_SHOWN = 4;

  /** So many are worth a line for each tenth where nobody watches a bar. */
  private static final int FEWEST_COUNTED = 500;

  private static final int PARTS = 10;

  private final Screen screen;
  private int total;
  private int done;
  private int failed;

  ProgressLine(Screen screen) {
    this.screen = screen;
  }

  @Override
  public synchronized void begun(int all) {
    total = all;
    done = 0;
    failed = 0;
  }

  @Override
  public synchronized void done(String name, boolean isFailed) {
    done++;
    failed += isFailed ? 1 : 0;
    if (!screen.isInteractive()) {
      if (isFailed && total >= FEWEST_SHOWN) {
        screen.say("not read: " + name);
      }
      boolean nextPart = PARTS * done / total > PARTS * (done - 1) / total;
      if (total >= FEWEST_COUNTED && nextPart) {
        screen.say(done + " of " + total);
      }
      return;
    }
    if (total < FEWEST_SHOWN) {
      return;
    }
    int filled = WIDTH * done / total;
    screen.overwrite(
        String.format(
            Locale.ROOT,
            "[%s%s] %d of %d%s",
            "#".repeat(filled),
            ".".repeat(WIDTH - filled),
            done,
            total,
            failed == 0 ? "" : ", " + failed + " not read"));
  }

  @Override
  public synchronized void ended() {
    if (screen.isInteractive() && total >= FEWEST_SHOWN) {
      screen.say("");
    }
  }
}
