package rampwright.app.json;

import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.analysis.machine.ControlMode;
import rampwright.analysis.machine.StarterSettings;
import rampwright.analysis.machine.StopMode;
import rampwright.app.advice.Advice;
import rampwright.app.advice.OtherDip;
import rampwright.app.advice.Setting;
import rampwright.app.envelope.FigureKey;
import rampwright.app.result.HeatResult;

/** Advice as JSON. */
public final class AdviceJson {
  private AdviceJson() {}

  /** The whole text, without a word on heat. */
  public static String advice(
      Advice advice, @Nullable StarterSettings present, List<String> used, List<String> leftOut) {
    return advice(advice, present, used, leftOut, null, null);
  }

  /**
   * The whole text.
   *
   * @param otherDip the dip where it is not measured; null where the sheet has no cable
   * @param heat the account, reckoned with the start as predicted; null where it cannot be had
   */
  public static String advice(
      Advice advice,
      @Nullable StarterSettings present,
      List<String> used,
      List<String> leftOut,
      @Nullable OtherDip otherDip,
      @Nullable HeatResult heat) {
    JsonText json = new JsonText();
    json.object(
        out -> {
          out.text("status", advice.status().key());
          out.text("reason", advice.reason());
          out.object("settings", body -> settings(body, advice.settings()));
          out.array(
              "changes",
              array ->
                  advice
                      .changes()
                      .forEach(change -> array.object(b -> change(b, change, present, advice))));
          out.object(
              "predicted",
              body ->
                  advice
                      .predicted()
                      .forEach((figure, range) -> body.object(figure, b -> range(b, range))));
          if (otherDip != null) {
            out.object(
                otherDip.atStarter() ? "starter_dip" : "busbar_dip",
                body -> {
                  body.number("share", otherDip.share());
                  body.object("pct", b -> range(b, otherDip.pct()));
                });
          }
          out.number("chance_all_met", advice.chanceAllMet());
          out.array(
              "binding",
              array -> advice.binding().forEach(one -> array.object(b -> binding(b, one))));
          out.texts("not_assessable", advice.notAssessable());
          out.texts("cautions", advice.cautions());
          out.object("model", body -> model(body, advice.model()));
          out.texts("trials_used", used);
          out.texts("trials_left_out", leftOut);
          if (heat != null) {
            out.object("heat", body -> HeatJson.answer(body, heat));
          }
        });
    return json.finish();
  }

  private static void settings(JsonText json, StarterSettings s) {
    json.text("control", control(s));
    for (Setting setting : Setting.values()) {
      json.number(setting.key(), setting.of(s));
    }
    json.text("stop", stop(s));
  }

  private static String control(StarterSettings s) {
    return s.control() == ControlMode.TORQUE_RAMP ? "torque ramp" : "voltage ramp";
  }

  private static String stop(StarterSettings s) {
    return s.stop() == StopMode.SOFT ? "soft" : "coast";
  }

  private static void change(
      JsonText json, Advice.Change change, @Nullable StarterSettings present, Advice advice) {
    json.text("setting", change.setting());
    for (Setting setting : Setting.values()) {
      if (setting.key().equals(change.setting())) {
        json.number("from", present == null ? null : Double.valueOf(setting.of(present)));
        json.number("to", setting.of(advice.settings()));
        json.text("why", change.why());
        return;
      }
    }
    json.text("from", change.from());
    json.text("to", change.to());
    json.text("why", change.why());
  }

  private static void range(JsonText json, Advice.Range range) {
    json.number("median", range.median());
    json.number("low", range.low());
    json.number("high", range.high());
  }

  private static void binding(JsonText json, Advice.Binding binding) {
    json.text("limit", binding.limit());
    json.text("figure", figure(binding.limit()));
    json.number("reachable", known(binding.reachable()));
    json.number("needed", known(binding.needed()));
    json.text("evidence", binding.evidence());
  }

  private static @Nullable Double known(double value) {
    return Double.isNaN(value) ? null : Double.valueOf(value);
  }

  /** The figure a limit begins with in words; null for a corridor or a rating. */
  private static @Nullable String figure(String limit) {
    int end = limit.indexOf(' ');
    String word = end < 0 ? limit : limit.substring(0, end);
    return FigureKey.ofKey(word).map(FigureKey::key).orElse(null);
  }

  private static void model(JsonText json, Advice.Model model) {
    json.number("residual", model.residual());
    json.object("parameters", body -> model.parameters().forEach(body::number));
    json.text("basis", model.basis());
    json.texts("assumed", model.assumed());
  }
}
