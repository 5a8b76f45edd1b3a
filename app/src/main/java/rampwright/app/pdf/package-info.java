/**
 * Pages of HTML set on paper. The only code that sees the library for it; the font it sets with
 * travels in the program, so that it needs nothing of the machine.
 */
@NullMarked
package rampwright.app.pdf;

import org.jspecify.annotations.NullMarked;
