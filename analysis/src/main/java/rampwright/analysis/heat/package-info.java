/**
 * What starts do to motor and starter: thermal bodies, trip classes, rating indices, rules on
 * starts an hour, and the account that names the strictest and says when the next start is allowed.
 *
 * <p>Here: arithmetic over dated stretches of current; times are seconds on any one axis. Not here:
 * clocks, files, calendars (app), figures of one trace (figure). Levels are shares of what is
 * allowed: 0 at ambient temperature, 1 at the limit. Currents are squares over the motor's rated
 * current squared. Formulas, ranges and sources: analysis/docs/heat.md. Called by app.
 */
@NullMarked
package rampwright.analysis.heat;

import org.jspecify.annotations.NullMarked;
