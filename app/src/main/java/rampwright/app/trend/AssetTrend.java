package rampwright.app.trend;

import java.util.List;

/**
 * What the figures of one asset do.
 *
 * @param asset its id
 * @param starts in force in the logbook
 * @param figures in the order of the definitions
 */
public record AssetTrend(String asset, int starts, List<FigureTrend> figures) {
  public AssetTrend {
    figures = List.copyOf(figures);
  }
}
