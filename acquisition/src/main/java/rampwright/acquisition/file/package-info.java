/**
 * Trace files: CSV and COMTRADE to traces, and back.
 *
 * <p>Here: everything that knows a file format. Not here: devices, figures. Called by app.
 */
@NullMarked
package rampwright.acquisition.file;

import org.jspecify.annotations.NullMarked;
