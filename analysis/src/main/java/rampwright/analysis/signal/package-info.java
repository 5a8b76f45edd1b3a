/**
 * Signal processing: cycles, RMS tracks, harmonics, symmetrical components, power. Stateless
 * functions and small value types.
 *
 * <p>Here: arithmetic that knows nothing of motors. Not here: what a start is (figure).
 */
@NullMarked
package rampwright.analysis.signal;

import org.jspecify.annotations.NullMarked;
