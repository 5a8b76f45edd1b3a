/**
 * Advice: from the nameplate, the settings and the trials so far to the next settings, what they
 * will do and how sure that is.
 *
 * <p>Here: the search over settings, chances, reasons in plain words. Not here: files, commands,
 * fitting (analysis). No advice without evidence: each carries the fit it rests on.
 */
@NullMarked
package rampwright.app.advice;

import org.jspecify.annotations.NullMarked;
