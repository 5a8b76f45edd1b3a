package rampwright.app.wording;

import java.util.Map;

/** What people call the instants of a trial. */
public final class InstantWords {
  private static final Map<String, String> LABELS =
      Map.of(
          "inception_s", "current begins",
          "breakaway_s", "shaft begins to turn",
          "full_speed_s", "full speed",
          "knee_s", "current falls to run",
          "bypass_s", "bypass",
          "settled_s", "current settled",
          "stop_begin_s", "stop begins",
          "release_s", "current ceases",
          "rest_s", "at rest");

  private InstantWords() {}

  /** What people call the instant of a key; the key itself where nobody named it yet. */
  public static String label(String key) {
    return LABELS.getOrDefault(key, key);
  }
}
