/**
 * Modbus TCP and RTU over the Modbus library: one question, one checked answer, a hard deadline.
 *
 * <p>Here: everything that knows the library. Not here: when to ask (device). Called through {@link
 * rampwright.acquisition.device.RegisterPort}.
 */
@NullMarked
package rampwright.acquisition.modbus;

import org.jspecify.annotations.NullMarked;
