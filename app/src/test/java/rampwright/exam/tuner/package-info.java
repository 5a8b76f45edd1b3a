/**
 * The advice exam: random assets with an envelope that is known to be achievable (or known not to
 * be), advisers that take turns at them through asset folders on disk, and the score.
 */
@NullMarked
package rampwright.exam.tuner;

import org.jspecify.annotations.NullMarked;
