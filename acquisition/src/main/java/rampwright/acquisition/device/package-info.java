/**
 * Devices as sources of readings: when each is asked, what becomes of what it says or fails to say.
 *
 * <p>Here: polling, retries, delays of failing devices, lines to values, several devices on one
 * clock. Not here: libraries and system calls of a link (modbus, serial), what readings are for
 * (record). Called by record, watch and app.
 */
@NullMarked
package rampwright.acquisition.device;

import org.jspecify.annotations.NullMarked;
