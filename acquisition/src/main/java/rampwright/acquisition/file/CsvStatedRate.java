package rampwright.acquisition.file;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A sampling rate or interval that the lines above a table state, such as {@code Rate: 10 kHz} or
 * {@code Sample interval, 0.0001}.
 *
 * @param intervalS seconds between rows
 * @param text the line it stands in
 */
record CsvStatedRate(double intervalS, String text) {
  private static final String NUMBER = "([+]?\\d+(?:\\.\\d+)?(?:e[+-]?\\d+)?)";
  private static final String UNIT =
      "(s|sec|secs|seconds?|sek|ms|msec|us|usec|ns|m?hz|khz|[kKmM]?sa?/s|samples/s|sps|1/s)";
  private static final Pattern STATEMENT =
      Pattern.compile(
          "(.*?[a-z\\])])[\"\\s:=,;\\t]+"
              + NUMBER
              + "[\"\\s,;\\t]*(?:[\\[(]?"
              + UNIT
              + "[\\])]?)?[\"\\s,;]*");
  private static final Pattern UNIT_IN_LABEL = Pattern.compile("[\\[(]\\s*" + UNIT + "\\s*[\\])]");

  /** Words for sampling in the languages of the column words; trade usage, no source. */
  private static final Pattern SAMPLING =
      Pattern.compile(
          "sampl|scan|abtast|mess|aufzeichn|acqui|echantillon|muestr|campion|amostr|bemonster|probk"
              + "|record|\\blog");

  private static final Pattern RATE =
      Pattern.compile("rate|freq|freck|per second|/s\\b|tasso|taux|tasa|taxa|czestotl");
  private static final Pattern PLAIN_RATE = Pattern.compile("\\b(rate|taux|tasso|tasa|taxa)\\b");
  private static final Pattern INTERVAL =
      Pattern.compile(
          "interval|period|delta|\\bdt\\b|increment|\\bstep\\b|\\bzeit|takt|abstand|\\btime\\b");

  /** Numbers about something else than the spacing of the rows. */
  private static final Pattern OTHER =
      Pattern.compile(
          "baud|duration|length|laenge|dauer|delay|trigger|line freq|mains|netz|rated|nominal|cutoff"
              + "|filter|start|end|date|total|count");

  private static final Map<String, Double> INTERVAL_UNITS =
      Map.ofEntries(
          Map.entry("s", 1.0),
          Map.entry("sec", 1.0),
          Map.entry("secs", 1.0),
          Map.entry("second", 1.0),
          Map.entry("seconds", 1.0),
          Map.entry("sek", 1.0),
          Map.entry("ms", 1e-3),
          Map.entry("msec", 1e-3),
          Map.entry("us", 1e-6),
          Map.entry("usec", 1e-6),
          Map.entry("ns", 1e-9));
  private static final double LONGEST_PLAIN_INTERVAL_S = 1;
  private static final double LOWEST_PLAIN_RATE_HZ = 1;

  /** All that are stated, agreeing ones once. */
  static List<CsvStatedRate> of(List<String> notes, char decimal) {
    List<CsvStatedRate> found = new ArrayList<>();
    for (String note : notes) {
      CsvStatedRate stated = of(note, decimal);
      if (stated != null
          && found.stream()
              .noneMatch(
                  other ->
                      Math.abs(other.intervalS - stated.intervalS) <= 1e-6 * stated.intervalS)) {
        found.add(stated);
      }
    }
    return found;
  }

  private static @Nullable CsvStatedRate of(String note, char decimal) {
    if (note.length() > 200) {
      return null;
    }
    String plain =
        Normalizer.normalize(
                note.replace('\u00b5', 'u').replace('\u03bc', 'u'), Normalizer.Form.NFD)
            .replaceAll("\\p{M}", "")
            .toLowerCase(Locale.ROOT);
    if (decimal == ',') {
      plain = plain.replaceAll("(\\d),(\\d)", "$1.$2");
    }
    Matcher matcher = STATEMENT.matcher(plain);
    if (!matcher.matches() || OTHER.matcher(matcher.group(1)).find()) {
      return null;
    }
    String label = matcher.group(1);
    double number = Double.parseDouble(matcher.group(2));
    String unit = matcher.group(3);
    if (unit == null) {
      Matcher inside = UNIT_IN_LABEL.matcher(label);
      unit = inside.find() ? inside.group(1) : "";
    }
    double intervalS = interval(label, number, unit);
    return intervalS > 0 && Double.isFinite(intervalS)
        ? new CsvStatedRate(intervalS, CsvProblems.shown(note.strip()))
        : null;
  }

  /** Seconds between rows; 0 when the line does not say. */
  private static double interval(String label, double number, String unit) {
    boolean sampling = SAMPLING.matcher(label).find();
    boolean rate = RATE.matcher(label).find();
    boolean interval = INTERVAL.matcher(label).find();
    Double seconds = INTERVAL_UNITS.get(unit);
    if (seconds != null) {
      return interval && (sampling || !label.contains("time")) ? number * seconds : 0;
    }
    if (!unit.isEmpty()) {
      double factor =
          switch (unit.charAt(0)) {
            case 'k' -> 1e3;
            case 'm' -> 1e6;
            default -> 1;
          };
      // A frequency may be that of anything: the line must speak of sampling, or of a rate.
      boolean said = sampling ? rate || unit.endsWith("/s") : PLAIN_RATE.matcher(label).find();
      return said && number > 0 ? 1 / (number * factor) : 0;
    }
    if (!sampling || rate == interval) {
      return 0;
    }
    if (rate) {
      return number >= LOWEST_PLAIN_RATE_HZ ? 1 / number : 0;
    }
    return number <= LONGEST_PLAIN_INTERVAL_S ? number : 0;
  }
}
