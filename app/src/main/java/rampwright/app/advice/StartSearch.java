package rampwright.app.advice;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import rampwright.analysis.fit.Batch;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.StarterSettings;

/**
 * Searches the settings of a start for the largest chance over many models.
 *
 * <p>A seeded sample of the whole range on the most likely model with widened errors, the best of
 * it on a few models, pattern moves from the best few on more models, the finalists on all.
 */
final class StartSearch {
  private static final int ROUGH_MODELS = 2;
  private static final double ROUGHLY = 3;
  private static final int SECOND_LOOK = 160;
  private static final int SECOND = 32;
  private static final int SECOND_MODELS = 8;
  private static final int CLIMBERS = 4;
  private static final int CLIMB_MODELS = 16;
  private static final int CLIMB_ROUNDS = 4;
  // A chance in between is worth a finer look; a good one needs none, a hopeless one rewards none.
  private static final double WORTH_LOW = 0.02;
  private static final double WORTH_HIGH = 0.93;
  private static final int REACH_EXTRA = 8;
  private static final int FINE_MODELS = 40;
  private static final int FINE_ROUNDS = 6;
  private static final double WORTH_CHOOSING = 0.15;
  private static final double ALIKE = 0.015;
  // A pulse is a blow to shaft and supply: it has to earn this much chance.
  private static final double PULSE_PRICE = 0.05;

  private final Chances chances;
  private final SettingRanges ranges;
  private final Batch batch;
  private final MachineModel best;
  private final List<MachineModel> models;
  private final StarterSettings present;
  private final double caution;
  private final boolean gentle;
  private final PeakGuard guard;

  /** Settings with their chance. */
  record Scored(StarterSettings settings, double chance) {}

  private List<Scored> sampled = List.of();

  /** For each model the best chance of any settings held against all models. */
  private final double[] reach;

  StartSearch(
      Chances chances,
      SettingRanges ranges,
      Batch batch,
      MachineModel best,
      List<MachineModel> models,
      StarterSettings present,
      double caution,
      boolean gentle) {
    this.chances = chances;
    this.ranges = ranges;
    this.batch = batch;
    this.best = best;
    this.models = models;
    this.present = present;
    this.caution = caution;
    this.gentle = gentle;
    this.guard = new PeakGuard(chances, ranges, best);
    this.reach = new double[models.size()];
  }

  /** The sample of the whole range, best first, with the chance on the most likely model. */
  List<Scored> sampled() {
    return sampled;
  }

  /** For each model the best chance of any settings looked at closely. */
  double[] reach() {
    return reach.clone();
  }

  /** The best settings found; stop settings are the present ones. */
  Scored search(Random random) {
    List<StarterSettings> sample =
        new StartSample(chances, ranges, guard, present, gentle, wide()).of(random);
    sampled = ranked(sample, rough(sample));
    List<StarterSettings> second = new ArrayList<>();
    if (!wide()) {
      second.add(present);
    }
    for (int k = 0; k < Math.min(SECOND, sampled.size()); k++) {
      second.add(sampled.get(k).settings());
    }
    List<Scored> climbers = score(second, SECOND_MODELS, 2);
    List<Scored> finalists = new ArrayList<>();
    Set<StarterSettings> seen = new HashSet<>();
    List<Scored> starts = spread(climbers);
    List<Scored> climbed =
        batch.map(
            starts.size(), k -> climb(starts.get(k).settings(), CLIMB_MODELS, CLIMB_ROUNDS, 1.6));
    for (Scored each : climbed) {
      if (seen.add(each.settings())) {
        finalists.add(each);
      }
    }
    List<StarterSettings> last = new ArrayList<>();
    for (Scored each : finalists) {
      last.add(each.settings());
    }
    for (Scored each : finalists) {
      StarterSettings held = guard.held(each.settings());
      if (seen.add(held)) {
        last.add(held);
      }
    }
    for (int k = 0; k < Math.min(REACH_EXTRA, climbers.size()); k++) {
      if (seen.add(climbers.get(k).settings())) {
        last.add(climbers.get(k).settings());
      }
    }
    if (!wide() && seen.add(present)) {
      last.add(present);
    }
    List<Scored> all = score(last, models.size(), 1);
    Scored top = all.get(0);
    if (!wide() && top.chance() > WORTH_LOW && top.chance() < WORTH_HIGH) {
      List<Scored> finer =
          batch.map(
              Math.min(2, all.size()),
              k -> climb(all.get(k).settings(), FINE_MODELS, FINE_ROUNDS, 1.15));
      List<StarterSettings> more = new ArrayList<>();
      for (Scored each : finer) {
        more.add(each.settings());
      }
      for (Scored each : all) {
        more.add(each.settings());
      }
      return choose(score(more, models.size(), 1));
    }
    return choose(all);
  }

  /** Chance of settings over all models. */
  double chance(StarterSettings settings) {
    return score(List.of(settings), models.size(), 1).get(0).chance();
  }

  /**
   * Whether this search is for lack of knowledge: it aims at completing within the peak's limit.
   */
  private boolean wide() {
    return caution > 1;
  }

  /**
   * Chances with widened errors on the most likely model and, where that leaves some, on a few
   * others.
   */
  private List<Double> rough(List<StarterSettings> sample) {
    List<Double> likely =
        batch.map(
            sample.size(), k -> chances.ofStart(best, sample.get(k), ROUGHLY * caution, wide()));
    double[] sorted = likely.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    double enough = sorted[Math.max(0, sorted.length - SECOND_LOOK)];
    int others = Math.min(ROUGH_MODELS, models.size());
    return batch.map(
        sample.size(),
        k -> {
          double sum = likely.get(k);
          for (int j = 1; sum >= enough && j <= others; j++) {
            MachineModel model = models.get(models.size() - j);
            sum += chances.ofStart(model, sample.get(k), ROUGHLY * caution, wide());
          }
          return priced(sample.get(k), sum / (1 + others));
        });
  }

  private double priced(StarterSettings s, double chance) {
    return s.hasPulse() ? chance * (1 - PULSE_PRICE) : chance;
  }

  private static List<Scored> ranked(List<StarterSettings> settings, List<Double> chances) {
    List<Scored> out = new ArrayList<>();
    for (int k = 0; k < settings.size(); k++) {
      out.add(new Scored(settings.get(k), chances.get(k)));
    }
    out.sort(Comparator.comparingDouble(Scored::chance).reversed());
    return out;
  }

  private List<Scored> score(List<StarterSettings> settings, int count, double widen) {
    int used = Math.min(count, models.size());
    List<Double> values =
        batch.map(
            settings.size() * used,
            k ->
                chances.ofStart(
                    models.get(k % used), settings.get(k / used), caution * widen, wide()));
    List<Double> means = new ArrayList<>();
    for (int k = 0; k < settings.size(); k++) {
      double sum = 0;
      for (int j = 0; j < used; j++) {
        double value = values.get(k * used + j);
        sum += value;
        if (used == models.size() && widen == 1 && !wide()) {
          reach[j] = Math.max(reach[j], value);
        }
      }
      means.add(priced(settings.get(k), sum / used));
    }
    return ranked(settings, means);
  }

  /**
   * Mean chance over the first models; when it cannot pass the one to beat, a bound on it that does
   * not either.
   */
  private double mean(StarterSettings settings, int count, double widen, double toBeat) {
    int used = Math.min(count, models.size());
    double sum = 0;
    for (int j = 0; j < used; j++) {
      double most = priced(settings, (sum + used - j) / used);
      if (most <= toBeat) {
        return most;
      }
      sum += chances.ofStart(models.get(j), settings, caution * widen, wide());
    }
    return priced(settings, sum / used);
  }

  /** The best few that are not neighbours, of each control mode at least one. */
  private List<Scored> spread(List<Scored> sorted) {
    List<Scored> out = new ArrayList<>();
    for (ControlMode mode : ControlMode.values()) {
      for (Scored each : sorted) {
        if (each.settings().control() == mode) {
          out.add(each);
          break;
        }
      }
    }
    for (Scored each : sorted) {
      boolean far = true;
      for (Scored chosen : out) {
        far = far && SettingDistance.apart(each.settings(), chosen.settings()) > 0.25;
      }
      if (far && out.size() < CLIMBERS) {
        out.add(each);
      }
    }
    return out;
  }

  /** Pattern moves along each setting, on more models, until none helps. */
  private Scored climb(StarterSettings start, int count, int rounds, double widen) {
    StarterSettings at = start;
    double chance = mean(at, count, widen, -1);
    double reach = 1;
    for (int round = 0; round < rounds; round++) {
      boolean moved = false;
      for (StarterSettings next : neighbours(at, reach)) {
        double value = mean(next, count, widen, chance);
        if (value > chance) {
          chance = value;
          at = next;
          moved = true;
        }
      }
      if (!moved) {
        reach /= 2.5;
      }
    }
    return new Scored(at, chance);
  }

  private List<StarterSettings> neighbours(StarterSettings at, double reach) {
    List<StarterSettings> out = new ArrayList<>();
    for (StarterSettings next : new Moves(ranges).ofStart(at, reach)) {
      out.add(wide() ? guard.held(next) : next);
    }
    out.removeIf(next -> next.equals(at));
    return out;
  }

  /** Among those as good as the best, the least heat; among those alike, the smaller change. */
  private Scored choose(List<Scored> sorted) {
    Scored top = sorted.get(0);
    if (top.chance() < WORTH_CHOOSING) {
      return top;
    }
    Scored chosen = top;
    double cost = Double.POSITIVE_INFINITY;
    for (Scored each : sorted) {
      if (each.chance() < top.chance() - ALIKE) {
        continue;
      }
      double heat = chances.heatOfStart(best, each.settings());
      double unguarded = guard.isOpen(each.settings()) ? 0.5 : 0;
      double value =
          Math.log(Math.max(1e-3, heat))
              + 0.05 * SettingDistance.apart(each.settings(), present)
              + unguarded;
      if (value < cost) {
        cost = value;
        chosen = each;
      }
    }
    return chosen;
  }
}
