/**
 * Lines of text on serial ports over the serial library. Listens only.
 *
 * <p>Here: bytes to lines. Not here: what a line says (device). Called through {@link
 * rampwright.acquisition.device.LinePort}.
 */
@NullMarked
package rampwright.acquisition.serial;

import org.jspecify.annotations.NullMarked;
