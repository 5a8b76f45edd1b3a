/**
 * A virtual plant to practise recording on: the motor model played against the clock and served to
 * meters.
 *
 * <p>Here: start and stop orders, noise, faults on demand, registers, read-only servers on the
 * loopback and on pseudo-terminals, the channel maps that read them. Not here: where the model
 * comes from, files, the recorder, which cannot tell it from a device. Called by app.
 */
@NullMarked
package rampwright.acquisition.bench;

import org.jspecify.annotations.NullMarked;
