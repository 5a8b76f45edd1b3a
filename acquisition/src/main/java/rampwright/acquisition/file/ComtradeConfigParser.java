package rampwright.acquisition.file;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Lines of a COMTRADE configuration to what they say. Knows no file. */
final class ComtradeConfigParser {
  private static final int FIELDS_1991 = 10;
  private static final int FIELDS_NEEDED = 7;
  private static final double SLOWEST_HZ = 1e-6;
  private static final double FASTEST_HZ = 1e9;
  private static final double SMALLEST_FACTOR = 1e-9;
  private static final double LARGEST_FACTOR = 1e9;
  private static final int MOST_SHOWN = 40;

  private final String name;
  private final List<String> lines;
  private final int linesBefore;
  private final List<String> warnings;
  private int at;

  private ComtradeConfigParser(
      String name, List<String> lines, int linesBefore, List<String> warnings) {
    this.name = name;
    this.lines = lines;
    this.linesBefore = linesBefore;
    this.warnings = warnings;
  }

  /**
   * What a configuration says.
   *
   * @param name name of the file, for messages
   * @param linesBefore lines of the file before these, for messages
   * @param warnings gets a line for everything that had to be guessed or passed over
   */
  static ComtradeConfig parse(
      String name, List<String> lines, int linesBefore, List<String> warnings)
      throws TraceFileException {
    return new ComtradeConfigParser(name, lines, linesBefore, warnings).parse();
  }

  private ComtradeConfig parse() throws TraceFileException {
    String[] first = fields(line("station name, device and year"));
    ComtradeEdition edition = edition(first);
    int[] counts = counts();
    List<ComtradeAnalog> analogs = new ArrayList<>();
    for (int i = 0; i < counts[0]; i++) {
      analogs.add(analog(edition));
    }
    List<ComtradeStatus> statuses = new ArrayList<>();
    for (int i = 0; i < counts[1]; i++) {
      statuses.add(status());
    }
    double lineFrequencyHz = optionalNumber(line("the line frequency"), 0, "line frequency");
    List<ComtradeRate> rates = rates();
    String firstLine = line("date and time of the first sample");
    LocalDateTime firstSample = date(firstLine, edition, "the first sample");
    String triggerLine = line("date and time of the trigger");
    LocalDateTime trigger = date(triggerLine, edition, "the trigger");
    boolean nanoseconds =
        edition == ComtradeEdition.E2013 && ComtradeDates.isInNanoseconds(firstLine);
    ComtradeEncoding encoding = encoding();
    double factor = at < lines.size() ? stampFactor() : 1;
    Integer offset = null;
    if (edition == ComtradeEdition.E2013 && at < lines.size()) {
      offset = ComtradeDates.offsetMinutes(fields(line("the time zone"))[0]);
      if (at < lines.size()) {
        ComtradeDates.leapRemarks(fields(line("the quality of the clock and leap seconds")))
            .forEach(this::warn);
      }
    }
    long promised = rates.isEmpty() ? 0 : rates.get(rates.size() - 1).lastSample();
    return new ComtradeConfig(
        first[0],
        first.length > 1 ? first[1] : "",
        edition,
        analogs,
        statuses,
        lineFrequencyHz,
        rates,
        promised,
        firstSample,
        trigger,
        nanoseconds,
        encoding,
        factor,
        offset);
  }

  private ComtradeEdition edition(String[] first) {
    String year = first.length > 2 ? first[first.length - 1] : "";
    if (first.length > 3 && !year.matches("\\d{4}")) {
      year = first[2];
    }
    return switch (year) {
      case "", "1991" -> ComtradeEdition.E1991;
      case "1997", "1999", "2001" -> ComtradeEdition.E1999;
      case "2013" -> ComtradeEdition.E2013;
      default -> {
        ComtradeEdition taken =
            year.matches("20[1-9]\\d") ? ComtradeEdition.E2013 : ComtradeEdition.E1999;
        warn("edition \"" + shown(year) + "\" is not 1991, 1999 or 2013; read as " + taken.year());
        yield taken;
      }
    };
  }

  /** Numbers of analog and status channels, held against the lines there are. */
  private int[] counts() throws TraceFileException {
    String[] fields = fields(line("numbers of channels, such as 8,4A,4D"));
    if (fields.length < 2) {
      throw bad(
          1, "expected numbers of channels such as 8,4A,4D, found \"" + shown(current()) + "\"");
    }
    long analogs = -1;
    long statuses = fields.length < 3 ? 0 : -1;
    for (int i = 1; i < Math.min(fields.length, 3); i++) {
      String word = fields[i].toUpperCase(Locale.ROOT);
      boolean isStatus = word.endsWith("D") || (!word.endsWith("A") && i == 2);
      long count = count(word.replaceAll("[AD]$", "").strip(), i + 1);
      if (isStatus) {
        statuses = count;
      } else {
        analogs = count;
      }
    }
    analogs = Math.max(0, analogs);
    statuses = Math.max(0, statuses);
    int left = lines.size() - at;
    if (analogs + statuses > left) {
      throw bad(
          2,
          "promises "
              + analogs
              + " analog and "
              + statuses
              + " status channels, but only "
              + left
              + " lines follow; the file is cut off or the numbers are wrong");
    }
    if (analogs + statuses == 0) {
      throw bad(2, "no channels; expected numbers such as 8,4A,4D");
    }
    if (!fields[0].equals(Long.toString(analogs + statuses))) {
      warn(
          "total of channels is \""
              + fields[0]
              + "\" but "
              + analogs
              + " analog and "
              + statuses
              + " status channels are named; the latter taken");
    }
    return new int[] {(int) analogs, (int) statuses};
  }

  private long count(String digits, int column) throws TraceFileException {
    try {
      return Math.max(0, Long.parseLong(digits));
    } catch (NumberFormatException e) {
      throw bad(
          column, "expected a number of channels such as 4A, found \"" + shown(digits) + "\"");
    }
  }

  private ComtradeAnalog analog(ComtradeEdition edition) throws TraceFileException {
    String[] fields = fields(line("an analog channel"));
    if (fields.length < FIELDS_NEEDED) {
      throw bad(
          fields.length,
          "an analog channel has "
              + fields.length
              + " fields; expected number, name, phase, circuit, unit, a, b, ...; the number of"
              + " analog channels in line "
              + (linesBefore + 2)
              + " may be wrong");
    }
    double a = number(fields, 5, "factor a");
    double b = number(fields, 6, "offset b");
    boolean hasRatio = edition != ComtradeEdition.E1991 && fields.length > FIELDS_1991;
    return new ComtradeAnalog(
        integer(fields[0]),
        fields[1],
        fields[2],
        fields[3],
        fields[4],
        a,
        b,
        orElse(fields, 7, 0) * 1e-6,
        orElse(fields, 8, Double.NaN),
        orElse(fields, 9, Double.NaN),
        hasRatio ? orElse(fields, 10, Double.NaN) : Double.NaN,
        hasRatio ? orElse(fields, 11, Double.NaN) : Double.NaN,
        hasRatio && fields.length > 12 ? side(fields[12]) : ComtradeAnalog.Side.UNSTATED);
  }

  private static ComtradeAnalog.Side side(String word) {
    return switch (word.toUpperCase(Locale.ROOT)) {
      case "P" -> ComtradeAnalog.Side.PRIMARY;
      case "S" -> ComtradeAnalog.Side.SECONDARY;
      default -> ComtradeAnalog.Side.UNSTATED;
    };
  }

  private ComtradeStatus status() throws TraceFileException {
    String[] fields = fields(line("a status channel"));
    String last = fields[fields.length - 1];
    return new ComtradeStatus(
        integer(fields[0]),
        fields.length > 1 ? fields[1] : "",
        fields.length > 3 ? fields[2] : "",
        fields.length > 4 ? fields[3] : "",
        fields.length > 2 && last.equals("1") ? 1 : 0);
  }

  private List<ComtradeRate> rates() throws TraceFileException {
    String[] head = fields(line("the number of sampling rates"));
    long count = count(head[0], 1);
    if (count > lines.size() - at) {
      throw bad(
          1,
          "promises "
              + count
              + " sampling rates, but only "
              + (lines.size() - at)
              + " lines follow; the file is cut off or the number is wrong");
    }
    List<ComtradeRate> rates = new ArrayList<>();
    if (count == 0) {
      // A line "0,last sample" belongs here; some writers leave it out.
      if (at < lines.size() && lines.get(at).matches("[\\s\\d.eE+-]*,[\\s\\d.eE+-]*,?\\s*")) {
        String[] fields = fields(line("a sampling rate"));
        if (fields.length > 1 && !fields[1].isEmpty()) {
          rates.add(new ComtradeRate(0, (long) number(fields, 1, "last sample")));
        }
      }
      return rates;
    }
    long before = 0;
    for (int i = 0; i < count; i++) {
      String[] fields = fields(line("a sampling rate"));
      if (fields.length < 2) {
        throw bad(1, "expected samples a second and number of the last sample, such as 1200,40");
      }
      double rateHz = number(fields, 0, "sampling rate");
      double last = number(fields, 1, "number of the last sample");
      boolean isOdd = rateHz != 0 && !(rateHz >= SLOWEST_HZ && rateHz <= FASTEST_HZ);
      if (isOdd || last < before || last > 1e15) {
        throw bad(
            last < before || last > 1e15 ? 2 : 1,
            "rate "
                + rateHz
                + " Hz up to sample "
                + shown(fields[1])
                + ": rates must be 0 or from 1e-6 to 1e9 Hz, and last samples must not fall"
                + " (previous "
                + before
                + ")");
      }
      rates.add(new ComtradeRate(rateHz, (long) last));
      before = (long) last;
    }
    return rates;
  }

  private @Nullable LocalDateTime date(String text, ComtradeEdition edition, String what) {
    LocalDateTime date = ComtradeDates.read(text, edition == ComtradeEdition.E1991);
    if (date == null && !text.replace(",", "").isBlank()) {
      warn("date and time of " + what + " \"" + shown(text) + "\" not understood; left out");
    }
    return date;
  }

  private ComtradeEncoding encoding() throws TraceFileException {
    String word = fields(line("ASCII, BINARY, BINARY32 or FLOAT32"))[0];
    return ComtradeEncoding.of(word)
        .orElseThrow(
            () ->
                bad(
                    1,
                    "expected ASCII, BINARY, BINARY32 or FLOAT32, found \""
                        + shown(word)
                        + "\"; if lines are missing above, a number of channels or rates is"
                        + " wrong"));
  }

  private double stampFactor() throws TraceFileException {
    String word = fields(line("the time multiplier"))[0];
    double factor = optionalNumber(word, 1, "time multiplier");
    if (factor >= SMALLEST_FACTOR && factor <= LARGEST_FACTOR) {
      return factor;
    }
    warn("time multiplier " + factor + " is not between 1e-9 and 1e9; 1 taken");
    return 1;
  }

  private String line(String expected) throws TraceFileException {
    if (at >= lines.size()) {
      throw new TraceFileException(
          name,
          (long) linesBefore + lines.size(),
          0,
          "the configuration ends where " + expected + " should follow; the file is cut off",
          null);
    }
    return lines.get(at++);
  }

  private String current() {
    return lines.get(at - 1).strip();
  }

  private static String[] fields(String line) {
    String[] fields = line.split(",", -1);
    for (int i = 0; i < fields.length; i++) {
      fields[i] = fields[i].strip();
    }
    return fields;
  }

  private double number(String[] fields, int i, String what) throws TraceFileException {
    double value = parse(fields[i]);
    if (!Double.isFinite(value)) {
      throw bad(i + 1, what + ": expected a number, found \"" + shown(fields[i]) + "\"");
    }
    return value;
  }

  private double optionalNumber(String text, double otherwise, String what) {
    String word = fields(text)[0];
    double value = parse(word);
    if (Double.isFinite(value)) {
      return value;
    }
    if (!word.isEmpty()) {
      warn(what + " \"" + shown(word) + "\" is not a number; " + otherwise + " taken");
    }
    return otherwise;
  }

  /** A piece of the file as it can be shown: printable and short. */
  private static String shown(String text) {
    String plain = text.strip().replaceAll("[\\p{Cntrl}\\x80-\\x9f\\ufffd]", "?");
    return plain.length() > MOST_SHOWN ? plain.substring(0, MOST_SHOWN) + "..." : plain;
  }

  private static double orElse(String[] fields, int i, double otherwise) {
    double value = i < fields.length ? parse(fields[i]) : Double.NaN;
    return Double.isFinite(value) ? value : otherwise;
  }

  private static double parse(String word) {
    // Double.parseDouble also takes "1d" and hexadecimal floats, which are no numbers here.
    if (!word.matches("[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)?")) {
      return Double.NaN;
    }
    return Double.parseDouble(word);
  }

  private static int integer(String word) {
    double value = parse(word);
    return Double.isFinite(value) ? (int) value : 0;
  }

  private void warn(String text) {
    warnings.add(name + " line " + (linesBefore + at) + ": " + text);
  }

  private TraceFileException bad(int column, String problem) {
    return new TraceFileException(name, (long) linesBefore + at, column, problem, null);
  }
}
