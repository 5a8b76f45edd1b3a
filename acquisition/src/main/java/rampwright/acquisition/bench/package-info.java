/**
 * A virtual plant to practise recording on: the motor model played against the clock and served to
 * meters.
 *
 * <p>Here: start and stop orders, noise, faults on demand, registers, a read-only Modbus server on
 * the loopback, the channel map that reads it. Not here: where the model comes from, files, the
 * recorder, which cannot tell it from a device. Called by app.
 */
@NullMarked
package rampwright.acquisition.bench;

import org.jspecify.annotations.NullMarked;
