package rampwright.acquisition.record;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import rampwright.acquisition.device.DeviceEvent;

/** From what a device said and did not say to how well it was read. */
final class QualityFinder {
  /** Over so many intervals without a reading is a gap, as in the figures' finding. */
  private static final double GAP_INTERVALS = 3;

  /** Reasons told of one gap. */
  private static final int MOST_REASONS = 3;

  private QualityFinder() {}

  /**
   * The quality of one device.
   *
   * @param beginNs the trace's time 0, ns
   * @param endNs the trace's last instant, ns
   */
  static DeviceQuality of(String name, List<DeviceEvent> events, long beginNs, long endNs) {
    List<DeviceEvent.Reading> readings = new ArrayList<>();
    List<DeviceEvent.Fault> faults = new ArrayList<>();
    List<DeviceEvent.AskedAgain> again = new ArrayList<>();
    for (DeviceEvent event : events) {
      if (event instanceof DeviceEvent.Reading reading) {
        readings.add(reading);
      } else if (event instanceof DeviceEvent.Fault fault) {
        faults.add(fault);
      } else if (event instanceof DeviceEvent.AskedAgain told) {
        again.add(told);
      }
    }
    int retries = readings.stream().mapToInt(reading -> reading.tries() - 1).sum();
    retries += faults.stream().mapToInt(fault -> Math.max(0, fault.tries() - 1)).sum();
    double[] trips = sorted(readings.stream().mapToDouble(r -> r.roundTripNs() * 1e-6).toArray());
    double[] late = sorted(readings.stream().mapToDouble(r -> r.lateNs() * 1e-6).toArray());

    Map<Integer, List<DeviceEvent.Reading>> blocks =
        readings.stream().collect(Collectors.groupingBy(DeviceEvent.Reading::block));
    List<DeviceEvent.Reading> quickest =
        blocks.values().stream()
            .max(Comparator.comparingInt(List<DeviceEvent.Reading>::size))
            .orElse(List.of());
    List<DeviceEvent.Reading> ordered =
        quickest.stream().sorted(Comparator.comparingLong(DeviceEvent.Reading::atNs)).toList();
    long[] atNs = ordered.stream().mapToLong(DeviceEvent.Reading::atNs).toArray();
    double stepNs = medianStep(atNs);
    return new DeviceQuality(
        name,
        readings.size(),
        1e9 / stepNs,
        part(trips, 0.5),
        part(trips, 0.99),
        part(late, 0.99),
        retries,
        faults.size(),
        gaps(atNs, stepNs, reasons(faults, again, ordered, stepNs), beginNs, endNs));
  }

  /** What was told of trouble, and when. */
  private record Reason(long atNs, String text) {}

  private static List<Reason> reasons(
      List<DeviceEvent.Fault> faults,
      List<DeviceEvent.AskedAgain> again,
      List<DeviceEvent.Reading> readings,
      double stepNs) {
    List<Reason> reasons = new ArrayList<>();
    faults.forEach(fault -> reasons.add(new Reason(fault.atNs(), fault.text())));
    again.forEach(told -> reasons.add(new Reason(told.atNs(), told.text() + ", asked again")));
    for (DeviceEvent.Reading reading : readings) {
      if (reading.lateNs() > stepNs) {
        reasons.add(
            new Reason(
                reading.atNs(),
                String.format(
                    Locale.ROOT,
                    "asked %.2f s late, the link or this machine was busy",
                    reading.lateNs() * 1e-9)));
      }
    }
    return reasons;
  }

  private static List<DeviceQuality.Gap> gaps(
      long[] atNs, double stepNs, List<Reason> told, long beginNs, long endNs) {
    List<DeviceQuality.Gap> gaps = new ArrayList<>();
    double most = Double.isNaN(stepNs) ? 0 : GAP_INTERVALS * stepNs;
    long last = beginNs;
    for (int i = 0; i <= atNs.length; i++) {
      long next = i < atNs.length ? atNs[i] : endNs;
      if (next - last > most && next > last && (i > 0 || atNs.length == 0 || most > 0)) {
        gaps.add(
            new DeviceQuality.Gap(
                (last - beginNs) * 1e-9, (next - beginNs) * 1e-9, why(told, last, next)));
      }
      last = next;
    }
    return gaps;
  }

  private static String why(List<Reason> told, long fromNs, long toNs) {
    Set<String> reasons = new LinkedHashSet<>();
    int more = 0;
    for (Reason reason : told) {
      if (reason.atNs() >= fromNs && reason.atNs() <= toNs) {
        if (reasons.size() < MOST_REASONS || reasons.contains(reason.text())) {
          reasons.add(reason.text());
        } else {
          more++;
        }
      }
    }
    return reasons.isEmpty()
        ? "no reading came, no reason was told"
        : String.join("; ", reasons) + (more > 0 ? "; and " + more + " more" : "");
  }

  /** Median interval, ns; NaN with fewer than two instants. */
  static double medianStep(long[] atNs) {
    if (atNs.length < 2) {
      return Double.NaN;
    }
    double[] steps = new double[atNs.length - 1];
    for (int i = 1; i < atNs.length; i++) {
      steps[i - 1] = atNs[i] - atNs[i - 1];
    }
    Arrays.sort(steps);
    return steps[steps.length / 2];
  }

  private static double[] sorted(double[] values) {
    Arrays.sort(values);
    return values;
  }

  private static double part(double[] sorted, double share) {
    return sorted.length == 0
        ? 0
        : sorted[(int) Math.min(sorted.length - 1, share * sorted.length)];
  }
}
