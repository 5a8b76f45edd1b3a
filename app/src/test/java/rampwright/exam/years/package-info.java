/** The exam of the trend: simulated years of starts with known changes. */
@NullMarked
package rampwright.exam.years;

import org.jspecify.annotations.NullMarked;
