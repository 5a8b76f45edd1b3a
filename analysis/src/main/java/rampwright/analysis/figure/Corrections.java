package rampwright.analysis.figure;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;

/**
 * Instants a person put right, each given to the one start it belongs to.
 *
 * <p>A start's instants lie after the current of the start before ceased and before its own ceases;
 * a stop's after its own current began and before the next one's does.
 */
final class Corrections {
  private static final Set<String> OF_STOP = Set.of("stop_begin_s", "release_s", "rest_s");

  /** What cannot come before what. Rest may come before or after the release. */
  private static final String[][] ORDER = {
    {"inception_s", "breakaway_s"},
    {"inception_s", "full_speed_s"},
    {"inception_s", "knee_s"},
    {"inception_s", "bypass_s"},
    {"inception_s", "settled_s"},
    {"breakaway_s", "full_speed_s"},
    {"full_speed_s", "stop_begin_s"},
    {"knee_s", "stop_begin_s"},
    {"bypass_s", "stop_begin_s"},
    {"settled_s", "stop_begin_s"},
    {"inception_s", "stop_begin_s"},
    {"stop_begin_s", "release_s"},
    {"stop_begin_s", "rest_s"}
  };

  private Corrections() {}

  /**
   * The options of each segment, with those corrections alone that belong to it.
   *
   * @throws ImpossibleCorrectionException when a correction belongs to no start of the trace
   */
  static List<AnalysisOptions> perSegment(
      Readings r, List<Segment> segments, AnalysisOptions options) {
    List<Map<String, Double>> mine = new ArrayList<>();
    segments.forEach(segment -> mine.add(new LinkedHashMap<>()));
    options
        .corrected()
        .forEach((key, atS) -> mine.get(indexOf(r, segments, key, atS)).put(key, atS));
    return mine.stream()
        .map(
            corrected ->
                new AnalysisOptions(
                    corrected, options.correctionReason(), options.thresholds(), options.limit()))
        .toList();
  }

  private static int indexOf(Readings r, List<Segment> segments, String key, double atS) {
    if (!(atS >= r.startS() && atS <= r.endS())) {
      throw new ImpossibleCorrectionException(
          text(
              "corrected %s = %.4g s lies outside the record, %.4g to %.4g s; give the instant on"
                  + " the trace's own time base",
              key, atS, r.startS(), r.endS()));
    }
    for (int s = 0; s < segments.size(); s++) {
      Segment segment = segments.get(s);
      boolean ofStop = OF_STOP.contains(key);
      double fromS = s == 0 ? r.startS() : segments.get(s - 1).flow().toS();
      double toS = segment.flow().toS();
      if (ofStop) {
        fromS = segment.flow().fromS();
        toS = s + 1 < segments.size() ? segments.get(s + 1).flow().fromS() : r.endS();
      }
      if (atS >= fromS && atS <= toS) {
        if (ofStop && segment.stop() == null) {
          throw new ImpossibleCorrectionException(
              text(
                  "corrected %s = %.4g s: no stop was found there, current flows to the record's"
                      + " end; leave it out",
                  key, atS));
        }
        return s;
      }
    }
    throw new ImpossibleCorrectionException(
        text(
            "corrected %s = %.4g s lies in no start of this trace; current flows %s; give an"
                + " instant of one of them or leave it out",
            key, atS, flows(segments)));
  }

  private static String flows(List<Segment> segments) {
    List<String> spans = new ArrayList<>();
    for (Segment segment : segments) {
      spans.add(text("from %.4g to %.4g s", segment.flow().fromS(), segment.flow().toS()));
    }
    return spans.isEmpty() ? "nowhere" : String.join(", ", spans);
  }

  /**
   * Holds the order of a start's instants where a person put one of them right.
   *
   * @throws ImpossibleCorrectionException naming the two that cannot both be so
   */
  static void requireOrder(
      Map<String, Double> corrected, Map<String, Measured> start, @Nullable StopRecord stop) {
    if (corrected.isEmpty()) {
      return;
    }
    Map<String, Measured> all = new LinkedHashMap<>(start);
    if (stop != null) {
      all.putAll(stop.instants());
    }
    for (String[] pair : ORDER) {
      Double first = StartInstants.at(all, pair[0]);
      Double second = StartInstants.at(all, pair[1]);
      boolean byHand = corrected.containsKey(pair[0]) || corrected.containsKey(pair[1]);
      if (byHand && first != null && second != null && first > second) {
        throw new ImpossibleCorrectionException(
            text(
                "%s %s = %.4g s comes after %s %s = %.4g s, which cannot be; put the wrong one"
                    + " right, or the other too",
                found(corrected, pair[0]),
                pair[0],
                first,
                found(corrected, pair[1]),
                pair[1],
                second));
      }
    }
  }

  private static String found(Map<String, Double> corrected, String key) {
    return corrected.containsKey(key) ? "corrected" : "found";
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
