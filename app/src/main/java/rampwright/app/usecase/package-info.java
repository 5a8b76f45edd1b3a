/**
 * One class per use case, called by the command line and the desk alike, and the ports they need.
 *
 * <p>Here: the order of steps and what a person is told when one fails. Not here: screens, output
 * streams, exit codes, the command-line library.
 */
@NullMarked
package rampwright.app.usecase;

import org.jspecify.annotations.NullMarked;
