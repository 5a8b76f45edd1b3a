/** Makes the invented asset folders shipped as {@code sample-traces}. */
@NullMarked
package rampwright.exam.sample;

import org.jspecify.annotations.NullMarked;
