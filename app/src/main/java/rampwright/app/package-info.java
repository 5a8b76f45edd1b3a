/**
 * The root of the program: starts it and wires its parts.
 *
 * <p>Here: the only place that ends the process, reads a clock, and knows which class stands behind
 * which port. Not here: anything else.
 */
@NullMarked
package rampwright.app;

import org.jspecify.annotations.NullMarked;
