/**
 * The same kind of plant at waveform level: an induction machine fed by three pairs of
 * anti-parallel thyristors, three wires, star without neutral.
 *
 * <p>Conventions: instantaneous values; two-axis quantities are amplitude-invariant (the alpha axis
 * is phase 1); currents count positive into the motor; inductances in H, flux linkages in V s.
 */
@NullMarked
package rampwright.exam.wave;

import org.jspecify.annotations.NullMarked;
