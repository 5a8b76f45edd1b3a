package rampwright.app.cli;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.record.LiveView;

/**
 * The live picture of a recording: on the terminal's other page where a person watches, so that
 * what stood there before comes back; else a line when the state changes and every few seconds.
 */
final class LiveScreen implements AutoCloseable {
  private static final String OPEN = "\u001b[?1049h\u001b[?25l\u001b[2J";
  private static final String CLOSE = "\u001b[?25h\u001b[?1049l";
  private static final String HOME = "\u001b[H";
  private static final String REST_OF_LINE = "\u001b[K\n";
  private static final String REST_OF_PAGE = "\u001b[J";

  private static final double PLAIN_EVERY_S = 5;

  private final Screen screen;
  private final LiveFrame frame;
  private boolean open;
  private LiveView.@Nullable Phase phase;
  private double saidAtS = Double.NEGATIVE_INFINITY;
  private @Nullable String said;

  LiveScreen(Screen screen, LiveFrame frame) {
    this.screen = screen;
    this.frame = frame;
  }

  void show(LiveView view) {
    if (screen.isInteractive()) {
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
    List<String> lines = frame.lines(view);
    StringBuilder picture = new StringBuilder(open ? HOME : OPEN + HOME);
    open = true;
    lines.forEach(line -> picture.append(line).append(REST_OF_LINE));
    screen.paint(picture.append(REST_OF_PAGE).toString());
  }

  @Override
  public void close() {
    if (open) {
      open = false;
      screen.paint(CLOSE);
    }
  }
}
