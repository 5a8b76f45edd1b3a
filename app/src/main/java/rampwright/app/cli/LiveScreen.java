package rampwright.app.cli;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.record.LiveView;

/**
 * The live picture of a recording: on the terminal's other page where a person watches, so that
 * what stood there before comes back; else a line when the state changes and every few seconds.
 */
final class LiveScreen implements AutoCloseable {
  /** Another page, no cursor, no breaking of lines that a smaller window cuts off. */
  private static final String OPEN = "\u001b[?1049h\u001b[?25l\u001b[?7l\u001b[2J";

  private static final String CLOSE = "\u001b[?7h\u001b[?25h\u001b[?1049l";
  private static final String HOME = "\u001b[H";
  private static final String REST_OF_LINE = "\u001b[K";
  private static final String REST_OF_PAGE = "\u001b[J";

  private static final double PLAIN_EVERY_S = 5;

  /** Pictures between two looks at the terminal's size: about a second. */
  private static final int SIZE_EVERY = 8;

  private final Screen screen;
  private final LiveFrame frame;
  private final TerminalSize.Source sizes;
  private final boolean picture;
  private boolean open;
  private int painted;
  private TerminalSize size = new TerminalSize(Screen.USUAL_WIDTH, 24);
  private LiveView.@Nullable Phase phase;
  private double saidAtS = Double.NEGATIVE_INFINITY;
  private @Nullable String said;

  /**
   * A live screen.
   *
   * @param terminal the kind of terminal as the environment says it; null or "dumb" gets lines
   */
  LiveScreen(Screen screen, LiveFrame frame, TerminalSize.Source sizes, @Nullable String terminal) {
    this.screen = screen;
    this.frame = frame;
    this.sizes = sizes;
    this.picture =
        screen.isInteractive()
            && terminal != null
            && !terminal.isBlank()
            && !terminal.equals("dumb");
  }

  void show(LiveView view) {
    if (picture) {
      paint(view);
      return;
    }
    boolean changed = view.phase() != phase;
    if (changed || Math.abs(view.elapsedS() - saidAtS) >= PLAIN_EVERY_S) {
      phase = view.phase();
      saidAtS = view.elapsedS();
      String line = LiveFrame.plain(view, said);
      if (!line.isEmpty()) {
        said = line;
        screen.say(line);
      }
    }
  }

  private void paint(LiveView view) {
    if (painted++ % SIZE_EVERY == 0) {
      TerminalSize now = sizes.now();
      size = now == null ? size : now;
    }
    List<String> lines = frame.lines(view, size);
    StringBuilder page = new StringBuilder(open ? HOME : OPEN + HOME);
    open = true;
    for (int i = 0; i < lines.size(); i++) {
      // No line feed after the last: at the foot of the window it would move everything up.
      page.append(i == 0 ? "" : "\n").append(lines.get(i)).append(REST_OF_LINE);
    }
    screen.paint(page.append(REST_OF_PAGE).toString());
  }

  @Override
  public void close() {
    if (open) {
      open = false;
      screen.paint(CLOSE);
    }
  }
}
