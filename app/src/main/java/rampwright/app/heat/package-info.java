/**
 * The heat account of an asset folder: its file, and the asset sheet as the account takes it.
 *
 * <p>Here: {@code heat.toml} as records, its reading with every problem said, its writing. Not
 * here: the arithmetic (analysis.heat), which traces go in (usecase), words for people (cli).
 * Called by usecase and those who show an account.
 */
@NullMarked
package rampwright.app.heat;

import org.jspecify.annotations.NullMarked;
