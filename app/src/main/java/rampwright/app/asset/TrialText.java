package rampwright.app.asset;

import java.util.LinkedHashMap;
import java.util.Map;
import rampwright.acquisition.file.ColumnMapping;
import rampwright.acquisition.file.ColumnRule;
import rampwright.acquisition.toml.TomlText;
import rampwright.app.envelope.FigureKey;

/** A trial's settings and notes as the text of {@code settings.toml}. */
final class TrialText {
  private TrialText() {}

  static String of(TrialFile trial) {
    TomlText out = new TomlText();
    TrialSettings settings = trial.settings();
    TrialSettings.Control control = settings.control();
    TrialSettings.Stop stop = settings.stop();
    out.put("control", control == null ? null : control.key());
    if (settings.currentLimitOf() == TrialSettings.LimitOf.STARTER) {
      out.put("current_limit_of", settings.currentLimitOf().key());
    }
    settings.values().forEach((key, value) -> out.put(key, value));
    out.put("stop", stop == null ? null : stop.key());
    notes(out, trial.notes());
    SeenByHand seen = trial.seen();
    if (seen != null) {
      out.section("seen");
      out.put("outcome", seen.outcome()).put("by", seen.by()).put("note", seen.note());
      for (Map.Entry<FigureKey, Double> figure : seen.figures().entrySet()) {
        out.put(figure.getKey().key(), figure.getValue());
      }
    }
    Double rateHz = trial.columns().rateHz();
    if (!trial.columns().rules().isEmpty() || rateHz != null) {
      out.section("columns");
      if (rateHz != null) {
        out.put(ColumnMapping.TIME, Map.of("rate_Hz", rateHz));
      }
      trial.columns().rules().forEach((channel, rule) -> out.put(channel, inline(rule)));
    }
    return out.toString();
  }

  private static void notes(TomlText out, TrialNotes notes) {
    if (notes.equals(TrialNotes.NONE)) {
      return;
    }
    out.section("trial");
    out.put("at", notes.at());
    out.put("representative", notes.representative());
    out.put("reason", TrialFiles.blankToNull(notes.reason()));
    if (!notes.corrected().isEmpty()) {
      Map<String, Object> corrected = new LinkedHashMap<>(notes.corrected());
      corrected.put("reason", notes.correctionReason());
      out.put("corrected", corrected);
    }
  }

  private static Map<String, Object> inline(ColumnRule rule) {
    Map<String, Object> parts = new LinkedHashMap<>();
    if (rule.name() != null) {
      parts.put("name", rule.name());
    }
    if (rule.index() != null) {
      parts.put("index", rule.index());
    }
    if (rule.unit() != null) {
      parts.put("unit", rule.unit());
    }
    if (rule.scale() != null) {
      parts.put("scale", rule.scale());
    }
    if (rule.offset() != null) {
      parts.put("offset", rule.offset());
    }
    return parts;
  }
}
