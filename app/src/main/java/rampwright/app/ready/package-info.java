/**
 * Readiness before the first start: lines that say ok, look or hold, each with its numbers, its
 * rule and the rule's source; and the list of checks before energising.
 *
 * <p>Here: what the lines and the list say, and the list's file. Not here: fitting and reading
 * (usecase), tables on a screen (cli). Called by usecase and those who show readiness.
 */
@NullMarked
package rampwright.app.ready;

import org.jspecify.annotations.NullMarked;
