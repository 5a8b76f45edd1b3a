package rampwright.acquisition.file;

import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.EvenTime;
import rampwright.analysis.trace.TimeBase;

/**
 * The text of a configuration file.
 *
 * <p>Against the later editions that of 1991 has no year in the first line, no ratio of
 * transformers and no side, three fields for a status channel, month before day and a year of two
 * digits, and no multiplier of stamps.
 *
 * @param hasRun whether a status channel for the run command ends the list
 * @param firstSample date of the first sample in UTC; null when it is not known
 * @param stampUnitS what stamps count, s
 */
record ComtradeConfigText(
    ComtradeForm form,
    List<ChannelName> analogs,
    List<ComtradeScaling> scalings,
    boolean hasRun,
    TimeBase time,
    @Nullable LocalDateTime firstSample,
    double stampUnitS) {
  private static final List<String> PHASES = List.of("A", "B", "C");
  private static final List<String> PAIRS = List.of("AB", "BC", "CA");

  String text() {
    boolean is2013 = form.edition() == ComtradeEdition.E2013;
    boolean is1991 = form.edition() == ComtradeEdition.E1991;
    int statuses = hasRun ? 1 : 0;
    StringBuilder text = new StringBuilder();
    String year = is1991 ? "" : "," + form.edition().year();
    line(text, plain(form.station()) + "," + plain(form.device()) + year);
    line(text, analogs.size() + statuses + "," + analogs.size() + "A," + statuses + "D");
    for (int i = 0; i < analogs.size(); i++) {
      line(text, analog(i) + (is1991 ? "" : ",1,1,P"));
    }
    if (hasRun) {
      line(text, is1991 ? "1,run,0" : "1,run,,,0");
    }
    line(text, number(form.lineFrequencyHz()));
    if (time instanceof EvenTime even) {
      line(text, "1");
      line(text, number(1 / even.stepS()) + "," + time.size());
    } else {
      line(text, "0");
      line(text, "0," + time.size());
    }
    String date = date();
    line(text, date);
    line(text, date);
    line(text, form.encoding().name());
    if (!is1991) {
      line(text, number(multiplier(is2013)));
    }
    if (is2013) {
      line(text, firstSample == null ? "x,x" : "0,0");
      line(text, "F,0");
    }
    return text.toString();
  }

  private String analog(int i) {
    ChannelName channel = analogs.get(i);
    ComtradeScaling scaling = scalings.get(i);
    return (i + 1)
        + ","
        + channel.key()
        + ","
        + phase(channel)
        + ",,"
        + channel.quantity().unit().replace(" ", "")
        + ","
        + number(scaling.a())
        + ","
        + number(scaling.b())
        + ",0,"
        + scaling.lowest()
        + ","
        + scaling.highest();
  }

  private static String phase(ChannelName channel) {
    for (int i = 0; i < PHASES.size(); i++) {
      if (channel == ChannelName.CURRENTS.get(i) || channel == ChannelName.PHASE_VOLTAGES.get(i)) {
        return PHASES.get(i);
      }
      if (channel == ChannelName.LINE_VOLTAGES.get(i)) {
        return PAIRS.get(i);
      }
    }
    return "";
  }

  private String date() {
    if (firstSample == null) {
      return ",";
    }
    String pattern =
        switch (form.edition()) {
          case E1991 -> "MM/dd/yy,HH:mm:ss.SSSSSS";
          case E1999 -> "dd/MM/uuuu,HH:mm:ss.SSSSSS";
          // Nine digits say, in the 2013 edition, that stamps count nanoseconds.
          case E2013 -> "dd/MM/uuuu,HH:mm:ss.SSSSSSSSS";
        };
    return firstSample.format(DateTimeFormatter.ofPattern(pattern, Locale.ROOT));
  }

  private double multiplier(boolean is2013) {
    // Whole quotients of powers of ten, so that unit = multiplier x base comes out exact.
    double base = is2013 && firstSample != null ? 1e9 : 1e6;
    double multiplier = stampUnitS * base;
    return multiplier >= 1 ? Math.rint(multiplier) : 1 / Math.rint(1 / multiplier);
  }

  private static String number(double value) {
    return value == Math.rint(value) && Math.abs(value) < 1e15
        ? Long.toString((long) value)
        : Double.toString(value);
  }

  private static String plain(String name) {
    return name.replaceAll("[,\\p{Cntrl}]", " ").strip();
  }

  private static void line(StringBuilder text, String line) {
    text.append(line).append("\r\n");
  }
}
