package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** What a trace shows besides its figures. */
final class Findings {
  private final Readings r;
  private final Thresholds thresholds;
  private final List<Finding> found = new ArrayList<>();

  Findings(Readings r, Thresholds thresholds) {
    this.r = r;
    this.thresholds = thresholds;
  }

  List<Finding> inOrder() {
    found.sort(Comparator.comparingDouble(Finding::fromS));
    return found;
  }

  List<VoltageFigures.Window> supplyDips(List<Segment> segments) {
    return List.of();
  }

  void of(Segment segment, StartRecord start) {}
}
