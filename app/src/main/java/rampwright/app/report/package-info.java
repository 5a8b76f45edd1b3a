/**
 * The commissioning record of an asset folder as plain values: what the folder holds, how it
 * stands, what was signed and whether that is still there. What is missing is there with why.
 *
 * <p>Not here: gathering it (usecase), pages (page), JSON (json).
 */
@NullMarked
package rampwright.app.report;

import org.jspecify.annotations.NullMarked;
