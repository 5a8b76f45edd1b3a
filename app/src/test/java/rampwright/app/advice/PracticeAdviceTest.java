package rampwright.app.advice;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;

/**
 * Assets whose truth is known, made outside the project: a model fitted to the first two trials
 * predicts the third, and advice after them. The data are read in place; without them the tests are
 * skipped.
 */
class PracticeAdviceTest {

  private static List<PracticeTrials.Asset> assets() {
    Path folder = PracticeTrials.folder();
    Assumptions.assumeTrue(
        folder != null, "the practice traces are not beside this checkout (shared/practice)");
    return PracticeTrials.assets(folder);
  }

  static AdviceRequest request(PracticeTrials.Asset asset, int trials) {
    List<FigureLimit> limits = new ArrayList<>();
    asset
        .envelope()
        .forEach(
            (key, bounds) ->
                limits.add(
                    new FigureLimit(
                        key,
                        Double.isNaN(bounds[0]) ? null : bounds[0],
                        Double.isNaN(bounds[1]) ? null : bounds[1])));
    List<AdviceRequest.Trial> list = new ArrayList<>();
    for (int k = 0; k < trials; k++) {
      list.add(new AdviceRequest.Trial(asset.trials().get(k), asset.truths().get(k)));
    }
    return new AdviceRequest(asset.data(), new SettingRanges(Map.of()), limits, list, null);
  }

  /**
   * Measured: 53 of 58 inside. Nine in ten is what the range says; eight in ten is far enough below
   * that scatter of 58 does not reach it while a range that is too narrow does.
   */
  @Test
  void truthOfTheThirdTrialLiesInThePredictedRange() {
    int inside = 0;
    int count = 0;
    List<Double> errors = new ArrayList<>();
    for (PracticeTrials.Asset asset : assets()) {
      Advice advice = AdviceEngine.predict(request(asset, 2), asset.trials().get(2).settings());
      for (String key : asset.envelope().keySet()) {
        Double truth = asset.truths().get(2).get(key);
        Advice.Range range = advice.predicted().get(key);
        count++;
        if (truth != null && range != null) {
          inside += truth >= range.low() && truth <= range.high() ? 1 : 0;
          errors.add(Math.abs(Math.log(range.median() / truth)));
        }
      }
    }
    errors.sort(Double::compare);
    assertThat(inside).isGreaterThan(count * 8 / 10);
    // Measured 1.0 %: half of all figures lie within 3 % of the median.
    assertThat(errors.get(errors.size() / 2)).isLessThan(0.03);
  }

  /** Every envelope here can be met (the third trial does): advice may not say it cannot. */
  @Test
  void anAchievableEnvelopeIsNeverCalledImpossible() {
    int likely = 0;
    List<PracticeTrials.Asset> assets = assets();
    for (PracticeTrials.Asset asset : assets) {
      Advice advice = AdviceEngine.advise(request(asset, 2));
      assertThat(advice.status()).as(asset.id()).isNotEqualTo(Advice.Status.CANNOT_MEET);
      Double chance = advice.chanceAllMet();
      likely += chance != null && chance > 0.8 ? 1 : 0;
    }
    assertThat(likely).isGreaterThanOrEqualTo(assets.size() - 3);
  }

  /**
   * The third trial met its envelope on each of these assets, by margins of 3 % and more; whoever
   * is told to change then makes a further trial for nothing. Measured: 11 of 12 kept; the other's
   * start all but hangs on some of the loads its trials leave open. One more may fall to a change
   * of the draws.
   */
  @Test
  void aTrialThatMetEverythingIsKept() {
    List<String> changed = new ArrayList<>();
    List<PracticeTrials.Asset> assets = assets();
    for (PracticeTrials.Asset asset : assets) {
      Advice advice = AdviceEngine.advise(request(asset, 3));
      if (advice.status() != Advice.Status.KEEP) {
        changed.add(asset.id() + ": " + advice.reason());
      }
    }
    assertThat(changed).hasSizeLessThanOrEqualTo(2);
  }

  /**
   * What is told of one advice may not contradict itself: a chance that is larger than the share of
   * starts that come to full speed, or a change that serves nothing.
   */
  @Test
  void chanceRangesAndReasonsOfAnAdviceAgree() {
    Pattern failing = Pattern.compile("May not start: on (\\d+) %");
    for (PracticeTrials.Asset asset : assets()) {
      Advice advice = AdviceEngine.advise(request(asset, 1));
      double starting = 1;
      for (String caution : advice.cautions()) {
        Matcher match = failing.matcher(caution);
        if (match.find()) {
          starting = 1 - Integer.parseInt(match.group(1)) / 100.0;
        }
      }
      // The share is told in whole per cent.
      assertThat(advice.chanceAllMet()).as(asset.id()).isLessThan(starting + 0.006);
      assertThat(advice.changes())
          .as(asset.id())
          .noneMatch(change -> change.why().contains("follows the other changes"));
    }
  }
}
