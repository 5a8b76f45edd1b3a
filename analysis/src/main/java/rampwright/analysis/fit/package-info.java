/**
 * Fitting the machine model to trials: what the parameters of an asset are after its trials, how
 * sure that is, and whether the model explains the trials at all.
 *
 * <p>Here: observations as plain arrays, priors, residuals, the maximum a posteriori fit and draws
 * from its posterior. Not here: reading traces (figure), choosing settings (app).
 */
@NullMarked
package rampwright.analysis.fit;

import org.jspecify.annotations.NullMarked;
