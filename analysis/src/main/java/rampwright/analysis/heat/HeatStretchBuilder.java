package rampwright.analysis.heat;

import java.util.ArrayList;
import java.util.List;

/** Joins short intervals of like current to pieces. */
final class HeatStretchBuilder {
  /** Away from large slip current changes nothing soon. */
  private static final double COARSER = 10;

  /** Hours of running need no more than some hundred pieces. */
  private static final double LONG_RUN_SHARE = 0.02;

  private final double pieceS;
  private final double same;
  private final List<HeatPiece> pieces = new ArrayList<>();
  private final List<HeatStretch.Start> starts = new ArrayList<>();
  private double elapsedS;
  private double lastsS;
  private double squares;
  private double rotorSquares;
  private HeatPiece.State state = HeatPiece.State.REST;
  private int openFrom = -1;
  private String openOutcome = "";
  private boolean openCutOff;

  HeatStretchBuilder(double pieceS, double same) {
    this.pieceS = pieceS;
    this.same = same;
  }

  /** A start begins with the next interval. */
  void start(String outcome, boolean cutOff) {
    startEnds();
    close();
    openFrom = pieces.size();
    openOutcome = outcome;
    openCutOff = cutOff;
  }

  /** The start that is under way, if any, has ended. */
  void startEnds() {
    if (openFrom >= 0) {
      close();
      if (pieces.size() > openFrom) {
        starts.add(new HeatStretch.Start(openFrom, pieces.size(), openOutcome, openCutOff));
      }
      openFrom = -1;
    }
  }

  void add(double intervalS, HeatPiece.State newState, double square, double rotorSquare) {
    elapsedS += intervalS;
    double least =
        newState == HeatPiece.State.SLIP
            ? pieceS
            : Math.max(COARSER * pieceS, LONG_RUN_SHARE * elapsedS);
    double mean = lastsS > 0 ? squares / lastsS : square;
    boolean like = Math.abs(square - mean) <= same * Math.max(1, mean);
    if (newState != state || (lastsS >= least && !like)) {
      close();
    }
    state = newState;
    lastsS += intervalS;
    squares += intervalS * square;
    rotorSquares += intervalS * rotorSquare;
  }

  private void close() {
    if (lastsS > 0) {
      boolean rest = state == HeatPiece.State.REST;
      pieces.add(
          new HeatPiece(
              lastsS, state, rest ? 0 : squares / lastsS, rest ? 0 : rotorSquares / lastsS));
    }
    lastsS = 0;
    squares = 0;
    rotorSquares = 0;
  }

  HeatStretch build(boolean flowsAtEnd, double endSquare) {
    startEnds();
    close();
    return new HeatStretch(pieces, starts, flowsAtEnd, endSquare);
  }
}
