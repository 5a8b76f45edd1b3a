/** How a logbook behaves when it is large; programs to run by hand, not tests. */
@NullMarked
package rampwright.exam.store;

import org.jspecify.annotations.NullMarked;
