package rampwright.analysis.heat;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Walks through the past, piece by piece; the scratch of one account. */
final class HeatReplay {
  /** Points of the curve in a stretch nothing happens in. */
  private static final int CURVE_STEPS = 24;

  /** Instants from files are whole seconds; a start that near is in time. */
  private static final double SLACK_S = 1;

  private final HeatPlan plan;
  private final double forgetAfterS;
  private final HeatModel stated;
  private final HeatModel cautious;
  private final @Nullable RelayModel relay;
  private final HeatRules rules;
  private final List<HeatStanding.Point> curve = new ArrayList<>();
  private final List<StartHeat> starts = new ArrayList<>();
  private final List<StarterDuty.Load> loads = new ArrayList<>();

  /** The walk's state, in an array so that the fields stay what they are. */
  private final State[] state = {null};

  private record State(
      double atS,
      Levels stated,
      Levels cautious,
      double relayHighest,
      double relayLowest,
      double endSquare,
      boolean flows,
      double currentCeasedS,
      boolean hotAssumed) {
    State moved(double toS, Levels newStated, Levels newCautious, double highest, double lowest) {
      return new State(
          toS,
          newStated,
          newCautious,
          highest,
          lowest,
          endSquare,
          flows,
          currentCeasedS,
          hotAssumed);
    }

    State flowing(boolean now, double square, double ceasedS) {
      return new State(
          atS, stated, cautious, relayHighest, relayLowest, square, now, ceasedS, hotAssumed);
    }
  }

  HeatReplay(HeatPlan plan, double forgetAfterS) {
    this.plan = plan;
    this.forgetAfterS = forgetAfterS;
    this.stated = HeatModel.stated(plan.motor());
    this.cautious = HeatModel.cautious(plan.motor());
    TripClass tripClass = plan.relay();
    this.relay = tripClass == null ? null : new RelayModel(tripClass);
    this.rules = new HeatRules(plan, cautious);
  }

  /** The account is asked for the first time, of a motor nothing is known of. */
  void opened(double atS) {
    state[0] = hot(atS);
    point();
  }

  /** A person's word that the motor was cold. */
  void cold(double atS) {
    State known = state[0];
    if (known != null) {
      pass(Math.max(atS, known.atS()));
    }
    boolean hot = known != null && known.hotAssumed();
    double at = known == null ? atS : Math.max(atS, known.atS());
    state[0] =
        new State(at, Levels.COLD, Levels.COLD, 0, 0, 0, false, Double.NEGATIVE_INFINITY, hot);
    point();
  }

  void trace(HeatHistory.Dated dated) {
    boolean unknown = state[0] == null;
    if (unknown) {
      opened(dated.beginS());
    }
    boolean ranOn = now().flows();
    pass(Math.max(dated.beginS(), now().atS()));
    HeatStretch stretch = dated.stretch();
    if (stretch.beginsFlowing() && !ranOn) {
      ranUnseen();
    }
    List<HeatStretch.Start> all = stretch.starts();
    int next = 0;
    int k = 0;
    while (k < stretch.pieces().size()) {
      if (next < all.size() && all.get(next).fromPiece() == k) {
        HeatStretch.Start start = all.get(next++);
        // What was assumed before the first record is no ground to call a start too soon.
        start(dated, start, stretch.piecesOf(start), !unknown || next > 1);
        k = start.toPiece();
      } else {
        double fromS = now().atS();
        HeatPiece piece = stretch.pieces().get(k++);
        move(piece);
        // A soft stop loads the starter too.
        load(fromS, List.of(piece));
      }
    }
    if (stretch.flowsAtEnd()) {
      state[0] = now().flowing(true, stretch.endSquare(), now().atS());
    }
  }

  /** Nobody recorded what the motor did: running made it hot. */
  private void ranUnseen() {
    State at = now();
    Levels run = stated.running(1);
    double relayRun = RelayModel.runLevel();
    state[0] =
        new State(
            at.atS(),
            atLeast(at.stated(), run),
            atLeast(at.cautious(), run),
            Math.max(at.relayHighest(), relayRun),
            at.relayLowest(),
            0,
            false,
            at.atS(),
            true);
    point();
  }

  private static Levels atLeast(Levels one, Levels other) {
    return new Levels(Math.max(one.rotor(), other.rotor()), Math.max(one.stator(), other.stator()));
  }

  private State now() {
    State known = state[0];
    if (known == null) {
      throw new IllegalStateException("the account has not begun");
    }
    return known;
  }

  private State hot(double atS) {
    double run = RelayModel.runLevel();
    return new State(atS, stated.running(1), stated.running(1), run, 0, 0, false, atS, true);
  }

  private void start(
      HeatHistory.Dated dated, HeatStretch.Start start, List<HeatPiece> pieces, boolean judged) {
    State before = now();
    HeatStanding allowed = standing(before.atS(), List.of());
    Double waitS = allowed.waitS();
    boolean soon = judged && (waitS == null || waitS > SLACK_S);
    double highest = before.relayHighest();
    double lowest = before.relayLowest();
    double rotorAdded = 0;
    double statorAdded = 0;
    double fromCold = 0;
    for (HeatPiece piece : pieces) {
      move(piece);
      highest = Math.max(highest, now().relayHighest());
      lowest = Math.max(lowest, now().relayLowest());
      rotorAdded += cautious.rotorAdded(piece);
      statorAdded += cautious.statorAdded(piece);
      fromCold = relay == null ? 0 : relay.highest(fromCold, piece);
    }
    double duty = load(before.atS(), pieces);
    double hotAllowance = plan.motor().hotAllowance();
    if (start.cutOff() && rotorAdded < hotAllowance) {
      State at = now();
      double more = hotAllowance - rotorAdded;
      state[0] =
          at.moved(
              at.atS(),
              new Levels(at.stated().rotor() + more, at.stated().stator()),
              new Levels(at.cautious().rotor() + more, at.cautious().stator()),
              at.relayHighest(),
              at.relayLowest());
      rotorAdded = hotAllowance;
    }
    starts.add(
        new StartHeat(
            dated.name(),
            before.atS(),
            start.outcome(),
            dated.measured(),
            before.cautious(),
            now().cautious(),
            rotorAdded,
            statorAdded,
            duty,
            relay == null ? null : highest,
            relay == null ? null : lowest,
            fromCold,
            soon ? waitS : Double.valueOf(0),
            soon ? ruled(allowed) : null));
  }

  private static HeatPart.Kind ruled(HeatStanding allowed) {
    HeatPart.Kind kind = allowed.ruledBy();
    return kind == null ? HeatPart.Kind.ROTOR : kind;
  }

  /** Notes load on the starter, joined to the load it follows at once; gives the duty added. */
  private double load(double fromS, List<HeatPiece> pieces) {
    StarterDuty starter = plan.starter();
    double lastsS = 0;
    double duty = 0;
    double lastLoadedS = Double.NaN;
    for (HeatPiece piece : pieces) {
      lastsS += piece.lastsS();
      if (piece.state() == HeatPiece.State.SLIP) {
        lastLoadedS = fromS + lastsS;
        duty += starter == null ? 0 : starter.added(piece);
      }
    }
    if (!Double.isNaN(lastLoadedS)) {
      StarterDuty.Load last = loads.isEmpty() ? null : loads.get(loads.size() - 1);
      if (last != null && fromS - last.toS() < SLACK_S) {
        loads.set(
            loads.size() - 1, new StarterDuty.Load(last.fromS(), lastLoadedS, last.duty() + duty));
      } else {
        loads.add(new StarterDuty.Load(fromS, lastLoadedS, duty));
      }
    }
    return duty;
  }

  /** Lets time pass: standing, or running on where the last trace ended so. */
  private void pass(double toS) {
    double gapS = toS - now().atS();
    if (gapS <= 0) {
      return;
    }
    boolean runs = now().flows();
    double square = now().endSquare();
    for (int k = 0; k < CURVE_STEPS; k++) {
      double stepS = gapS / CURVE_STEPS;
      move(runs ? HeatPiece.run(stepS, square) : HeatPiece.rest(stepS));
    }
    if (runs) {
      // It must have stopped before it could be started or found again.
      state[0] = now().flowing(false, 0, toS);
    } else if (gapS > forgetAfterS) {
      ranUnseen();
    }
  }

  private void move(HeatPiece piece) {
    State at = now();
    double toS = at.atS() + piece.lastsS();
    state[0] =
        at.moved(
            toS,
            stated.after(at.stated(), piece),
            cautious.after(at.cautious(), piece),
            relay == null ? 0 : relay.highest(at.relayHighest(), piece),
            relay == null ? 0 : relay.lowest(at.relayLowest(), piece));
    if (piece.state() != HeatPiece.State.REST) {
      state[0] = now().flowing(false, 0, toS);
    }
    point();
  }

  private void point() {
    State at = now();
    curve.add(new HeatStanding.Point(at.atS(), at.stated(), at.cautious()));
  }

  /** How things stand at a moment not before the last one walked to. */
  HeatStanding standing(double nowS) {
    return standing(nowS, curve);
  }

  private HeatStanding standing(double nowS, List<HeatStanding.Point> shown) {
    if (state[0] == null) {
      state[0] = hot(nowS);
      point();
    }
    boolean running = now().flows();
    pass(Math.max(nowS, now().atS()));
    State at = now();
    return rules.standing(
        new HeatRules.Moment(
            at.atS(),
            at.stated(),
            at.cautious(),
            at.relayHighest(),
            at.currentCeasedS(),
            running,
            at.hotAssumed()),
        starts,
        loads,
        shown);
  }
}
