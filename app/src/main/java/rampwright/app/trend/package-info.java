/**
 * The same figure over many starts: baseline, step, drift and forecast. Arithmetic only: starts
 * come from the logbook, words and pictures are made elsewhere.
 */
@NullMarked
package rampwright.app.trend;

import org.jspecify.annotations.NullMarked;
