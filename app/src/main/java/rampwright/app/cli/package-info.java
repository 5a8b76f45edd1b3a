/**
 * The command line: commands, what they print, exit codes.
 *
 * <p>Here: words to use cases and results to text. Commands are thin: parse, call one use case,
 * print. Not here: any step of the work itself. Called by the launcher alone; the only package that
 * sees the command-line library and the output streams.
 */
@NullMarked
package rampwright.app.cli;

import org.jspecify.annotations.NullMarked;
