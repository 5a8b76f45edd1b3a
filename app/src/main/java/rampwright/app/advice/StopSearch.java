package rampwright.app.advice;

import java.util.ArrayList;
import java.util.List;
import rampwright.analysis.fit.Batch;
import rampwright.analysis.machine.MachineModel;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;

/** Searches the settings of a stop for the largest chance over many models. */
final class StopSearch {
  private static final double[] RELEASE_PCT = {5, 10, 20, 30, 45};
  private static final int RAMPS = 20;
  private static final int COARSE_MODELS = 4;
  private static final int FINALISTS = 10;
  private static final double ALIKE = 0.015;

  private final Chances chances;
  private final SettingRanges ranges;
  private final Batch batch;
  private final List<MachineModel> models;
  private final double caution;

  StopSearch(
      Chances chances,
      SettingRanges ranges,
      Batch batch,
      List<MachineModel> models,
      double caution) {
    this.chances = chances;
    this.ranges = ranges;
    this.batch = batch;
    this.models = models;
    this.caution = caution;
  }

  /**
   * The best stop for these start settings; the settings as they are when nothing limits the stop.
   */
  StartSearch.Scored search(StarterSettings settings) {
    if (chances.stops().isEmpty()) {
      return new StartSearch.Scored(settings, 1);
    }
    List<StarterSettings> near = best(sample(settings), COARSE_MODELS, FINALISTS, 2.0);
    return fine(settings, near);
  }

  /** Stops spread over the whole range, the start's settings as they are. */
  List<StarterSettings> sample(StarterSettings settings) {
    List<StarterSettings> sample = new ArrayList<>();
    sample.add(with(settings, StopMode.COAST, settings.releaseTorquePct(), settings.rampDownS()));
    SettingRange range = ranges.of(Setting.RAMP_DOWN);
    double low = Math.max(0.3, range.min());
    for (double release : RELEASE_PCT) {
      for (int k = 0; k < RAMPS; k++) {
        double ramp = low * Math.pow(Math.max(1, range.max() / low), k / (RAMPS - 1.0));
        sample.add(with(settings, StopMode.SOFT, release, ramp));
      }
    }
    return sample;
  }

  private StartSearch.Scored fine(StarterSettings settings, List<StarterSettings> near) {
    List<StarterSettings> fine = new ArrayList<>(near);
    fine.add(settings);
    for (int k = 0; k < Math.min(3, near.size()); k++) {
      StarterSettings at = near.get(k);
      if (at.stop() == StopMode.SOFT) {
        for (double factor : new double[] {0.86, 0.93, 0.965, 1.035, 1.07, 1.15}) {
          fine.add(with(at, StopMode.SOFT, at.releaseTorquePct(), at.rampDownS() * factor));
        }
        fine.add(with(at, StopMode.SOFT, at.releaseTorquePct() + 3, at.rampDownS()));
        fine.add(with(at, StopMode.SOFT, Math.max(0, at.releaseTorquePct() - 3), at.rampDownS()));
      }
    }
    List<StarterSettings> last = best(fine, 12, 4, 1.3);
    if (!last.contains(settings)) {
      last.add(settings);
    }
    List<Double> finals = means(last, models.size(), 1);
    int top = 0;
    for (int k = 1; k < last.size(); k++) {
      if (finals.get(k) > finals.get(top)) {
        top = k;
      }
    }
    int present = last.indexOf(settings);
    if (present >= 0 && finals.get(present) > finals.get(top) - ALIKE) {
      top = present;
    }
    return new StartSearch.Scored(last.get(top), finals.get(top));
  }

  /** Chance of the stop's limits over all models. */
  double chance(StarterSettings settings) {
    return chances.stops().isEmpty() ? 1 : means(List.of(settings), models.size(), 1).get(0);
  }

  private List<StarterSettings> best(
      List<StarterSettings> sample, int count, int keep, double widen) {
    List<Double> values = means(sample, count, widen);
    List<Integer> order = new ArrayList<>();
    for (int k = 0; k < sample.size(); k++) {
      order.add(k);
    }
    order.sort((a, b) -> Double.compare(values.get(b), values.get(a)));
    List<StarterSettings> out = new ArrayList<>();
    for (int k = 0; k < Math.min(keep, order.size()); k++) {
      StarterSettings each = sample.get(order.get(k));
      if (!out.contains(each)) {
        out.add(each);
      }
    }
    return out;
  }

  private List<Double> means(List<StarterSettings> settings, int count, double widen) {
    int used = Math.min(count, models.size());
    List<Double> values =
        batch.map(
            settings.size() * used,
            k -> chances.ofStop(models.get(k % used), settings.get(k / used), caution * widen));
    List<Double> out = new ArrayList<>();
    for (int k = 0; k < settings.size(); k++) {
      double sum = 0;
      for (int j = 0; j < used; j++) {
        sum += values.get(k * used + j);
      }
      out.add(sum / used);
    }
    return out;
  }

  private StarterSettings with(StarterSettings s, StopMode mode, double release, double ramp) {
    return ranges.nearest(
        new StarterSettings(
            s.currentLimitRatio(),
            s.control(),
            s.rampUpS(),
            s.initialTorquePct(),
            s.initialVoltagePct(),
            s.pulseVoltagePct(),
            s.pulseS(),
            mode,
            release,
            ramp));
  }
}
