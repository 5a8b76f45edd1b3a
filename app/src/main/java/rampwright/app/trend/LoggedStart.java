package rampwright.app.trend;

import java.time.Instant;

/**
 * One start as the trend sees it.
 *
 * @param at when it was made
 * @param settings any label that changes when the settings do
 * @param value the figure, in its own unit; NaN where it could not be had
 * @param voltageBeforeV the supply's voltage before the start; NaN where it was not recorded
 * @param counts false for a start that is kept and shown but not representative
 */
public record LoggedStart(
    Instant at, String settings, double value, double voltageBeforeV, boolean counts) {}
