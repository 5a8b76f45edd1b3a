package rampwright.exam.wave;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The figures of a waveform trial, from the plant's own samples, as a truth file. */
public final class WaveTruth {
  private final WaveRecord record;
  private final double frequencyHz;
  private final double plateCurrentA;
  private final StringBuilder text = new StringBuilder("{\n");

  public WaveTruth(WaveRecord record, double frequencyHz, double plateCurrentA) {
    this.record = record;
    this.frequencyHz = frequencyHz;
    this.plateCurrentA = plateCurrentA;
  }

  /** A JSON object; what cannot be had is null; {@code faults} in words. */
  public String json(List<String> faults) {
    double settled = settledRpm();
    double full = first(0, settled * 0.95, true);
    double end = record.size() / record.rateHz();
    double to = record.completed ? full : Double.isNaN(record.releaseS) ? end : record.releaseS;
    put("inception_s", record.inceptionS);
    put("full_speed_s", full);
    put("start_time_s", full - record.inceptionS);
    put("breakaway_delay_s", record.breakawayS - record.inceptionS);
    double[] peak = new double[3];
    double[] crest = new double[3];
    double square = 0;
    int from = (int) Math.ceil(record.inceptionS * record.rateHz());
    int last = (int) Math.floor(to * record.rateHz());
    for (int p = 0; p < 3; p++) {
      peak[p] = extreme(record.cycleRms(p, frequencyHz), to, true);
      for (int n = from; n < Math.min(last, record.size()); n++) {
        crest[p] = Math.max(crest[p], Math.abs(record.value(p, n)));
        square += record.value(p, n) * record.value(p, n) / 3 / record.rateHz();
      }
    }
    list("peak_current_A_phases", peak);
    list("crest_current_A_phases", crest);
    put("peak_current_ratio", Math.max(peak[0], Math.max(peak[1], peak[2])) / plateCurrentA);
    put("i2t_A2s", square);
    put("i2t_ratio_s", square / plateCurrentA / plateCurrentA);
    put("rms_current_A", Math.sqrt(square / (to - record.inceptionS)));
    double[] volt = record.cycleRms(3, frequencyHz);
    double before = volt[(int) Math.max(0, record.inceptionS * 2 * frequencyHz - 4)];
    double least = extreme(volt, to, false);
    put("voltage_before_V", before);
    put("voltage_min_V", least);
    put("voltage_dip_pct", 100 * (1 - least / before));
    double begin = record.stopBeginS;
    double rest =
        record.completed && begin < end ? first(begin, settled * 0.01, false) : Double.NaN;
    put("stop_begin_s", begin);
    put("release_s", record.releaseS);
    put("rest_s", rest);
    put("stop_time_s", rest - begin);
    put("controlled_time_s", record.completed ? record.releaseS - begin : Double.NaN);
    put("settled_speed_rpm", settled);
    put("bypass_s", record.bypassS);
    put("rotor_loss_J", record.rotorLossJ);
    flag("completed", record.completed);
    flag("tripped", record.tripped);
    flag("aborted", record.aborted);
    flag("rest_reached", record.value(6, record.size() - 1) < 0.5);
    put("duration_s", end);
    List<String> quoted = new ArrayList<>();
    faults.forEach(fault -> quoted.add("\"" + fault + "\""));
    text.append(" \"faults\": [").append(String.join(", ", quoted)).append("]\n}\n");
    return text.toString();
  }

  private double settledRpm() {
    if (!record.completed) {
      return Double.NaN;
    }
    double end = record.size() / record.rateHz();
    double stop = Double.isNaN(record.stopBeginS) ? end : record.stopBeginS;
    int last = Math.min(record.size() - 1, (int) (stop * record.rateHz()));
    int many = (int) (0.5 * record.rateHz());
    double sum = 0;
    for (int n = last - many + 1; n <= last; n++) {
      sum += record.value(6, n);
    }
    return sum / many;
  }

  private double first(double fromS, double rpm, boolean above) {
    for (int n = (int) (fromS * record.rateHz()); n < record.size(); n++) {
      if (above ? record.value(6, n) >= rpm : record.value(6, n) < rpm) {
        return n / record.rateHz();
      }
    }
    return Double.NaN;
  }

  private double extreme(double[] rms, double toS, boolean largest) {
    double found = largest ? 0 : Double.POSITIVE_INFINITY;
    for (int n = 0; n < rms.length; n++) {
      double t = (n + 2) / (2 * frequencyHz);
      if (t > record.inceptionS && t <= toS) {
        found = largest ? Math.max(found, rms[n]) : Math.min(found, rms[n]);
      }
    }
    return found;
  }

  private void put(String key, double value) {
    String number = Double.isFinite(value) ? String.format(Locale.ROOT, "%.9g", value) : "null";
    text.append(" \"").append(key).append("\": ").append(number).append(",\n");
  }

  private void flag(String key, boolean value) {
    text.append(" \"").append(key).append("\": ").append(value).append(",\n");
  }

  private void list(String key, double[] three) {
    text.append(
        String.format(
            Locale.ROOT, " \"%s\": [%.7g, %.7g, %.7g],%n", key, three[0], three[1], three[2]));
  }
}
