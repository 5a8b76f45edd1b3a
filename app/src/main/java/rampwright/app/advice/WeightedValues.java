package rampwright.app.advice;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Values that do not all count alike, and their quantiles. */
final class WeightedValues {
  private record Weighted(double value, double weight) {}

  private final List<Weighted> values = new ArrayList<>();
  private double weight;

  /** Adds a value that counts for a weight above 0. */
  void add(double value, double weight) {
    values.add(new Weighted(value, weight));
    this.weight += weight;
  }

  /** Sum of the weights. */
  double weight() {
    return weight;
  }

  /**
   * Quantile. Formula: value k of the sorted ones stands at the sum of the mean weights of each
   * pair of neighbours before it, over the sum of all of these; straight lines between. With
   * weights alike it stands at k / (n - 1), the definition most tables use.
   *
   * @param share 0 to 1
   * @throws IllegalStateException when there is no value
   */
  double at(double share) {
    if (values.isEmpty()) {
      throw new IllegalStateException("no values");
    }
    values.sort(Comparator.comparingDouble(Weighted::value));
    double length = 0;
    for (int k = 1; k < values.size(); k++) {
      length += step(k);
    }
    double left = share * length;
    for (int k = 1; k < values.size(); k++) {
      double step = step(k);
      if (left <= step && step > 0) {
        double from = values.get(k - 1).value();
        return from + left / step * (values.get(k).value() - from);
      }
      left -= step;
    }
    return values.get(values.size() - 1).value();
  }

  private double step(int k) {
    return 0.5 * (values.get(k - 1).weight() + values.get(k).weight());
  }
}
