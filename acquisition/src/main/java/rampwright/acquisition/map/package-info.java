/**
 * Channel maps: which register or field of a device is which channel, as data.
 *
 * <p>Here: the model, reading {@code *.map.toml}, decoding and encoding register words, and which
 * registers are read in one request. Not here: asking a device. Called by device, modbus, serial,
 * the bench and app.
 */
@NullMarked
package rampwright.acquisition.map;

import org.jspecify.annotations.NullMarked;
