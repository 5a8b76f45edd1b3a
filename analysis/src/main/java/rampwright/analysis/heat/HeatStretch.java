package rampwright.analysis.heat;

import java.util.List;

/**
 * What one trace shows of heat: pieces from its first reading to its last.
 *
 * @param pieces in time order
 * @param starts in time order
 * @param flowsAtEnd whether current still flows where the trace ends
 * @param endSquare then: mean square over the last second, over rated current squared
 */
public record HeatStretch(
    List<HeatPiece> pieces, List<Start> starts, boolean flowsAtEnd, double endSquare) {

  /**
   * One start within the pieces.
   *
   * @param fromPiece its first piece
   * @param toPiece the piece after its last
   * @param outcome how it ended, in the words of the figures
   * @param cutOff whether the trace ends before the start does
   */
  public record Start(int fromPiece, int toPiece, String outcome, boolean cutOff) {}

  public HeatStretch {
    pieces = List.copyOf(pieces);
    starts = List.copyOf(starts);
    for (Start start : starts) {
      if (start.fromPiece() < 0
          || start.toPiece() <= start.fromPiece()
          || start.toPiece() > pieces.size()) {
        throw new IllegalArgumentException(
            "start from piece "
                + start.fromPiece()
                + " to "
                + start.toPiece()
                + " of "
                + pieces.size());
      }
    }
  }

  /** Whether it begins with current flowing that no start of it explains. */
  public boolean beginsFlowing() {
    return !pieces.isEmpty()
        && pieces.get(0).state() != HeatPiece.State.REST
        && (starts.isEmpty() || starts.get(0).fromPiece() > 0);
  }

  /** Its length, s. */
  public double lastsS() {
    return pieces.stream().mapToDouble(HeatPiece::lastsS).sum();
  }

  /** The pieces of one start. */
  public List<HeatPiece> piecesOf(Start start) {
    return pieces.subList(start.fromPiece(), start.toPiece());
  }
}
