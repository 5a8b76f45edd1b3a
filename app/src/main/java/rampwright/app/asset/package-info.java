/**
 * Asset and settings files, asset folders and trial folders.
 *
 * <p>Here: what the files hold as records, their reading with every problem said, their writing,
 * where things lie in a folder. Not here: traces (acquisition), figures, verdicts. Called by
 * usecase and those who show assets.
 */
@NullMarked
package rampwright.app.asset;

import org.jspecify.annotations.NullMarked;
