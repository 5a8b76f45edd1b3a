/**
 * The motor circuit as arithmetic: nameplate, double-cage equivalent circuit, starter law, load,
 * water column, supply, and the run-up and run-down that follow from them.
 *
 * <p>Here: quasi-steady, fundamental-frequency physics with its range stated. Not here: fitting to
 * trials ({@code fit}), limits and settings searches (app), files.
 *
 * <p>Per unit: voltage of the motor's rated line voltage, current of its rated current, impedance
 * of their quotient over sqrt 3, torque of rated shaft torque, speed of synchronous speed. Torque
 * driving the shaft forward and power into the motor are positive.
 */
@NullMarked
package rampwright.analysis.machine;

import org.jspecify.annotations.NullMarked;
