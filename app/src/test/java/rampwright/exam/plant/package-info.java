/**
 * A plant to be examined on: random motors, starters, supplies and loads whose truth the product
 * cannot know, and the readings a meter would take of them.
 *
 * <p>It shares no code and no parameter object with the product's own motor model, on purpose: what
 * both believe would go unnoticed. Everything is drawn from a seed; the same seed gives the same
 * bytes.
 *
 * <p>Conventions: SI units; currents and voltages are RMS values of a phase unless the name says
 * line; torque driving the shaft forward is positive; slip is relative to the synchronous speed.
 */
@NullMarked
package rampwright.exam.plant;

import org.jspecify.annotations.NullMarked;
