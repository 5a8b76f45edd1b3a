/**
 * The rules of the house as tests. Each rule has a class planted under {@code rampwright} that
 * breaks it, so that a slip of the pen in a rule cannot make it pass for ever.
 */
@NullMarked
package rampwright.app.architecture;

import org.jspecify.annotations.NullMarked;
