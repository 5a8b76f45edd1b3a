package rampwright.analysis.heat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.figure.AnalyzedTrace;
import rampwright.analysis.figure.Outcome;
import rampwright.analysis.figure.StartRecord;
import rampwright.analysis.figure.StopKind;
import rampwright.analysis.figure.StopRecord;
import rampwright.analysis.quantity.Measured;
import rampwright.analysis.signal.Unbalance;
import rampwright.analysis.trace.ChannelName;

/**
 * From an analysed trace to pieces of current.
 *
 * <p>Current counts from 5 % of rated. Between inception and full speed (with its uncertainty), in
 * a soft stop, throughout a start that was not completed, and wherever the current is above twice
 * rated, the motor counts as at large slip. Each interval between two readings takes the larger
 * square of its two ends where one reading is missing, else the mean of the squares.
 *
 * <p>Formula: square = highest phase over rated, squared; rotor square = that times 1 + 3 (I2 /
 * I1)^2, the weight of the negative sequence that the heat figures use; I2 / I1 from the three
 * magnitudes of a three-wire circuit, 1 where they close no triangle (a phase lost), 0 where fewer
 * than three were measured.
 */
public final class HeatTrace {
  private static final double FLOWS = 0.05;
  private static final double SLIPS_SQUARE = 4;
  private static final double NEGATIVE_SEQUENCE_WEIGHT = 3;

  /** Pieces are not cut finer than this at large slip, and not finer than ten times it else. */
  private static final double PIECE_S = 0.25;

  /** A piece ends where the square leaves it by this share of rated squared, or of itself. */
  private static final double SAME = 0.05;

  private HeatTrace() {}

  /**
   * The pieces of a trace.
   *
   * @param ratedA rated current of where the currents were measured, A RMS
   * @return null when the trace shows no current at all
   */
  public static @Nullable HeatStretch of(AnalyzedTrace trace, double ratedA) {
    return of(trace, ratedA, ratio -> 0);
  }

  /**
   * The pieces of a trace.
   *
   * @param ratedA rated current of where the currents were measured, A RMS
   * @param unseenShare of a measured current over rated, at large slip: square of the windings'
   *     current that was not measured, over the measured square: what circulates in a delta ({@link
   *     rampwright.analysis.machine.Wiring#unseenShare}). It warms the windings and what is in
   *     series with them, not the bars; the rotor's square counts it all the same, since the
   *     locked-rotor times that it is held against may be those of the winding
   * @return null when the trace shows no current at all
   */
  public static @Nullable HeatStretch of(
      AnalyzedTrace trace, double ratedA, DoubleUnaryOperator unseenShare) {
    double[] t = trace.track().timeS();
    List<double[]> phases = new ArrayList<>();
    for (ChannelName name : ChannelName.CURRENTS) {
      double[] one = trace.track().of(name);
      if (one != null) {
        phases.add(one);
      }
    }
    if (t.length < 2 || phases.isEmpty()) {
      return null;
    }
    List<StartRecord> records = trace.figures().starts();
    HeatStretchBuilder out = new HeatStretchBuilder(PIECE_S, SAME);
    double[] last = {0, 0};
    double[] before = squares(phases, 0, ratedA, last);
    int begun = -1;
    for (int k = 1; k < t.length; k++) {
      double[] now = squares(phases, k, ratedA, before);
      double middleS = 0.5 * (t[k - 1] + t[k]);
      double square = 0.5 * (before[0] + now[0]);
      double rotor = 0.5 * (before[1] + now[1]);
      int of = ofStart(records, middleS);
      HeatPiece.State state =
          Math.sqrt(square) < FLOWS
              ? HeatPiece.State.REST
              : isSlip(records, middleS) || square > SLIPS_SQUARE
                  ? HeatPiece.State.SLIP
                  : HeatPiece.State.RUN;
      if (of >= 0 && of != begun) {
        StartRecord record = records.get(of);
        out.start(record.outcome().key(), isOpen(record));
        begun = of;
      } else if (of < 0) {
        out.startEnds();
      }
      double more =
          state == HeatPiece.State.SLIP ? 1 + unseenShare.applyAsDouble(Math.sqrt(square)) : 1;
      out.add(t[k] - t[k - 1], state, square * more, rotor * more);
      before = now;
    }
    boolean flows = Math.sqrt(before[0]) >= FLOWS;
    double end = flows ? endSquare(phases, t, ratedA) : 0;
    // What goes on after the record is not known; a motor is not left stalled for ever.
    return out.build(flows, end > SLIPS_SQUARE ? 1 : end);
  }

  /** Whether a start goes on where the trace ends. */
  private static boolean isOpen(StartRecord record) {
    return record.outcome() == Outcome.CUT_OFF
        || (record.outcome() != Outcome.COMPLETED && record.stop() == null);
  }

  /** Highest phase's square and the rotor's; what could not be read is as it was before. */
  private static double[] squares(List<double[]> phases, int k, double ratedA, double[] before) {
    double high = Double.NaN;
    boolean whole = phases.size() == 3;
    for (double[] phase : phases) {
      if (Double.isNaN(phase[k])) {
        whole = false;
      } else if (!(high >= phase[k])) {
        high = phase[k];
      }
    }
    if (Double.isNaN(high)) {
      return before;
    }
    double square = high * high / (ratedA * ratedA);
    double share = 0;
    if (whole && Math.sqrt(square) >= FLOWS) {
      share =
          Unbalance.negativeShare(
              Math.abs(phases.get(0)[k]), Math.abs(phases.get(1)[k]), Math.abs(phases.get(2)[k]));
      share = Double.isNaN(share) ? 1 : share;
    }
    return new double[] {square, square * (1 + NEGATIVE_SEQUENCE_WEIGHT * share * share)};
  }

  private static double endSquare(List<double[]> phases, double[] t, double ratedA) {
    double sum = 0;
    int n = 0;
    for (int k = t.length - 1; k >= 0 && t[k] >= t[t.length - 1] - 1; k--) {
      sum += squares(phases, k, ratedA, new double[] {1, 1})[0];
      n++;
    }
    return sum / n;
  }

  /** The start an instant belongs to; -1 when it belongs to none. */
  private static int ofStart(List<StartRecord> records, double atS) {
    for (int k = 0; k < records.size(); k++) {
      StartRecord record = records.get(k);
      Double fromS = at(record.instants(), "inception_s");
      if (record.outcome() != Outcome.ALREADY_RUNNING && fromS != null && atS >= fromS) {
        double toS = endOfStart(record);
        if (atS <= toS) {
          return k;
        }
      }
    }
    return -1;
  }

  private static boolean isSlip(List<StartRecord> records, double atS) {
    if (ofStart(records, atS) >= 0) {
      return true;
    }
    for (StartRecord record : records) {
      StopRecord stop = record.stop();
      if (stop != null && stop.kind() != StopKind.COAST) {
        Double fromS = at(stop.instants(), "stop_begin_s");
        Double toS = at(stop.instants(), "release_s");
        if (fromS != null && atS >= fromS && (toS == null || atS <= toS)) {
          return true;
        }
      }
    }
    return false;
  }

  /** Full speed and its uncertainty; without it where current settles or ceases. */
  private static double endOfStart(StartRecord record) {
    if (record.outcome() == Outcome.COMPLETED) {
      for (String key : List.of("full_speed_s", "knee_s", "settled_s")) {
        Measured instant = record.instants().get(key);
        Double atS = instant == null ? null : instant.value();
        if (instant != null && atS != null) {
          Double u = instant.uncertainty();
          return atS + (u == null ? 0 : u);
        }
      }
    }
    StopRecord stop = record.stop();
    if (stop != null) {
      Double releaseS = at(stop.instants(), "release_s");
      if (releaseS != null) {
        return releaseS;
      }
    }
    Measured i2t = record.figures().get("i2t_A2s");
    Double toS = i2t == null ? null : i2t.toS();
    return toS == null ? Double.POSITIVE_INFINITY : toS;
  }

  private static @Nullable Double at(Map<String, Measured> instants, String key) {
    Measured instant = instants.get(key);
    return instant == null ? null : instant.value();
  }
}
