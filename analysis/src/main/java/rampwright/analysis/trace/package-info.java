/**
 * The trace: channels over one time axis, and where they came from. Immutable.
 *
 * <p>Here: the model every other part reads. Not here: files, devices, arithmetic on traces.
 *
 * <p>Sign conventions of the whole program: power into the motor is positive; torque that drives
 * the shaft in its running direction is positive; phase order is L1, L2, L3.
 */
@NullMarked
package rampwright.analysis.trace;

import org.jspecify.annotations.NullMarked;
