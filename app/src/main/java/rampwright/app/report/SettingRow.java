package rampwright.app.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.toml.NumberKey;
import rampwright.app.advice.SettingWords;
import rampwright.app.asset.TrialSettings;
import rampwright.app.wording.ValueText;

/**
 * One setting of a trial.
 *
 * @param key as in settings.toml
 * @param label what people call it
 * @param value as it was set; a dash where it was not noted
 * @param unit empty for a ratio or a word
 * @param before what it was in the trial before; null where it is the same, or there is none before
 */
public record SettingRow(
    String key, String label, String value, String unit, @Nullable String before) {
  private static final String NOT_NOTED = "-";
  private static final String CONTROL = "control";
  private static final String STOP = "stop";

  /**
   * Settings with what they were before.
   *
   * @param before of the trial before; null where there is none
   */
  public static List<SettingRow> of(TrialSettings settings, @Nullable TrialSettings before) {
    Map<String, String> now = texts(settings);
    Map<String, String> then = before == null ? now : texts(before);
    Map<String, String> all = new LinkedHashMap<>(now);
    then.forEach((key, value) -> all.putIfAbsent(key, NOT_NOTED));
    List<SettingRow> rows = new ArrayList<>();
    all.forEach(
        (key, value) -> {
          String was = then.getOrDefault(key, NOT_NOTED);
          rows.add(
              new SettingRow(
                  key,
                  SettingWords.label(key),
                  value,
                  value.equals(NOT_NOTED) ? "" : unit(key, settings),
                  was.equals(value) ? null : was));
        });
    return rows;
  }

  /** Those that count for the chosen control and stop. */
  public static List<SettingRow> counting(TrialSettings settings) {
    Set<String> idle =
        Set.of(
            settings.control() == TrialSettings.Control.VOLTAGE_RAMP
                ? TrialSettings.INITIAL_TORQUE_PCT.name()
                : settings.control() == null ? "" : TrialSettings.INITIAL_VOLTAGE_PCT.name());
    boolean coasts = settings.stop() == TrialSettings.Stop.COAST;
    return of(settings, null).stream()
        .filter(row -> !idle.contains(row.key()))
        .filter(
            row ->
                !coasts
                    || !(row.key().equals(TrialSettings.RELEASE_TORQUE_PCT.name())
                        || row.key().equals(TrialSettings.RAMP_DOWN_S.name())))
        .toList();
  }

  private static Map<String, String> texts(TrialSettings settings) {
    Map<String, String> texts = new LinkedHashMap<>();
    TrialSettings.Control control = settings.control();
    if (control != null) {
      texts.put(CONTROL, control.key());
    }
    settings.values().forEach((key, value) -> texts.put(key, ValueText.value(value, null)));
    TrialSettings.Stop stop = settings.stop();
    if (stop != null) {
      texts.put(STOP, stop.key());
    }
    return texts;
  }

  private static String unit(String key, TrialSettings settings) {
    if (key.equals(TrialSettings.CURRENT_LIMIT_RATIO.name())) {
      return "x rated current of the " + settings.currentLimitOf().key();
    }
    NumberKey number = TrialSettings.NUMBERS.get(key);
    return number == null ? "" : number.unit();
  }
}
