/**
 * Recording trials: armed with a pre-trigger buffer, journal on disk, end, trace, recovery.
 *
 * <p>Here: what becomes of readings until they are a trial's folder. Not here: asking devices
 * (device), what the trace shows (analysis), whether one may start (app). Called by watch and app.
 */
@NullMarked
package rampwright.acquisition.record;

import org.jspecify.annotations.NullMarked;
