package rampwright.exam.sample;

import java.util.List;
import rampwright.exam.plant.PlantSettings;
import rampwright.exam.plant.QuasiSteadyPlant;
import rampwright.exam.wave.WavePlant;

/**
 * One trial of the samples.
 *
 * @param at when, as the folder is named: 20260309T081200Z
 * @param story what happened, in a few words, for the notes
 * @param steady how it was conducted, when the trace holds RMS readings
 * @param wave how it was conducted, when it holds the waveform; null: RMS readings
 * @param withSpeed the waveform has a speed channel
 * @param stickFactor how hard the load was to break away that day, over the usual
 * @param loadFactor how much it took that day, over the usual
 * @param reason why it is not representative; empty: it is
 * @param faults in words, for the truth file
 */
public record SampleTrial(
    String at,
    String story,
    PlantSettings settings,
    QuasiSteadyPlant.Conduct steady,
    WavePlant.@org.jspecify.annotations.Nullable Conduct wave,
    boolean withSpeed,
    double stickFactor,
    double loadFactor,
    String reason,
    List<String> faults) {

  /** A trial with RMS readings, {@code runS} from full voltage to the stop order. */
  static SampleTrial rms(String at, String story, PlantSettings settings, double runS) {
    return new SampleTrial(
        at,
        story,
        settings,
        new QuasiSteadyPlant.Conduct(runS, Double.NaN, true),
        null,
        true,
        1,
        1,
        "",
        List.of());
  }

  /** A trial recorded as a waveform. */
  static SampleTrial wave(
      String at,
      String story,
      PlantSettings settings,
      WavePlant.Conduct conduct,
      boolean withSpeed,
      List<String> faults) {
    return new SampleTrial(
        at, story, settings, QuasiSteadyPlant.Conduct.WHOLE, conduct, withSpeed, 1, 1, "", faults);
  }

  SampleTrial notRepresentative(String why) {
    return new SampleTrial(
        at, story, settings, steady, wave, withSpeed, stickFactor, loadFactor, why, faults);
  }

  SampleTrial aborted(double afterS) {
    return new SampleTrial(
        at,
        story,
        settings,
        new QuasiSteadyPlant.Conduct(6, afterS, true),
        wave,
        withSpeed,
        stickFactor,
        loadFactor,
        reason,
        faults);
  }

  SampleTrial load(double stick, double load) {
    return new SampleTrial(
        at, story, settings, steady, wave, withSpeed, stick, load, reason, faults);
  }

  /** The [trial] table of the settings file. */
  String notes() {
    String time =
        at.substring(0, 4)
            + "-"
            + at.substring(4, 6)
            + "-"
            + at.substring(6, 11)
            + ":"
            + at.substring(11, 13)
            + ":"
            + at.substring(13);
    StringBuilder text = new StringBuilder("\n[trial]\nat = ").append(time).append('\n');
    text.append("representative = ").append(reason.isEmpty()).append('\n');
    text.append("reason = \"").append(reason).append("\"\n");
    return text.toString();
  }
}
