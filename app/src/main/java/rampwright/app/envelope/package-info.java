/**
 * The target: limits on figures and corridors on channels, and figures held against them.
 *
 * <p>Here: the envelope as data, the judging, the verdict. Not here: reading it from a file
 * (asset), how it is shown (cli). Called by asset, usecase and whoever shows verdicts.
 */
@NullMarked
package rampwright.app.envelope;

import org.jspecify.annotations.NullMarked;
