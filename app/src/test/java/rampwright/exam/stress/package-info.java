/**
 * Traces as a site gives them and no tidy generator does: meters that average, drift, lose readings
 * or phases, starts aborted, repeated, caught while turning, records that begin too late. The truth
 * is the plant's; what the analysis says is held against it figure by figure.
 */
@NullMarked
package rampwright.exam.stress;

import org.jspecify.annotations.NullMarked;
