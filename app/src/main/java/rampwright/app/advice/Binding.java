package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.fit.Batch;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.Trajectory;

/**
 * Which limits stand in the way on the most likely model: for each, the best value of its figure
 * that is reached while every other limit of that part is kept, and what keeping it would cost the
 * others.
 *
 * <p>Method: from the sample of the whole range, pattern moves that lessen first what the others
 * are missed by, then what this one is missed by.
 */
final class Binding {
  // A limit missed by less than this is taken as kept while another is looked at.
  private static final double KEPT = 0.002;
  // Missing another limit weighs this much more than missing the one looked at.
  private static final double OTHERS = 20;
  private static final double FAILED = 1000;
  private static final int CLIMBERS = 3;
  private static final int ROUNDS = 8;

  private final Chances chances;
  private final Batch batch;
  private final MachineModel model;
  private final Moves moves;
  private final StarterSettings proposed;
  private final List<Trial> starts = new ArrayList<>();
  private final List<Trial> stops = new ArrayList<>();

  /** Settings with what they do. */
  private record Trial(StarterSettings settings, Rehearsal run) {}

  Binding(
      Chances chances,
      Batch batch,
      MachineModel model,
      Moves moves,
      List<StarterSettings> startSample,
      List<StarterSettings> stopSample,
      StarterSettings proposed) {
    this.chances = chances;
    this.batch = batch;
    this.model = model;
    this.moves = moves;
    this.proposed = proposed;
    List<StarterSettings> all = new ArrayList<>(startSample);
    all.add(proposed);
    for (Trial each : batch.map(all.size(), k -> start(all.get(k)))) {
      if (each.run().run().completed()) {
        starts.add(each);
      }
    }
    if (!chances.stops().isEmpty()) {
      List<StarterSettings> ends = new ArrayList<>(stopSample);
      ends.add(proposed);
      stops.addAll(batch.map(ends.size(), k -> stop(ends.get(k))));
    }
  }

  private Trial start(StarterSettings settings) {
    Trajectory run = chances.start(model, settings);
    return new Trial(settings, chances.rehearsal(run, model, settings));
  }

  private Trial stop(StarterSettings settings) {
    Trajectory run = chances.stop(model, settings);
    return new Trial(settings, chances.rehearsal(run, model, settings));
  }

  List<Advice.Binding> find() {
    List<Advice.Binding> out = new ArrayList<>();
    Torque torque = new Torque(chances, model, moves.ranges(), proposed);
    if (starts.isEmpty()) {
      out.addAll(nothingStarts(torque));
    } else {
      part(out, chances.starts(), starts, torque);
    }
    if (!stops.isEmpty()) {
      part(out, chances.stops(), stops, null);
    }
    return out;
  }

  private List<Advice.Binding> nothingStarts(Torque torque) {
    List<Advice.Binding> out = new ArrayList<>();
    Requirement held = torque.holder();
    if (held != null) {
      double needed = held.needed(Double.NaN);
      out.add(new Advice.Binding(held.show(), Double.NaN, needed, torque.tell()));
    }
    return out;
  }

  private void part(
      List<Advice.Binding> out,
      List<Requirement> requirements,
      List<Trial> trials,
      @Nullable Torque torque) {
    boolean ofStop = torque == null;
    boolean told = ofStop;
    List<Trial> nearest =
        batch.map(
            requirements.size(), k -> nearest(requirements.get(k), requirements, trials, ofStop));
    for (int k = 0; k < requirements.size(); k++) {
      Requirement one = requirements.get(k);
      Trial best = nearest.get(k);
      if (!(one.margin(best.run()) < 0) && missed(one, requirements, best.run()) < KEPT) {
        continue;
      }
      if (!(one.margin(best.run()) < 0)) {
        // It can be kept, the others then cannot: they are the ones to tell of.
        continue;
      }
      StringBuilder text = new StringBuilder(reach(one, best.run()));
      text.append(price(one, requirements, trials, ofStop));
      if (!told && torque != null && torque.concerns(one)) {
        text.append(' ').append(torque.tell());
        told = true;
      }
      double value = one.value(best.run());
      out.add(new Advice.Binding(one.show(), value, one.needed(value), text.toString().strip()));
    }
  }

  private static String reach(Requirement one, Rehearsal run) {
    return String.format(
        Locale.ROOT,
        "With every other limit kept, %s comes to %s at best; asked is %s.",
        one.label(),
        one.told(run),
        one.asked());
  }

  /** What keeping this one does to the others. */
  private String price(
      Requirement one, List<Requirement> requirements, List<Trial> trials, boolean ofStop) {
    Trial paid =
        climb(trials, ofStop, run -> OTHERS * over(one, run) + missed(one, requirements, run));
    if (over(one, paid.run()) > KEPT) {
      String which =
          ofStop
              ? "No settings keep it"
              : String.format(
                  Locale.ROOT,
                  "No settings that reach full speed within %.0f s keep it",
                  chances.giveUpS());
      return " " + which + ", whatever the others: " + one.told(paid.run()) + " is the nearest.";
    }
    List<String> costs = new ArrayList<>();
    for (Requirement other : requirements) {
      if (!other.equals(one) && over(other, paid.run()) > KEPT) {
        costs.add(
            String.format(
                Locale.ROOT,
                "%s %s (asked %s)",
                other.label(),
                other.told(paid.run()),
                other.asked()));
      }
    }
    return costs.isEmpty()
        ? ""
        : " Settings that keep it give " + String.join(" and ", costs) + " at the nearest.";
  }

  private Trial nearest(
      Requirement one, List<Requirement> requirements, List<Trial> trials, boolean ofStop) {
    return climb(
        trials,
        ofStop,
        run -> OTHERS * missed(one, requirements, run) - Math.min(0, margin(one, run)));
  }

  /** How far the settings of a sample come down, by pattern moves from the best few. */
  private Trial climb(
      List<Trial> trials, boolean ofStop, java.util.function.ToDoubleFunction<Rehearsal> cost) {
    List<Trial> sorted = new ArrayList<>(trials);
    sorted.sort(java.util.Comparator.comparingDouble(each -> cost.applyAsDouble(each.run())));
    Trial best = sorted.get(0);
    double least = cost.applyAsDouble(best.run());
    for (int k = 0; k < Math.min(CLIMBERS, sorted.size()); k++) {
      Trial at = sorted.get(k);
      double here = cost.applyAsDouble(at.run());
      double reach = 1;
      for (int round = 0; round < ROUNDS; round++) {
        boolean moved = false;
        for (StarterSettings next :
            ofStop ? moves.ofStop(at.settings(), reach) : moves.ofStart(at.settings(), reach)) {
          Trial tried = ofStop ? stop(next) : start(next);
          double value =
              cost.applyAsDouble(tried.run())
                  + (ofStop || tried.run().run().completed() ? 0 : FAILED);
          if (value < here) {
            here = value;
            at = tried;
            moved = true;
          }
        }
        reach = moved ? reach : reach / 2.5;
      }
      if (here < least) {
        least = here;
        best = at;
      }
    }
    return best;
  }

  /** By how much the other requirements are missed altogether. */
  private static double missed(Requirement except, List<Requirement> all, Rehearsal run) {
    double sum = 0;
    for (Requirement each : all) {
      sum += each.equals(except) ? 0 : over(each, run);
    }
    return sum;
  }

  private static double over(Requirement one, Rehearsal run) {
    return Math.max(0, -margin(one, run));
  }

  /** A figure that cannot be had is as bad as one missed by its own size. */
  private static double margin(Requirement one, Rehearsal run) {
    double margin = one.margin(run);
    return Double.isNaN(margin) ? -1 : margin;
  }
}
