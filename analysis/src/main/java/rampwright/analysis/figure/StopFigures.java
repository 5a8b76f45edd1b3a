package rampwright.analysis.figure;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.Noise;
import rampwright.analysis.trace.ChannelName;

/** The instants and figures of a stop. */
final class StopFigures {
  private static final double REST_SHARE = 0.01;
  private static final double SLOPE_WINDOW_S = 0.1;
  private static final int SLOPE_READINGS = 5;
  private static final double COAST_S = 0.1;
  private static final double WATER_DENSITY = 1000;
  private static final double PA_PER_BAR = 1e5;

  private final Readings r;
  private final Segment segment;
  private final AnalysisOptions options;
  private final StopBegin begin;
  private final double nominalRpm;
  private final String nominalName;

  private StopFigures(
      Readings r, Segment segment, RunLevel level, AnalysisOptions options, StopBegin begin) {
    this.r = r;
    this.segment = segment;
    this.options = options;
    this.begin = begin;
    boolean settled = !Double.isNaN(level.speedRpm());
    this.nominalRpm = StartInstants.nominalSpeed(r, level);
    this.nominalName = settled ? "settled speed" : "rated speed, since no run was reached";
  }

  /**
   * The stop of a segment.
   *
   * @param turned false when the shaft is known not to have turned
   * @param untilS where the next flow begins, or the record's end
   */
  static @Nullable StopRecord of(
      Readings r,
      Segment segment,
      RunLevel level,
      AnalysisOptions options,
      boolean turned,
      double untilS) {
    StopBegin begin = segment.stop();
    return begin == null
        ? null
        : new StopFigures(r, segment, level, options, begin).record(turned, untilS);
  }

  private StopRecord record(boolean turned, double untilS) {
    Flow flow = segment.flow();
    Map<String, Measured> instants = new LinkedHashMap<>();
    instants.put(
        "stop_begin_s", StartInstants.instant(begin.atS(), begin.uncertaintyS(), begin.rule()));
    instants.put(
        "release_s",
        flow.openEnd()
            ? Measured.missing("s", "the record ends before current ceases")
            : StartInstants.instant(flow.toS(), flow.toUncertaintyS(), "current ceases"));
    Measured rest = turned ? rest(untilS) : Measured.missing("s", "the shaft did not turn");
    instants.put("rest_s", rest);
    options
        .corrected()
        .forEach(
            (key, atS) -> {
              if (instants.containsKey(key)) {
                instants.put(key, StartInstants.corrected(atS, options.correctionReason()));
              }
            });
    StopKind kind = kind(instants);
    return new StopRecord(kind, instants, turned ? figures(instants, kind, untilS) : none());
  }

  private static Map<String, Measured> none() {
    Map<String, Measured> figures = new LinkedHashMap<>();
    figures.put("stop_time_s", Measured.missing("s", "the shaft did not turn: no stop"));
    return figures;
  }

  private StopKind kind(Map<String, Measured> instants) {
    Double release = StartInstants.at(instants, "release_s");
    Double stopBegin = StartInstants.at(instants, "stop_begin_s");
    if (release == null || stopBegin == null) {
      return StopKind.CUT_OFF;
    }
    double soft = Math.max(COAST_S, 2.5 * r.stepS);
    return release - stopBegin > soft ? StopKind.SOFT : StopKind.COAST;
  }

  private Measured rest(double untilS) {
    SpeedTrack speed = r.speed;
    if (speed == null) {
      return Measured.missing("s", "no speed channel");
    }
    if (Double.isNaN(nominalRpm)) {
      return Measured.missing("s", "needs a settled run speed or the rated speed");
    }
    double floor = REST_SHARE * nominalRpm;
    double noise = Math.max(3 * speed.noiseRpm(), speed.resolutionRpm());
    String rule = "speed first below 1 % of " + nominalName;
    if (noise > floor) {
      floor = noise;
      rule = "speed first below the channel's own noise, which is above 1 % of " + nominalName;
    }
    double atBegin = speed.mean(begin.atS() - 0.2, begin.atS() + 0.05);
    if (atBegin < floor) {
      return Measured.missing("s", "the shaft was at rest before the stop began");
    }
    Crossing crossing = Crossing.first(speed, floor, false, begin.atS(), untilS);
    if (crossing == null) {
      return Measured.missing("s", "the record ends before the shaft is at rest");
    }
    double early = hiddenS(speed, crossing.atS(), floor, untilS);
    return StartInstants.instant(crossing.atS(), Math.hypot(crossing.uncertaintyS(), early), rule);
  }

  /**
   * How long the shaft may still have taken to 1 % of its speed below a floor that lies above it,
   * at the slope of the fall from twice that floor, s.
   */
  private double hiddenS(SpeedTrack speed, double atS, double floorRpm, double untilS) {
    double below = floorRpm - REST_SHARE * nominalRpm;
    Crossing twice = Crossing.first(speed, 2 * floorRpm, false, begin.atS(), untilS);
    return below > 0 && twice != null && twice.atS() < atS
        ? below / floorRpm * (atS - twice.atS())
        : 0;
  }

  private Map<String, Measured> figures(
      Map<String, Measured> instants, StopKind kind, double untilS) {
    Map<String, Measured> figures = new LinkedHashMap<>();
    figures.put("stop_time_s", span(instants, "stop_begin_s", "rest_s", atRestFirst(instants)));
    figures.put("controlled_time_s", controlled(instants, kind));
    figures.put("speed_at_release_pct", speedAtRelease(instants));
    figures.put("stop_90_10_s", ninetyToTen(untilS));
    figures.put("stop_deceleration_pct_per_s", deceleration(untilS));
    boolean current = kind != StopKind.COAST;
    Double stopBegin = StartInstants.at(instants, "stop_begin_s");
    if (current && stopBegin != null) {
      Double release = StartInstants.at(instants, "release_s");
      double toS = release != null ? release : segment.flow().toS();
      Double rated = r.motor.ratedCurrentA();
      figures.put(
          "stop_peak_current_ratio",
          Extremes.overRated(Extremes.peakCurrent(r, stopBegin, toS), rated, 1, ""));
      figures.put(
          "stop_i2t_ratio_s",
          Extremes.overRated(
              CurrentFigures.i2t(
                  r, stopBegin, begin.uncertaintyS(), toS, segment.flow().toUncertaintyS()),
              rated,
              2,
              "s"));
    } else {
      figures.put(
          "stop_peak_current_ratio", Measured.missing("", "no current flows while coasting"));
      figures.put("stop_i2t_ratio_s", Measured.missing("s", "no current flows while coasting"));
    }
    figures.put("pipe_periods", pipePeriods(figures.get("stop_time_s")));
    pressure(figures, instants, untilS);
    return figures;
  }

  static Measured span(Map<String, Measured> instants, String from, String to) {
    return span(instants, from, to, "");
  }

  private static Measured span(
      Map<String, Measured> instants, String from, String to, String note) {
    Measured a = instants.get(from);
    Measured b = instants.get(to);
    if (a == null || b == null) {
      return Measured.missing("s", "needs " + from + " and " + to);
    }
    Double aS = a.value();
    Double bS = b.value();
    if (aS == null || bS == null) {
      return Measured.missing("s", String.valueOf(aS == null ? a.why() : b.why()));
    }
    Double ua = a.uncertainty();
    Double ub = b.uncertainty();
    return Measured.of(
        bS - aS,
        "s",
        ua == null || ub == null ? null : Math.hypot(ua, ub),
        aS,
        bS,
        to + " - " + from + " (" + b.rule() + ")" + note);
  }

  private Measured controlled(Map<String, Measured> instants, StopKind kind) {
    if (kind == StopKind.COAST) {
      Double release = StartInstants.at(instants, "release_s");
      double atS = release != null ? release : segment.flow().toS();
      return Measured.of(
          0, "s", segment.flow().toUncertaintyS(), atS, atS, "coasting: current ceases at once");
    }
    return span(instants, "stop_begin_s", "release_s", atRestFirst(instants));
  }

  /** What is to be said where the shaft was at rest before the starter let go; else empty. */
  private static String atRestFirst(Map<String, Measured> instants) {
    Double rest = StartInstants.at(instants, "rest_s");
    Double release = StartInstants.at(instants, "release_s");
    return rest != null && release != null && rest < release
        ? String.format(
            Locale.ROOT, "; the shaft was at rest %.2f s before the starter let go", release - rest)
        : "";
  }

  private Measured speedAtRelease(Map<String, Measured> instants) {
    SpeedTrack speed = r.speed;
    Double release = StartInstants.at(instants, "release_s");
    if (speed == null) {
      return Measured.missing("%", "no speed channel");
    }
    if (release == null || Double.isNaN(nominalRpm)) {
      return Measured.missing(
          "%", release == null ? "current does not cease in this record" : "needs the rated speed");
    }
    double n = speed.at(release);
    if (Double.isNaN(n)) {
      return Measured.missing("%", "no speed reading at the release");
    }
    double openS = Math.max(r.stepS / Math.sqrt(3), segment.flow().toUncertaintyS());
    double around = 0;
    for (double atS : new double[] {release - openS, release + openS}) {
      double off = Math.abs(speed.at(atS) - n);
      around = off > around ? off : around;
    }
    double u =
        Math.hypot(Math.hypot(speed.noiseRpm(), Accuracy.ofWidth(speed.resolutionRpm())), around)
            * 100
            / nominalRpm;
    return Measured.of(
        100 * n / nominalRpm,
        "%",
        u,
        release,
        release,
        "speed when current ceases, of " + nominalName + atRestFirst(instants));
  }

  private Measured ninetyToTen(double untilS) {
    SpeedTrack speed = r.speed;
    if (speed == null) {
      return Measured.missing("s", "no speed channel");
    }
    if (Double.isNaN(nominalRpm)) {
      return Measured.missing("s", "needs a settled run speed or the rated speed");
    }
    Crossing ninety = Crossing.first(speed, 0.9 * nominalRpm, false, begin.atS(), untilS);
    Crossing ten = Crossing.first(speed, 0.1 * nominalRpm, false, begin.atS(), untilS);
    if (ninety == null || ten == null) {
      return Measured.missing(
          "s",
          ninety == null
              ? "the speed does not fall through 90 % of " + nominalName + " in this record"
              : "the record ends before 10 % of " + nominalName);
    }
    return Measured.of(
        ten.atS() - ninety.atS(),
        "s",
        Math.hypot(ninety.uncertaintyS(), ten.uncertaintyS()),
        ninety.atS(),
        ten.atS(),
        "90 % to 10 % of " + nominalName);
  }

  private Measured deceleration(double untilS) {
    SpeedTrack speed = r.speed;
    String unit = "%/s";
    if (speed == null) {
      return Measured.missing(unit, "no speed channel");
    }
    if (Double.isNaN(nominalRpm)) {
      return Measured.missing(unit, "needs a settled run speed or the rated speed");
    }
    double windowS = Math.max(SLOPE_WINDOW_S, SLOPE_READINGS * speed.intervalS());
    int from = speed.firstAtOrAfter(begin.atS());
    double steepest = 0;
    double atFromS = Double.NaN;
    double atToS = Double.NaN;
    double u = 0;
    for (int i = from; i < speed.size() && speed.timeS()[i] <= untilS; i++) {
      if (speed.rpm()[i] < 0.1 * nominalRpm) {
        break;
      }
      int end = i;
      while (end < speed.size()
          && speed.timeS()[end] <= Math.min(untilS, speed.timeS()[i] + windowS + 1e-9)
          && speed.rpm()[end] >= 0.1 * nominalRpm) {
        end++;
      }
      if (end - i < SLOPE_READINGS || speed.timeS()[end - 1] - speed.timeS()[i] < 0.75 * windowS) {
        continue;
      }
      Line line = Line.through(speed.timeS(), speed.rpm(), i, end);
      if (-line.slope() > steepest) {
        steepest = -line.slope();
        atFromS = speed.timeS()[i];
        atToS = speed.timeS()[end - 1];
        double spanS = atToS - atFromS;
        double noise = Math.hypot(speed.noiseRpm(), Accuracy.ofWidth(speed.resolutionRpm()));
        // The steepest of many windows lies about two standard errors above the true steepest.
        u =
            Math.hypot(
                2 * noise * Math.sqrt(12.0 / (end - i)) / spanS,
                FallBend.of(speed, i, end, noise, SLOPE_WINDOW_S));
      }
    }
    if (Double.isNaN(atFromS)) {
      return Measured.missing(unit, "too few speed readings above 10 % of " + nominalName);
    }
    return Measured.of(
        100 * steepest / nominalRpm,
        unit,
        100 * u / nominalRpm,
        atFromS,
        atToS,
        "steepest least-squares slope over the longer of 0.1 s and five readings, of "
            + nominalName);
  }

  private Measured pipePeriods(@Nullable Measured stopTime) {
    Double lengthM = r.motor.pipeLengthM();
    Double waveMPerS = r.motor.waveSpeedMPerS();
    if (lengthM == null || waveMPerS == null) {
      return Measured.missing("", "no pipe described");
    }
    Double tookS = stopTime == null ? null : stopTime.value();
    if (stopTime == null || tookS == null) {
      return Measured.missing(
          "", "needs the stop time: " + (stopTime == null ? "" : stopTime.why()));
    }
    double periodS = 2 * lengthM / waveMPerS;
    Double u = stopTime.uncertainty();
    Map<String, Double> parts = new LinkedHashMap<>();
    parts.put("pipe_period_s", periodS);
    Double velocity = r.motor.flowVelocityMPerS();
    if (velocity != null) {
      parts.put("joukowsky_rise_bar", WATER_DENSITY * waveMPerS * velocity / PA_PER_BAR);
    }
    return Measured.of(
            tookS / periodS,
            "",
            u == null ? null : u / periodS,
            begin.atS(),
            begin.atS() + tookS,
            "stop time / (2 L / a); worst case by Joukowsky: density x wave speed x velocity")
        .withParts(parts);
  }

  private void pressure(
      Map<String, Measured> figures, Map<String, Measured> instants, double untilS) {
    double[] bar = r.track.of(ChannelName.PRESSURE);
    if (bar == null) {
      return;
    }
    Double rest = StartInstants.at(instants, "rest_s");
    double toS = rest != null ? Math.max(rest, segment.flow().toS()) : untilS;
    int before = r.firstAtOrAfter(begin.atS() - 1);
    int from = r.firstAtOrAfter(begin.atS());
    int to = Math.min(r.t.length, r.firstAtOrAfter(toS));
    double level = Noise.median(bar, before, from);
    double[] smooth = Noise.medianOfThree(bar);
    double largest = Double.NaN;
    double smallest = Double.NaN;
    for (int k = from; k < to; k++) {
      if (!Double.isNaN(smooth[k])) {
        largest = !(largest >= smooth[k]) ? smooth[k] : largest;
        smallest = !(smallest <= smooth[k]) ? smooth[k] : smallest;
      }
    }
    if (Double.isNaN(level) || Double.isNaN(largest)) {
      figures.put(
          "pressure_peak_bar", Measured.missing("bar", "no pressure reading over the stop"));
      figures.put("pressure_min_bar", Measured.missing("bar", "no pressure reading over the stop"));
      return;
    }
    double u = 2 * Noise.sigma(bar, before, to);
    String rule = " over the stop less the median of the second before it";
    figures.put(
        "pressure_peak_bar",
        Measured.of(largest - level, "bar", u, begin.atS(), toS, "largest" + rule));
    figures.put(
        "pressure_min_bar",
        Measured.of(smallest - level, "bar", u, begin.atS(), toS, "smallest" + rule));
  }
}
