package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;
import rampwright.app.ready.Readiness;

/** Draws the torque of motor and load along the run-up. */
public final class ChartReadiness {
  private final ReadinessRenderer renderer;

  public ChartReadiness(ReadinessRenderer renderer) {
    this.renderer = renderer;
  }

  /** Port: pictures of readiness. */
  public interface ReadinessRenderer {
    /** Draws and writes the picture; the target's ending says how. */
    void render(Readiness readiness, Path target, ChartSize size) throws IOException;
  }

  /**
   * Draws the run-up.
   *
   * @throws UsageProblem when no settings are known, so that there is no run-up
   */
  public void run(Readiness readiness, Path target, ChartSize size)
      throws InputProblem, UsageProblem {
    ChartTrials.checkEnding(target);
    if (readiness.course() == null) {
      throw new UsageProblem(
          "--chart draws the run-up, which needs settings; name them with --settings FILE");
    }
    try {
      renderer.render(readiness, target, size);
    } catch (IOException e) {
      throw InputProblem.of(e, target);
    }
  }
}
