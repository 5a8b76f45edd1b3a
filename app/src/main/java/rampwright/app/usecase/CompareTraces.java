package rampwright.app.usecase;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.app.result.Comparison;

/** Sets two traces side by side, figure by figure and as a difference chart. */
public final class CompareTraces {
  private final TraceFileDoor door;
  private final Analyzer analyzer;
  private final ChartRenderer charts;
  private final String toolVersion;

  public CompareTraces(
      TraceFileDoor door, Analyzer analyzer, ChartRenderer charts, String toolVersion) {
    this.door = door;
    this.analyzer = analyzer;
    this.charts = charts;
    this.toolVersion = toolVersion;
  }

  /** Whether what was named is two traces, rather than trials to hold against an envelope. */
  public static boolean isPair(List<Path> named) {
    return named.size() == 2
        && FindTrials.isSingle(named.subList(0, 1))
        && FindTrials.isSingle(named.subList(1, 2));
  }

  /**
   * Compares a pair.
   *
   * @param chart where a difference chart goes; null for none
   */
  public Comparison run(List<Path> pair, InputChoice choice, @Nullable Path chart, ChartSize size)
      throws InputProblem, UsageProblem {
    List<TrialReader.Read> both =
        ChartTrials.readAll(new TrialReader(door, analyzer, toolVersion, choice), pair, choice);
    if (both.size() != 2) {
      throw new UsageProblem("two traces are set side by side, not " + both.size());
    }
    Comparison comparison = Comparison.of(both.get(0).result(), both.get(1).result());
    if (chart != null) {
      try {
        charts.render(
            new ChartRenderer.Request(
                ChartRenderer.Picture.DIFFERENCE,
                both.stream().map(ChartTrials::charted).toList(),
                both.get(0).envelope(),
                size.widthPx(),
                size.heightPx(),
                chart));
      } catch (IOException e) {
        throw InputProblem.of(e, chart);
      }
    }
    return comparison;
  }
}
