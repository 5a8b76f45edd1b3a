/**
 * From a trace to figures: splitting into rest, start, run and stop; the instants; the figures of a
 * start and of a stop; findings.
 *
 * <p>Here: arithmetic with stated definitions (the module's {@code docs/figures.md}). Not here:
 * limits and verdicts (app), files.
 */
@NullMarked
package rampwright.analysis.figure;

import org.jspecify.annotations.NullMarked;
