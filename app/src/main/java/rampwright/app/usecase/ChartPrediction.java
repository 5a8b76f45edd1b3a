package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;

/** Draws what advice predicts. */
public final class ChartPrediction {
  private final PredictionRenderer renderer;

  public ChartPrediction(PredictionRenderer renderer) {
    this.renderer = renderer;
  }

  /** Port: pictures of predictions. */
  public interface PredictionRenderer {
    /** Draws and writes the picture; the target's ending says how. */
    void render(AdviseAsset.Advised advised, Path target, ChartSize size) throws IOException;
  }

  /** Draws a prediction, with the last trial beside it where there is one. */
  public void run(AdviseAsset.Advised advised, Path target, ChartSize size)
      throws InputProblem, UsageProblem {
    ChartTrials.checkEnding(target);
    try {
      renderer.render(advised, target, size);
    } catch (IOException e) {
      throw InputProblem.of(e, target);
    }
  }
}
