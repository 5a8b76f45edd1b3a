package rampwright.analysis.heat;

import org.jspecify.annotations.Nullable;

/**
 * A starter's duty against its rating index.
 *
 * @param index its rating index; null when it is not known
 * @param starterOverMotor current of a starter pole over its rated current, for rated motor current
 */
public record StarterDuty(@Nullable RatingIndex index, double starterOverMotor) {
  /**
   * Time without load between two starts where no rating index is known: three starts an hour, s.
   * Common practice, no source; a starter made for fewer needs its index on the sheet.
   */
  public static final double UNKNOWN_OFF_S = 1200;

  public StarterDuty {
    if (!(starterOverMotor > 0)) {
      throw new IllegalArgumentException("starter over motor current " + starterOverMotor);
    }
  }

  /** Least time without load before the next start, s. */
  public double offS() {
    return index == null ? UNKNOWN_OFF_S : index.offS();
  }

  /** Share of the duty of one start that a piece takes; 0 without an index or at no load. */
  public double added(HeatPiece piece) {
    if (index == null || piece.state() != HeatPiece.State.SLIP) {
      return 0;
    }
    return index.dutyPerS(Math.sqrt(piece.square()) * starterOverMotor) * piece.lastsS();
  }

  /** One stretch of load on the starter: a start, or a soft stop. */
  public record Load(double fromS, double toS, double duty) {}
}
