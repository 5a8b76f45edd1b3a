package rampwright.exam.plant;

import java.util.Map;
import java.util.Random;

/**
 * One asset to be examined on: its truth, what its sheet says, its meter, and the trials made of
 * it.
 *
 * @param trade what it is: pump, fan, conveyor, compressor, mixer, crusher
 * @param seed from which days and readings are drawn
 */
public record PlantAsset(
    String trade, TruePlant truth, AssetSheet sheet, TrueMeter meter, long seed) {

  /** A trial: what was set, the truth of it, and the readings. */
  public record Trial(PlantSettings settings, TrueFigures figures, String trace) {}

  /** The day of the trial with that number; the same number gives the same day. */
  public TruePlant.Day day(int number) {
    return truth.day(new Random(seed * 31 + 7919L * number));
  }

  /** The truth of a trial, without readings. */
  public TrueFigures figures(
      PlantSettings settings, TruePlant.Day day, QuasiSteadyPlant.Conduct conduct) {
    Run run = new QuasiSteadyPlant(truth).run(settings, day, conduct);
    return TrueFigures.of(run, truth, sheet.currentA(), sheet.speedRpm());
  }

  /** One trial with its readings. */
  public Trial trial(
      PlantSettings settings, int number, QuasiSteadyPlant.Conduct conduct, String notes) {
    Run run = new QuasiSteadyPlant(truth).run(settings, day(number), conduct);
    TrueFigures figures = TrueFigures.of(run, truth, sheet.currentA(), sheet.speedRpm());
    Random noise = new Random(seed * 131 + 104729L * number);
    return new Trial(settings, figures, meter.read(run, truth.supply(), notes, noise));
  }

  /** Truth of a trial as JSON, with the verdict. */
  public static String truthJson(Trial trial, Limits limits) {
    return trial.figures().toJson(Map.of("envelope_met", limits.met(trial.figures())));
  }
}
