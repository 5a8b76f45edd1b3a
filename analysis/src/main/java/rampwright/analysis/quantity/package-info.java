/**
 * What is measured: quantities with their units, phases, and a number that carries its own
 * evidence.
 *
 * <p>Here: value types only. Not here: reading units from files (acquisition), computing figures.
 * Anyone may call it; it calls nobody.
 */
@NullMarked
package rampwright.analysis.quantity;

import org.jspecify.annotations.NullMarked;
