/**
 * Unattended recording of many assets for months.
 *
 * <p>Here: one recording after the other for each asset, the log and its turning, room on the disk,
 * set clocks, how all of it stands. Not here: one recording (record), what assets are (app). Called
 * by app.
 */
@NullMarked
package rampwright.acquisition.watch;

import org.jspecify.annotations.NullMarked;
