package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.AnalyzedTrace;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.trace.Trace;
import rampwright.app.envelope.Envelope;
import rampwright.app.envelope.Verdict;

/** Port: pictures of trials. */
public interface ChartRenderer {
  /** Draws and writes the picture; the target's ending, png or svg, says how. */
  void render(Request request) throws IOException;

  /** What is drawn. */
  enum Picture {
    /** One trial with its instants, figures in a side panel, corridors. */
    TRIAL,
    /** The line voltages of one trial around its start. */
    DIP,
    /** Several trials aligned at inception. */
    OVERLAY,
    /** Two trials aligned at inception, and their difference. */
    DIFFERENCE
  }

  /**
   * What to draw.
   *
   * @param picture the kind of picture
   * @param trials at least one; for a difference two
   * @param envelope corridors and limits to show; may be empty
   * @param widthPx width of the picture
   * @param heightPx its height
   * @param target the file
   */
  record Request(
      Picture picture,
      List<Charted> trials,
      Envelope envelope,
      int widthPx,
      int heightPx,
      Path target) {
    public Request {
      trials = List.copyOf(trials);
      if (trials.isEmpty() || (picture == Picture.DIFFERENCE && trials.size() != 2)) {
        throw new IllegalArgumentException(picture + " of " + trials.size() + " trials");
      }
    }
  }

  /**
   * One trial to draw.
   *
   * @param name what to call it
   * @param trace its samples
   * @param analyzed what was found in it
   * @param motor rated values its axes may refer to
   * @param verdict the verdict on its first start; null when there is none
   */
  record Charted(
      String name,
      Trace trace,
      AnalyzedTrace analyzed,
      MotorContext motor,
      @Nullable Verdict verdict) {}
}
