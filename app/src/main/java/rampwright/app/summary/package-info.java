/**
 * Tables over many trials.
 *
 * <p>Here: results to a table, and the table as CSV; the only package that sees the table library,
 * which is slow to load and is kept off the way of a single trace. Not here: figures, screens.
 */
@NullMarked
package rampwright.app.summary;

import org.jspecify.annotations.NullMarked;
