/**
 * What the use cases yield: results of trials, batches and comparisons as plain values.
 *
 * <p>Here: records only. Not here: making them (usecase), writing them (json, summary), showing
 * them (cli).
 */
@NullMarked
package rampwright.app.result;

import org.jspecify.annotations.NullMarked;
