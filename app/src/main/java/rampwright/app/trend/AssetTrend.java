package rampwright.app.trend;

import java.util.List;

/**
 * What the figures of one asset do.
 *
 * @param asset its id
 * @param facts name, group, zone
 * @param starts in force in the logbook
 * @param figures in the order of the definitions
 * @param marks changes of settings and work on the machine, in order of time
 * @param leads where to look first, likeliest first; empty where figures do not say
 */
public record AssetTrend(
    String asset,
    AssetFacts facts,
    int starts,
    List<FigureTrend> figures,
    List<Mark> marks,
    List<Lead> leads) {
  public AssetTrend {
    figures = List.copyOf(figures);
    marks = List.copyOf(marks);
    leads = List.copyOf(leads);
  }
}
