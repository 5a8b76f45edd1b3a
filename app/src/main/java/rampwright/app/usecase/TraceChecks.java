package rampwright.app.usecase;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.PlainNumber;
import rampwright.analysis.figure.AnalyzedTrace;
import rampwright.analysis.figure.MotorContext;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;
import rampwright.analysis.trace.TraceKind;

/** Whether a trace can be analysed at all, and whether its numbers are of a likely size. */
final class TraceChecks {
  /** Fewer samples a cycle show no waveform (the rule by which the kind is found out). */
  private static final double LEAST_SAMPLES_A_CYCLE = 8;

  /** The slowest usual supply where the asset does not name its frequency. */
  private static final double ASSUMED_FREQUENCY_HZ = 50;

  /** An RMS reading may wander below 0 by its noise, not by this share of the largest reading. */
  private static final double LARGEST_NEGATIVE_SHARE = 0.25;

  /**
   * A motor started at full voltage takes 5 to 9 times its rated current, its first crest up to
   * some 15 times (common practice, no source): a current of 30 times is another unit. Idling
   * motors take a fifth at least of their rated current.
   */
  private static final double MOST_TIMES_RATED_A = 30;

  private static final double LEAST_TIMES_RATED_A = 0.03;

  /** No supply is off its declared voltage by a factor of 5, nor an induction motor its speed. */
  private static final double LARGEST_FACTOR = 5;

  private static final double ROOT_3 = Math.sqrt(3);

  /** A supply is within a tenth of its declared voltage (EN 50160), and the meter within 1 %. */
  private static final double LIKELY_SUPPLY = 0.1;

  private static final int DIGITS_SHOWN = 4;

  private TraceChecks() {}

  /**
   * Refuses what no analysis can use.
   *
   * @param declared what a person says the values are; null when nothing was said
   * @throws InputProblem with what is wrong and what to do
   */
  static void demand(Trace trace, @Nullable TraceKind declared, MotorContext motor)
      throws InputProblem {
    String source = trace.provenance().source();
    List<ChannelName> currents = trace.present(ChannelName.CURRENTS);
    if (currents.isEmpty()) {
      throw new InputProblem(
          source
              + ": no phase current among its channels ("
              + String.join(" ", trace.names().stream().map(ChannelName::key).sorted().toList())
              + "); figures need one at least: record a current, or say which column is one in a"
              + " [columns] table, for example i1 = { index = 2 }");
    }
    if (trace.size() < 2) {
      throw new InputProblem(
          source + ": holds " + trace.size() + " sample; figures need two at least");
    }
    if (declared == TraceKind.WAVEFORM) {
      demandWaveform(trace, source, currents, motor);
    } else if (declared == TraceKind.RMS) {
      demandReadings(trace, source, currents);
    }
  }

  private static void demandWaveform(
      Trace trace, String source, List<ChannelName> currents, MotorContext motor)
      throws InputProblem {
    Double ratedHz = motor.ratedFrequencyHz();
    double frequencyHz = ratedHz == null ? ASSUMED_FREQUENCY_HZ : ratedHz;
    double rateHz = 1 / trace.time().typicalStepS();
    if (!(rateHz >= LEAST_SAMPLES_A_CYCLE * frequencyHz)) {
      throw new InputProblem(
          String.format(
              Locale.ROOT,
              "%s: cannot be a waveform: %s values a second, a waveform of %s Hz needs %s at"
                  + " least; leave out --kind waveform, or give the unit of time in [columns]",
              source,
              shown(rateHz),
              shown(frequencyHz),
              shown(LEAST_SAMPLES_A_CYCLE * frequencyHz)));
    }
    for (ChannelName current : currents) {
      double[] range = range(trace, current);
      if (range[0] < 0) {
        return;
      }
    }
    throw new InputProblem(
        source
            + ": cannot be a waveform: no current is ever below 0; leave out --kind waveform, or give"
            + " an offset in [columns] when 0 A is recorded as another value");
  }

  private static void demandReadings(Trace trace, String source, List<ChannelName> currents)
      throws InputProblem {
    for (ChannelName current : currents) {
      double[] range = range(trace, current);
      if (-range[0] > LARGEST_NEGATIVE_SHARE * range[1]) {
        throw new InputProblem(
            String.format(
                Locale.ROOT,
                "%s: %s cannot be RMS readings: it goes down to %s A, an RMS value is never below"
                    + " 0; leave out --kind rms",
                source,
                current.key(),
                shown(range[0])));
      }
    }
  }

  /** Smallest and largest sample. */
  private static double[] range(Trace trace, ChannelName name) {
    double lowest = 0;
    double highest = 0;
    Samples samples = trace.channel(name);
    for (int i = 0; samples != null && i < samples.size(); i++) {
      double value = samples.at(i);
      lowest = Math.min(lowest, Double.isNaN(value) ? 0 : value);
      highest = Math.max(highest, Double.isNaN(value) ? 0 : value);
    }
    return new double[] {lowest, highest};
  }

  /** What numbers of an unlikely size suggest: one line for each quantity. */
  static List<String> unlikely(AnalyzedTrace analyzed, MotorContext motor) {
    List<String> remarks = new ArrayList<>();
    Double ratedA = motor.ratedCurrentA();
    double largestA = largest(analyzed, ChannelName.CURRENTS);
    if (analyzed.figures().starts().isEmpty()) {
      if (ratedA != null) {
        remarks.add(
            String.format(
                Locale.ROOT,
                "the largest current is %s A, the rated one %s A: too little for a motor that runs; if"
                    + " it did, look at the column's unit and scale, for example unit = \"kA\" in"
                    + " [columns]",
                shown(largestA),
                shown(ratedA)));
      }
      return remarks;
    }
    if (ratedA != null && largestA > 0) {
      double ratio = largestA / ratedA;
      if (ratio > MOST_TIMES_RATED_A) {
        remarks.add(unit("current", largestA, "A", "rated", ratedA, ratio, "mA", "A"));
      } else if (ratio < LEAST_TIMES_RATED_A) {
        remarks.add(unit("current", largestA, "A", "rated", ratedA, ratio, "kA", "A"));
      }
    }
    Double declaredV =
        motor.supplyVoltageV() != null ? motor.supplyVoltageV() : motor.ratedVoltageV();
    double largestV = largest(analyzed, ChannelName.LINE_VOLTAGES);
    if (declaredV != null && largestV > 0) {
      double ratio = largestV / declaredV;
      if (ratio > LARGEST_FACTOR) {
        remarks.add(unit("voltage", largestV, "V", "supply", declaredV, ratio, "mV", "V"));
      } else if (ratio < 1 / LARGEST_FACTOR) {
        remarks.add(unit("voltage", largestV, "V", "supply", declaredV, ratio, "kV", "V"));
      } else {
        remarks.addAll(otherVoltage(analyzed, declaredV));
      }
    }
    Double ratedRpm = motor.ratedSpeedRpm();
    double largestRpm = largest(analyzed, List.of(ChannelName.SPEED));
    if (ratedRpm != null && largestRpm > LARGEST_FACTOR * ratedRpm) {
      remarks.add(
          String.format(
              Locale.ROOT,
              "the largest speed, %s rpm, is %s times the rated %s rpm; look at the unit and"
                  + " scale of the speed column",
              shown(largestRpm),
              shown(largestRpm / ratedRpm),
              shown(ratedRpm)));
    }
    return remarks;
  }

  /**
   * Line to line taken for line to neutral or the other way: the voltage before the start is off by
   * the square root of three.
   */
  private static List<String> otherVoltage(AnalyzedTrace analyzed, double declaredV) {
    Measured before = analyzed.figures().starts().get(0).figures().get("voltage_before_V");
    Double value = before == null ? null : before.value();
    if (value == null) {
      return List.of();
    }
    double ratio = value / declaredV;
    boolean high = Math.abs(ratio / ROOT_3 - 1) < LIKELY_SUPPLY;
    boolean low = Math.abs(ratio * ROOT_3 - 1) < LIKELY_SUPPLY;
    if (!high && !low) {
      return List.of();
    }
    return List.of(
        String.format(
            Locale.ROOT,
            "the voltage before the start, %s V, is %s times the supply %s V, close to the square root"
                + " of three%s: %s",
            shown(value),
            shown(ratio),
            shown(declaredV),
            low ? " the other way" : "",
            high
                ? "do the columns of v1 v2 v3 hold line-to-line values? If so say v12 = { name = ... }"
                    + " in [columns]"
                : "do the columns of v12 v23 v31 hold line-to-neutral values? If so say"
                    + " v1 = { name = ... } in [columns]"));
  }

  private static String unit(
      String what,
      double value,
      String unit,
      String of,
      double reference,
      double ratio,
      String maybe,
      String taken) {
    return String.format(
        Locale.ROOT,
        "the largest %s, %s %s RMS, is %s times the %s %s %s: is the column in %s and was"
            + " taken for %s? If so say unit = \"%s\" for it in [columns]",
        what,
        shown(value),
        unit,
        shown(ratio),
        of,
        shown(reference),
        unit,
        maybe,
        taken,
        maybe);
  }

  private static String shown(double value) {
    return PlainNumber.rounded(value, DIGITS_SHOWN);
  }

  private static double largest(AnalyzedTrace analyzed, List<ChannelName> names) {
    double largest = 0;
    for (ChannelName name : names) {
      double[] values = analyzed.track().of(name);
      for (int i = 0; values != null && i < values.length; i++) {
        largest = values[i] > largest ? values[i] : largest;
      }
    }
    return largest;
  }
}
