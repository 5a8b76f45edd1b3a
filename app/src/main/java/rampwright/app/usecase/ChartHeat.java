package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;
import rampwright.app.result.HeatResult;

/** Draws a heat account against time, with the coming wait. */
public final class ChartHeat {
  private final HeatRenderer renderer;

  public ChartHeat(HeatRenderer renderer) {
    this.renderer = renderer;
  }

  /** Port: pictures of heat accounts. */
  public interface HeatRenderer {
    /** Draws and writes the picture; the target's ending says how. */
    void render(HeatResult result, Path target, ChartSize size) throws IOException;
  }

  /** Draws an account. */
  public void run(HeatResult result, Path target, ChartSize size)
      throws InputProblem, UsageProblem {
    ChartTrials.checkEnding(target);
    try {
      renderer.render(result, target, size);
    } catch (IOException e) {
      throw InputProblem.of(e, target);
    }
  }
}
