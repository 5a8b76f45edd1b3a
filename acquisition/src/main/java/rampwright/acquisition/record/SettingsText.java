package rampwright.acquisition.record;

import java.time.Instant;

/** Makes the text of a trial's {@code settings.toml}; what it means is not known here. */
@FunctionalInterface
public interface SettingsText {
  /**
   * The text.
   *
   * @param at when the trial began
   * @param remark what is to be known about how it was recorded; empty when all went well
   */
  String of(Instant at, String remark);
}
