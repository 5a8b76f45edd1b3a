/** The root of the program: wires everything. */
@NullMarked
package rampwright.app;

import org.jspecify.annotations.NullMarked;
